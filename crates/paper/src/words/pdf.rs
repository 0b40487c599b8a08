//! What is to be done where a PDF can't be written.

/// It is to be made shorter.
pub const SHORTEN: &str = "Divide the job, or put holes that are alike into one row with a count or with their hole locations";
/// The paper has no page.
pub const EMPTY: &str = "Print a paper that has something to say";
/// A character has no glyph.
pub const REPLACE: &str = "Replace the character in the job's text";
/// The program is at fault.
pub const REPORT: &str = "This is a fault of the program; keep the job file and report it";
