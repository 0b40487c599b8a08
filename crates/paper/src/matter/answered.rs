//! Checks that were answered, as papers print them.

use quillbore_job::answer::{Answer, How};

use crate::matter::Matter;
use crate::shown;
use crate::words::answers::{self as words, Lengths};
use crate::words::phrases;

/// The answered checks of one kind as the quotation states them, in the table's order.
pub(crate) fn offered(matter: &Matter<'_>, how: How) -> Vec<String> {
    let answers = matter.answers.iter().filter(|answer| answer.how == how);
    let fine = matter.fine();
    let said = answers.map(|answer| {
        let date = matter.form().day(answer.date);
        let said = words::offered(answer, &lengths(matter, answer, fine), &date);
        format!("{}{said}", phrases::hole(&matter.mark(answer.row)))
    });
    said.collect()
}

/// All answered checks as the floor needs them, each with the mark it is about.
pub(crate) fn for_the_floor(matter: &Matter<'_>) -> Vec<(String, String)> {
    let fine = matter.fine();
    let said = matter.answers.iter().map(|answer| {
        let date = matter.form().day(answer.date);
        let said = words::for_the_floor(answer, &lengths(matter, answer, fine), &date);
        (phrases::hole(&matter.mark(answer.row)), said)
    });
    said.collect()
}

fn lengths(matter: &Matter<'_>, answer: &Answer, fine: usize) -> Lengths {
    let unit = matter.job.unit;
    let given = match answer.facts.given.as_slice() {
        [] => String::new(),
        [one] => shown::with_unit(matter.form(), *one, unit, shown::middling(unit)),
        [lower, upper, ..] if *lower > 0.0 => phrases::first_to_last(
            &shown::length(matter.form(), *lower, unit, fine),
            &shown::with_unit(matter.form(), *upper, unit, fine),
        ),
        [_, upper, ..] => phrases::at_most(&shown::with_unit(matter.form(), *upper, unit, fine)),
    };
    Lengths {
        given,
        by: shown::with_unit(matter.form(), answer.facts.by, unit, shown::middling(unit)),
    }
}
