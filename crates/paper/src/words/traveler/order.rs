//! Words of the electrodes' order.

use quillbore_job::Form;
use quillbore_job::words::own::Rests;

/// Nothing is worked out yet about the electrodes' order.
pub const NO_LOADS: &str = "Deep holes first on a new electrode. Change when what is left of it no \
     longer reaches the setting.";
/// Name of the section.
pub const NAME: &str = "Order, and when to change the electrode";
/// Head of the electrode's number.
pub const NUMBER: &str = "No.";
/// Head of the holes on an electrode.
pub const DRILLS: &str = "drills in all";
/// Head of what is left of it.
pub const LEFT: &str = "then left to use";
/// Head of what becomes of that.
pub const REST: &str = "what to do with the rest";

/// What becomes of what is left of an electrode.
pub fn rest(still: &str) -> String {
    if still.is_empty() {
        "too short for this job's holes".to_owned()
    } else {
        format!("keep, mark its length: still drills {still}")
    }
}

/// Halves that don't meet are seen on one part, not on all.
fn first_from_both_ends(setups: &[usize]) -> String {
    let setups: Vec<String> = setups.iter().map(usize::to_string).collect();
    format!(
        " Before that, the first piece goes through the setups of its holes from both ends ({}), with every electrode \
         that they take, and is approved: only then is it known that the halves meet. That is setting up each of them once more \
         than planned; write the time down. In the other setups the first piece is \
         drilled to its end, and approved, before the others.",
        setups.join(", ")
    )
}

/// How the lot is worked through: parts one after another, or electrodes.
pub fn work(parts: u32, part_by_part: &[bool], both_ends: &[usize]) -> String {
    let several = part_by_part.len() > 1;
    let whole = "every part gets all its holes before the next is loaded";
    let passes = "all parts with one electrode size and tilt before the next, since to change these takes longer \
                  than to load again";
    let mut said = match (parts, part_by_part) {
        (1, _) => "One part: all holes of one electrode size before the next.".to_owned(),
        (_, all) if all.iter().all(|whole| *whole) && several => {
            format!("Part by part: in each setup {whole}.")
        }
        (_, all) if all.iter().all(|whole| *whole) => format!("Part by part: {whole}."),
        (_, [_]) => format!("Electrode by electrode: {passes}."),
        (_, all) => {
            let of = |by_part: bool| {
                let numbers = (1..).zip(all).filter(|(_, of)| **of == by_part);
                let numbers: Vec<String> =
                    numbers.map(|(at, _): (usize, _)| at.to_string()).collect();
                numbers.join(", ")
            };
            let (whole_in, passes_in) = (of(true), of(false));
            if whole_in.is_empty() {
                format!("Electrode by electrode in each setup: {passes}.")
            } else {
                format!(
                    "Setup {passes_in}: electrode by electrode, {passes}. Setup {whole_in}: part by part, \
                     {whole}."
                )
            }
        }
    };
    if several && parts > 1 {
        said += " All parts in one setup before the next setup.";
    }
    if !both_ends.is_empty() {
        said += &first_from_both_ends(both_ends);
    } else if parts > 1 {
        said += " Before that, in each setup, the first piece is drilled to its end with every electrode it takes, and approved.";
    }
    said
}

/// What the plan goes on with beyond the lines that are printed.
pub fn and_so_on(form: Form, more: u64) -> String {
    format!(
        "And {} more electrodes in the same order: change by the length on page 1.",
        form.count(more as f64)
    )
}

/// What the plan rests on, and what to go by.
pub fn remark(rests: Option<Rests>) -> String {
    let mut remark = "planned at the usual wear".to_owned();
    if let Some(rests) = rests {
        remark += &format!(" ({})", super::rests_on_shortly(rests));
    }
    remark
        + "; how many, not in which turn: that is on the map; go by what is left when it is measured"
}
