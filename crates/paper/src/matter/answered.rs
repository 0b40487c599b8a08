//! Checks that were answered, as papers print them.

use quillbore_calc::RowId;
use quillbore_job::answer::{Answer, How};
use quillbore_job::concern::Concern;

use crate::matter::Matter;
use crate::shown;
use crate::words::customer::Lengths;
use crate::words::{answers, phrases};

/// The answered checks of one kind as the quotation states them, in the table's order.
pub(crate) fn offered(matter: &Matter<'_>, how: How) -> Vec<String> {
    let answers = matter.answers.iter().filter(|answer| answer.how == how);
    let fine = matter.fine();
    let words = matter.words();
    let said = answers.map(|answer| {
        let date = matter.form().day(answer.date);
        let said = (words.answers.offered)(answer, &lengths(matter, answer, fine), &date);
        format!("{}{said}", (words.phrases.hole)(&matter.mark(answer.row)))
    });
    said.collect()
}

/// All answered checks as the floor needs them, each with the mark it is about.
pub(crate) fn for_the_floor(matter: &Matter<'_>) -> Vec<(String, String)> {
    let fine = matter.fine();
    let said = matter.answers.iter().map(|answer| {
        let date = matter.form().day(answer.date);
        let said = answers::for_the_floor(answer, &lengths(matter, answer, fine), &date);
        (phrases::hole(&matter.mark(answer.row)), said)
    });
    said.collect()
}

fn lengths(matter: &Matter<'_>, answer: &Answer, fine: usize) -> Lengths {
    let unit = matter.job.unit;
    let phrases = &matter.words().phrases;
    // A depth may be off by a hair more than it may: the hair is to be seen.
    let decimals = shown::middling(unit) + usize::from(answer.concern == Concern::Depth);
    let given = match answer.facts.given.as_slice() {
        [] => String::new(),
        [one] => shown::with_unit(matter.form(), *one, unit, decimals),
        [lower, upper, ..] if *lower > 0.0 => (phrases.first_to_last)(
            &shown::length(matter.form(), *lower, unit, fine),
            &shown::with_unit(matter.form(), *upper, unit, fine),
        ),
        [_, upper, ..] => (phrases.at_most)(&shown::with_unit(matter.form(), *upper, unit, fine)),
    };
    Lengths {
        given,
        by: shown::with_unit(matter.form(), answer.facts.by, unit, decimals),
        is_general: has_general_depth(matter, answer.row),
    }
}

/// Whether the general tolerance stands in for limits of a row's depth, which nobody gave.
fn has_general_depth(matter: &Matter<'_>, row: RowId) -> bool {
    let mut rows = matter.input.rows.iter();
    rows.any(|input| input.id == row && input.given_depth_limits().is_none())
}
