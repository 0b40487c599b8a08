//! Words of the hole inspection record.

use quillbore_job::{Form, Unit};

use crate::words::kinds::Kinds;

/// The hole inspection record.
#[derive(Clone, Copy, Debug)]
pub struct Inspection {
    /// The paper's name.
    pub title: &'static str,
    /// Lead of what the customer asks of the inspection.
    pub asked_for: &'static str,
    /// Lead of the recast limit.
    pub recast: &'static str,
    /// There are no rows.
    pub no_holes: &'static str,
    /// Name of the section of what the drawing asks.
    pub asked: &'static str,
    /// Head of the characteristic's number.
    pub characteristic: &'static str,
    /// Head of the drawing's zone.
    pub zone: &'static str,
    /// Head of what proves a hole open.
    pub proved_by: &'static str,
    /// Head of the size as on the drawing.
    pub drawing_says: &'static str,
    /// Head of the pin that must go in.
    pub go: &'static str,
    /// Head of the pin that must not go in.
    pub no_go: &'static str,
    /// Name of the section of what was measured over several pieces.
    pub of_the_lot: &'static str,
    /// The same, explained.
    pub of_the_lot_remark: &'static str,
    /// Head of the numbers of holes.
    pub hole_numbers: &'static str,
    /// Head of what was measured.
    pub sizes_found: &'static str,
    /// Head of the pieces that a measurement is of.
    pub pieces: &'static str,
    /// A record that names no piece.
    pub no_piece_named: &'static str,
    /// Head of counts of holes.
    pub counted: &'static str,
    /// Of the holes: those that were looked at.
    pub checked: &'static str,
    /// Of the holes: those that did not pass.
    pub not_good: &'static str,
    /// Head of the day.
    pub date: &'static str,
    /// Head of who measured.
    pub name: &'static str,
    /// Name of the section of what was measured of each piece.
    pub by_piece: &'static str,
    /// The same, explained.
    pub by_piece_remark: &'static str,
    /// Head of the piece.
    pub piece: &'static str,
    /// Head of the depth that was measured.
    pub depth_found: &'static str,
    /// Head of whether a line is accepted.
    pub accepted: &'static str,
    /// Whether all of a line is as asked.
    pub is_accepted: fn(bool) -> &'static str,
    /// Name of the section of parts that are not as the drawing wants them.
    pub nonconformances: &'static str,
    /// None of them is on record.
    pub no_nonconformances: &'static str,
    /// What the inspector signs where all was checked.
    pub all_checked: &'static str,
    /// What the inspector signs where not all was checked, or nobody wrote down that it was.
    pub as_noted: &'static str,
    /// The sampling plan that was asked for, by its level and its acceptance quality limit.
    pub sampling: fn(&str, &str) -> String,
    /// How many of a lot are looked at, and when it passes: of what was asked the sample, the lot, most
    /// that may be not good, and one more; the lot's letter and that of its plan.
    pub sampled: fn(&str, [&str; 4], [char; 2]) -> String,
    /// Every part of a lot is looked at, by what was asked and the lot's letter.
    pub all_sampled: fn(&str, char) -> String,
    /// The table has no plan for what was asked.
    pub no_plan: fn(&str) -> String,
    /// Position, angle and gauge, as far as they are on record.
    pub measured: fn([&str; 4]) -> Vec<String>,
    /// A gauge by its number, until when it is calibrated, and how warm it was.
    pub gauge: fn(&str, &str, &str) -> String,
    /// A piece that has no serial number.
    pub without_serial: fn(usize) -> String,
    /// Holes that were looked at, by their numbers.
    pub holes_numbered: fn(&str) -> String,
    /// How holes are checked, by the kinds of holes that there are.
    pub how_checked: fn(Kinds) -> Vec<&'static str>,
    /// Pieces and serial numbers that don't come out even.
    pub uneven: fn(Form, [u32; 2]) -> String,
    /// A mark of a piece that was not measured, though others of the piece were.
    pub not_measured: &'static str,
    /// Pieces of which nothing was measured by itself, and how many.
    pub not_by_piece: fn(Form, &str, u32) -> String,
    /// Marks, on how many parts all their holes were checked, and how many parts the sample has.
    pub sample_so_far: fn(Form, &str, [u32; 2]) -> String,
    /// What the sample comes to so far.
    pub sample_state: fn(SampleState) -> &'static str,
    /// Pieces beyond those that have a line.
    pub more_pieces: fn(Form, u32) -> String,
    /// A non-conformance at its piece: its number, and what is wrong.
    pub nonconformance: fn(usize, &str) -> String,
    /// What the sizes on the page are in.
    pub sizes_in: fn(Unit) -> String,
}

/// How far a sample is looked at, and what was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SampleState {
    /// Parts of it are still to be checked.
    Open,
    /// All of it was checked, and nothing is not good.
    Passed,
    /// All of it was checked, and one not good is one too many.
    NotPassed,
    /// All of it was checked; how many parts are not good is to be counted.
    ToBeCounted,
}
