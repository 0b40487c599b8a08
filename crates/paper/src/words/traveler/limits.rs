//! Words of when the floor stops and calls.

use quillbore_job::words::own::Rests;

use crate::words::kinds::Kinds;

/// Lead of the list of reasons to stop.
pub const STOP_IF_LEAD: &str = "Stop and call the office if";
/// Name beside the reasons to stop.
pub const NAME: &str = "Stop if \u{2026}";

/// What is done then.
pub const THEN: &str = "Then: generator off; draw the electrode out while the flush runs, and where it does not run call before \
     pulling; leave part and zero as they are, mark hole and part, write down depth and electrode length.";

/// Always a reason to stop.
pub fn stop_if(kinds: Kinds, both_ends: bool) -> Vec<&'static str> {
    let mut list = vec![
        "the flush stops or turns weak before the hole is through, in a blind hole at any time, or comes out where it should not",
        "an electrode breaks in a hole, or a piece of it is missing",
        "the part, the clamp or the guide has moved",
    ];
    if kinds.open {
        list.push(if both_ends {
            "an open hole is not through though its tip, by the wear seen, is as far as planned, or is through before the travel \
             shows its depth (a second half is)"
        } else {
            "an open hole is not through though its tip, by the wear seen, is as far as planned, or is through before the travel \
             shows its depth"
        });
        if both_ends {
            list.push("the first half of a hole from both ends comes through");
        }
    }
    if kinds.blind {
        list.push(
            "the depth of a blind hole is not known any more, or it may have come out too deep",
        );
    }
    list.push("a pin says that a hole is outside its limits, also where a few are expected to be");
    list
}

/// The wear of one hole to stop at, and what is planned; of a hole from both ends, of each half.
pub fn wear(most: &str, planned: &str, is_half: bool) -> String {
    let half = if is_half { " a half" } else { "" };
    format!("{most}{half} ({planned} planned)")
}

/// Marks with the wear of one of their holes.
pub fn of_marks(marks: &str, wear: &str) -> String {
    format!("{marks}: {wear}")
}

/// A hole that uses up too much electrode, row by row.
pub fn used_up(rows: &str, rests: Option<Rests>) -> String {
    let basis = rests.map_or_else(String::new, |rests| {
        format!(" ({})", super::rests_on_shortly(rests))
    });
    format!(
        "one hole uses up more electrode than this (length before less after, dressing left out): {rows}{basis}"
    )
}
