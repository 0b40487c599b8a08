//! What is said of entries of run records that can't be: what, and what to do.

use super::marks;
use crate::typed::entry::Unit;
use crate::typed::show_quantity as show;

/// A mark that no row has.
pub(crate) fn unknown_mark(mark: &str) -> String {
    format!(
        "No row of the hole table has the mark \u{201c}{}\u{201d}: type a row's mark, one on each line.",
        marks::mark(mark)
    )
}

/// A tube that the shop doesn't have.
pub(crate) fn unknown_tube(name: &str) -> String {
    format!(
        "\u{201c}{}\u{201d} is not in the shop's list of electrodes: type a name from the list, or add it to \
         the shop's file.",
        marks::mark(name)
    )
}

/// A tube that was longer than it can be.
pub(crate) fn tube_too_long(before_mm: f64, longest_mm: f64, named: bool, unit: Unit) -> String {
    let of = if named {
        "a new one of that size is"
    } else {
        "the longest one in the shop is"
    };
    format!(
        "The electrode was {} long before, but {of} {}: check the length, its unit, and which electrode was used.",
        show::length_with_unit(before_mm, unit),
        show::length_with_unit(longest_mm, unit)
    )
}

/// More dressed off than was lost.
pub(crate) fn dressed() -> String {
    "More was dressed or cut off than the electrode lost in all: check it against the lengths before and \
     after."
        .to_owned()
}

/// A depth far beyond what the mark asks.
pub(crate) fn too_deep(reached_mm: f64, asked_mm: f64, unit: Unit) -> String {
    format!(
        "A depth of {} was reached where {} is asked for: check the depth, its unit and the mark.",
        show::length_with_unit(reached_mm, unit),
        show::length_with_unit(asked_mm, unit)
    )
}

/// More minutes than a stretch takes.
pub(crate) fn many_minutes(most: f64) -> String {
    format!(
        "More than {most:.0} minutes on one line: check the figure, or give each stretch a line of its own."
    )
}

/// Sparking and stops longer than the clock.
pub(crate) fn clock_too_short(spark: Option<f64>, clock: f64, stops: Option<f64>) -> String {
    let mut others: Vec<String> = Vec::new();
    let sparking = |minutes| format!("{} of sparking", show::minutes_with_unit(minutes));
    let stood = |minutes| format!("{} of stops", show::minutes_with_unit(minutes));
    others.extend(spark.map(sparking));
    others.extend(stops.map(stood));
    format!(
        "{} by the clock is too short for {}: check which is mistyped.",
        show::minutes_with_unit(clock),
        others.join(" and ")
    )
}

/// More parts than were received.
pub(crate) fn too_many_parts(mark: &str, parts: u64, most: u64) -> String {
    let lines = if mark.is_empty() {
        "This line has".to_owned()
    } else {
        format!("The lines of {} have", marks::mark(mark))
    };
    format!(
        "{lines} {parts} parts good and scrap together, {most} could be there: count each part on one line \
         of a mark, or correct how many were received."
    )
}

/// More holes than all parts have.
pub(crate) fn too_many_holes(mark: &str, holes: u64, each: u64, pieces: u64) -> String {
    format!(
        "The lines of {} have {holes} holes; {each} in each of {pieces} parts are {}: check holes, mark and \
         parts.",
        marks::mark(mark),
        each.saturating_mul(pieces)
    )
}

/// Sizes that are none.
pub(crate) fn pins(typed: &str) -> String {
    const LETTERS: usize = 40;
    format!(
        "\u{201c}{}\u{201d} holds other words than sizes, so none is read from it: type sizes alone, such as \
         0.80 / 0.82, and the rest under trouble.",
        marks::beginning(typed, LETTERS)
    )
}
