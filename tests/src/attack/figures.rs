//! Figures of any job at any shop's rates.

use std::sync::LazyLock;

use quillbore_job::file::read_job;
use quillbore_job::results::results_now;
use quillbore_job::{Job, Shop};

use super::edits::some_edits;
use super::pick::Pick;

static JOB: LazyLock<Job> = LazyLock::new(|| {
    read_job(include_bytes!("../../../demo-jobs/26-0101.ron")).unwrap_or_default()
});

/// A job with everything that a price needs.
pub(super) fn a_job() -> Job {
    JOB.clone()
}

/// Whatever is done to a job: its figures are numbers or not there.
pub(super) fn of_any_job(bytes: &[u8]) {
    let Ok(shop) = Shop::embedded() else {
        panic!("the shop of the program");
    };
    let job = some_edits(&a_job(), &mut Pick::new(bytes), 12);
    are_numbers(&job, shop);
}

/// No figure is anything but a finite number.
pub(super) fn are_numbers(job: &Job, shop: &Shop) {
    let figures = format!("{:?}", results_now(job, shop).figures);
    for none in ["NaN", "inf"] {
        let mut found = figures.match_indices(none);
        let part_of_word = |at: usize| {
            let beside = |letter: Option<char>| letter.is_some_and(char::is_alphabetic);
            let (before, after) = (&figures[..at], &figures[at + none.len()..]);
            beside(before.chars().next_back()) || beside(after.chars().next())
        };
        let hit = found.find(|(at, _)| !part_of_word(*at));
        let around = hit.map(|(at, _)| &figures[at.saturating_sub(200)..at + 3]);
        assert!(around.is_none(), "a figure is no number: {around:?}");
    }
}
