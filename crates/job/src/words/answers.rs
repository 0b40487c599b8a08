//! What is said of checks that concern the customer, and of the answers to them.

use crate::pinned::answer::{Answer, How};
use crate::pinned::concern::Concern;
use crate::typed::form::Form;

/// Offer: take an answer away.
pub const DELETE: &str = "delete the answer";

/// What a check asks, as a few words.
#[must_use]
pub const fn concern(concern: Concern) -> &'static str {
    match concern {
        Concern::Limits => "limits not to be promised",
        Concern::AssumedLimits => "limits assumed",
        Concern::WallBehind => "wall behind the exit",
        Concern::Step => "step where two ends meet",
        Concern::Depth => "depth not to be promised",
    }
}

/// What can be answered, as something to press.
#[must_use]
pub const fn how(how: How) -> &'static str {
    match how {
        How::Agreed => "told and agreed",
        How::Accepted => "accepted by us",
    }
}

/// What is typed with an answer.
#[must_use]
pub const fn wanted(how: How) -> &'static str {
    match how {
        How::Agreed => "the customer was told and agreed, by whom",
        How::Accepted => "we accept it, because",
    }
}

/// One sentence: the answer that counts.
#[must_use]
pub fn answered(answer: &Answer, form: Form) -> String {
    let said = answer.said.trim_end_matches('.');
    match answer.how {
        How::Agreed => format!(
            "Told to the customer and agreed by {said}{}.",
            noted(answer, form)
        ),
        How::Accepted => format!("Accepted by us: {said}{}.", noted(answer, form)),
    }
}

/// One sentence: an answer that was given for other facts.
#[must_use]
pub fn outdated(answer: &Answer, form: Form) -> String {
    format!(
        "The answer of {} ({}) was given for other facts and doesn't count: ask again.",
        form.day(answer.date),
        told(answer)
    )
}

/// One sentence: an answer to what is no longer asked.
#[must_use]
pub fn to_nothing(answer: &Answer, form: Form) -> String {
    format!(
        "The answer of {} ({}) is to \u{201c}{}\u{201d}, which is no longer asked: it doesn't count.",
        form.day(answer.date),
        told(answer),
        concern(answer.concern)
    )
}

/// Half a sentence: who bears it, and what was said.
pub(super) fn told(answer: &Answer) -> String {
    match answer.how {
        How::Agreed => format!("agreed by {}", answer.said),
        How::Accepted => format!("accepted by us: {}", answer.said),
    }
}

/// When it was noted, and by whom.
fn noted(answer: &Answer, form: Form) -> String {
    let day = form.day(answer.date);
    match answer.by.as_str() {
        "" => format!(" ({day})"),
        by => format!(" ({by}, {day})"),
    }
}
