//! Phrases that several papers build their lines of.

use quillbore_job::{Form, Unit};

pub use crate::words::counted::{count, typed_count};
use crate::words::customer::Phrases;

/// What customers read of them in English.
pub(super) const WORDS: Phrases = Phrases {
    then: THEN,
    not_named: NOT_NAMED,
    no_delivery: NO_DELIVERY,
    revised,
    first_to_last,
    and_more: |more| format!("{more}\u{a0}more"),
    row,
    hole,
    some_of,
    at_most,
    of_day,
};

/// Between things that come one after the other.
pub const THEN: &str = ", then ";
/// Nobody has said what it is.
pub const NOT_NAMED: &str = "not named";
/// No delivery is on record.
pub const NO_DELIVERY: &str = "No delivery is on record yet.";

/// A part or drawing in a revision.
pub fn revised(what: &str, revision: &str) -> String {
    format!("{what} rev {revision}")
}

/// Things that run on, by first and last.
pub fn first_to_last(first: &str, last: &str) -> String {
    format!("{first}\u{a0}to\u{a0}{last}")
}

/// A row of holes that has no mark.
pub fn row(number: usize) -> String {
    format!("row {number}")
}

/// Lead of what is said of a row of holes.
pub fn hole(mark: &str) -> String {
    format!("Hole {mark}: ")
}

/// Lead of what is said of a setup.
pub fn setup(number: usize) -> String {
    format!("Setup {number}: ")
}

/// The same within a sentence.
pub fn in_setup(number: usize) -> String {
    format!("setup {number}: ")
}

/// Some of a number of things.
pub fn some_of(form: Form, some: u32, all: u32) -> String {
    let [some, all] = [some, all].map(|count| form.count(f64::from(count)));
    format!("{some} of {all}")
}

/// A limit that has no lower one.
pub fn at_most(limit: &str) -> String {
    format!("at most {limit}")
}

/// A paper's number with its day.
pub fn of_day(number: &str, day: &str) -> String {
    format!("{number} of {day}")
}

/// A unit of length in full.
pub fn unit_in_full(unit: Unit) -> &'static str {
    match unit {
        Unit::Mm => "millimeters",
        Unit::Inch => "inches",
    }
}
