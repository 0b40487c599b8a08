//! What side notes say and offer, by the shop that the program carries.
#![allow(
    dead_code,
    unreachable_pub,
    reason = "each test file uses another part of it"
)]
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

use quillbore_job::results::{SideNote, Telling};
use quillbore_job::{Edit, Job, Shop};

pub fn said(job: &Job, note: &SideNote) -> String {
    let shop = Shop::embedded().expect("the shop");
    Telling::new(job, shop).text(note).into_owned()
}

pub fn offered(job: &Job, note: &SideNote) -> Edit {
    let shop = Shop::embedded().expect("the shop");
    let telling = Telling::new(job, shop);
    telling.offer(note).expect("an offer").edit.clone()
}
