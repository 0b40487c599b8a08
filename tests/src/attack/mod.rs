//! What must hold of any bytes that reach the program, reader by reader.
//!
//! A check panics where something doesn't hold. The loops of `tests/attack` throw millions of changed
//! bytes at them; what they find is kept in `tests/attack/cases` and replayed in every test run.

#![expect(clippy::panic, reason = "a check that fails is a failed test")]

mod beside;
mod books;
mod cells;
mod compared;
mod drawings;
mod edits;
mod figures;
mod files;
mod pages;
mod papers;
mod pick;
mod solids;
mod tables;

pub use pick::TEXTS;

/// A reader of the program and what must hold of it, whatever the bytes.
#[derive(Clone, Copy)]
pub struct Reader {
    /// Its name, which is the folder of its cases.
    pub name: &'static str,
    /// What must hold; panics where it doesn't.
    pub check: fn(&[u8]),
    /// How many of a thousand runs are its own.
    pub share: u32,
}

/// Every reader.
pub const READERS: &[Reader] = &[
    Reader {
        name: "job",
        check: files::job,
        share: 150,
    },
    Reader {
        name: "shop",
        check: files::shop,
        share: 100,
    },
    Reader {
        name: "table",
        check: tables::file,
        share: 130,
    },
    Reader {
        name: "block",
        check: tables::block,
        share: 130,
    },
    Reader {
        name: "dxf",
        check: drawings::dxf,
        share: 100,
    },
    Reader {
        name: "cell",
        check: cells::typed,
        share: 150,
    },
    Reader {
        name: "step",
        check: solids::step,
        share: 30,
    },
    Reader {
        name: "pdf",
        check: pages::pdf,
        share: 30,
    },
    Reader {
        name: "workbook",
        check: books::workbook,
        share: 40,
    },
    Reader {
        name: "compare",
        check: compared::two,
        share: 40,
    },
    Reader {
        name: "words",
        check: beside::words,
        share: 90,
    },
    Reader {
        name: "cache",
        check: beside::cache,
        share: 40,
    },
    Reader {
        name: "draft",
        check: beside::draft,
        share: 10,
    },
    Reader {
        name: "edits",
        check: edits::edits,
        share: 40,
    },
    Reader {
        name: "merge",
        check: edits::merge,
        share: 20,
    },
    Reader {
        name: "figures",
        check: figures::of_any_job,
        share: 8,
    },
    Reader {
        name: "papers",
        check: papers::of_any_job,
        share: 2,
    },
];
