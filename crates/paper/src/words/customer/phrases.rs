//! Phrases that several papers build their lines of.

use quillbore_job::Form;

/// Phrases that several papers build their lines of.
#[derive(Clone, Copy, Debug)]
pub struct Phrases {
    /// Between things that come one after the other.
    pub then: &'static str,
    /// Nobody has said what it is.
    pub not_named: &'static str,
    /// No delivery is on record.
    pub no_delivery: &'static str,
    /// A part or drawing in a revision.
    pub revised: fn(&str, &str) -> String,
    /// Things that run on, by first and last.
    pub first_to_last: fn(&str, &str) -> String,
    /// So many things more than are named.
    pub and_more: fn(usize) -> String,
    /// A row of holes that has no mark.
    pub row: fn(usize) -> String,
    /// Lead of what is said of a row of holes.
    pub hole: fn(&str) -> String,
    /// Some of a number of things.
    pub some_of: fn(Form, u32, u32) -> String,
    /// A limit that has no lower one.
    pub at_most: fn(&str) -> String,
    /// A paper's number with its day.
    pub of_day: fn(&str, &str) -> String,
}
