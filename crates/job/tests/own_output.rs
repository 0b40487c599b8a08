//! A pin of our own output: it says that the seal is what it was, not that it is right. That it is
//! what its description says, `seal.rs` shows.
//!
//! A pin never changes: the seals in the files of jobs stand for what is hashed here.

use quillbore_job::file::{Hash, hash};
use quillbore_job::{Issued, Paper, Seal};

/// The SHA-256 of the parts of the smallest entry, computed from the description by other means.
const SMALLEST: &str = "d653b7f4774a2dd42d614ff803532ad9fa41a284ec5d23cf3f9f3f0fe71baa33";

#[test]
fn the_seal_of_the_smallest_entry_is_what_it_was() {
    let entry = Issued {
        number: "26-0101-Q1".to_owned(),
        paper: Paper::Quotation,
        date: "2026-02-01".parse().expect("a day"),
        valid_until: None,
        file: "26-0101-Q1.pdf".to_owned(),
        kept_by: None,
        hash: hash(b""),
        lines: Vec::new(),
        rests_on: Vec::new(),
        pages: Vec::new(),
        currency: None,
        replaces: Vec::new(),
        inputs: None,
        seal: None,
    };
    let pinned = Seal {
        version: 1,
        hash: Hash::from_hex(SMALLEST).expect("a hash"),
    };
    assert_eq!(entry.sealed().seal, Some(pinned));
}
