//! What is said of entries of run records that can't be: what, and what to do.

use super::marks;
use crate::typed::form::Form;

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
        "\u{201c}{}\u{201d} is not in the shop's list of electrodes: type a name from the list, or add it on \
         the shop's page (F7).",
        marks::mark(name)
    )
}

/// A tube that was longer than it can be.
pub(crate) fn tube_too_long(before: &str, longest: &str, named: bool) -> String {
    let of = if named {
        "a new one of that size is"
    } else {
        "the longest one in the shop is"
    };
    format!(
        "The electrode was {before} long before, but {of} {longest}: check the length, its unit, and which electrode was used."
    )
}

/// Holes whose record doesn't say how many electrodes they took.
pub(crate) fn electrodes_unsaid(name: &str) -> String {
    format!(
        "This line doesn't say how many of {name} it took: nothing is taken off what lies in the drawer. Type \
         their number, as 3, or which they were, as 1 to 3; or count the drawer again."
    )
}

/// More parts that went out or never will than were ordered.
pub(crate) fn more_than_ordered(sent: u32, never: u32, ordered: u32, form: Form) -> String {
    let [sent, never, ordered] = [sent, never, ordered].map(|parts| form.count(f64::from(parts)));
    format!(
        "{sent} delivered and {never} not to be delivered are more than the {ordered} ordered: check the counts."
    )
}

/// Electrodes that were counted on the day of a record.
pub(crate) fn counted_that_day(name: &str, day: &str) -> String {
    format!(
        "{name} was counted in the drawer on {day}, the day of this line: what it used is taken to be off that \
         count. Where it isn't, count again, or type the day before as the day of the count."
    )
}

/// Scrap of which nobody said what becomes of it.
pub(crate) fn scrap_unsaid(parts: u32, form: Form) -> String {
    let parts = match parts {
        1 => "1 part is".to_owned(),
        parts => format!("{} parts are", form.count(f64::from(parts))),
    };
    format!(
        "By the run records {parts} scrap. Say on a non-conformance how many are to be redone and how many are \
         not to be delivered: until then all that were ordered are still to go out."
    )
}

/// More dressed off than was lost.
pub(crate) fn dressed() -> String {
    "More was dressed or cut off than the electrode lost in all: check it against the lengths before and \
     after."
        .to_owned()
}

/// A depth far beyond what the mark asks.
pub(crate) fn too_deep(reached: &str, asked: &str) -> String {
    format!(
        "A depth of {reached} was reached where {asked} is asked for: check the depth, its unit and the mark."
    )
}

/// More minutes than a stretch takes.
pub(crate) fn many_minutes(most: &str) -> String {
    format!(
        "More than {most} on one line: check the figure, or give each stretch a line of its own."
    )
}

/// Sparking and stops longer than the clock.
pub(crate) fn clock_too_short(
    spark: Option<f64>,
    clock: f64,
    stops: Option<f64>,
    form: Form,
) -> String {
    let mut others: Vec<String> = Vec::new();
    let sparking = |minutes| format!("{} of sparking", form.minutes_with_unit(minutes));
    let stood = |minutes| format!("{} of stops", form.minutes_with_unit(minutes));
    others.extend(spark.map(sparking));
    others.extend(stops.map(stood));
    format!(
        "{} by the clock is too short for {}: check which is mistyped.",
        form.minutes_with_unit(clock),
        others.join(" and ")
    )
}

/// More parts than were received.
pub(crate) fn too_many_parts(mark: &str, parts: u64, most: u64, form: Form) -> String {
    let [parts, most] = [parts, most].map(|count| form.count(count as f64));
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
pub(crate) fn too_many_holes(mark: &str, [holes, each, pieces]: [u64; 3], form: Form) -> String {
    let counts = [holes, each, pieces, each.saturating_mul(pieces)];
    let [holes, each, pieces, all] = counts.map(|count| form.count(count as f64));
    format!(
        "The lines of {} have {holes} holes; {each} in each of {pieces} parts are {all}: check holes, mark \
         and parts.",
        marks::mark(mark)
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
