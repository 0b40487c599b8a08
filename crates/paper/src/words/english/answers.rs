//! What papers say of checks that were answered: to the customer, and to the floor.

use quillbore_job::answer::{Answer, How};
use quillbore_job::concern::Concern;

use crate::words::customer::{Answers, Lengths};

/// What customers read of them in English.
pub(super) const WORDS: Answers = Answers {
    please_confirm,
    offered,
};

/// What is asked of the customer as long as nobody has answered.
#[must_use]
pub const fn please_confirm(concern: Concern) -> &'static str {
    match concern {
        Concern::Limits => {
            "these limits can't be promised with the electrodes that we have; please tell us which \
             size and tolerance you can accept."
        }
        Concern::AssumedLimits => {
            "the drawing gives no limits; please tell us whether those named above will do."
        }
        Concern::WallBehind => {
            "the clearance behind the exit is less than the electrode needs; please tell us whether \
             the wall there may be marked, or whether backing can be put in."
        }
        Concern::Step => {
            "it is drilled from both ends, and the two halves may miss each other; please tell us \
             which step in the middle you can accept."
        }
        Concern::Depth => {
            "a blind depth is as sure as the electrode's wear, and these limits are closer; please \
             tell us which depth and tolerance you can accept."
        }
    }
}

/// An answered check as the quotation states it; `lengths` are its facts as papers show them.
#[must_use]
pub fn offered(answer: &Answer, lengths: &Lengths, date: &str) -> String {
    let Lengths { given, by, .. } = lengths;
    let what = match (answer.concern, answer.how) {
        (Concern::Limits, How::Agreed) => {
            format!("{given} can't be promised for every hole; the customer accepts that")
        }
        (Concern::Limits, How::Accepted) => {
            format!(
                "{given} is closer than this process holds in every hole; it is offered as drawn"
            )
        }
        (Concern::AssumedLimits, _) => format!("the drawing gives no limits; {given} is taken"),
        (Concern::WallBehind, _) => {
            format!("the wall {given} behind the exit may be marked by the electrode")
        }
        (Concern::Depth, _) => {
            format!(
                "the blind depth may be off by {by}; {}",
                depth_limits(lengths)
            )
        }
        (Concern::Step, _) => format!(
            "drilled from both ends; where the halves meet, a step of up to {by} may remain"
        ),
    };
    match answer.how {
        How::Agreed => format!(
            "{what}. Agreed by {}, {date}.",
            answer.said.trim_end_matches('.')
        ),
        How::Accepted => format!("{what}."),
    }
}

/// An answered check as the floor needs it: what may happen, who bears it, what to do.
#[must_use]
pub fn for_the_floor(answer: &Answer, lengths: &Lengths, date: &str) -> String {
    let Lengths { given, by, .. } = lengths;
    let what = match answer.concern {
        Concern::Limits => {
            format!("{given} may not be held in every hole: measure, and record each hole outside")
        }
        Concern::AssumedLimits => format!("the drawing gives no limits; work to {given}"),
        Concern::WallBehind => {
            format!("the wall {given} behind the exit may be marked, but not drilled into")
        }
        Concern::Depth => format!(
            "the depth may be off by {by}; {}: measure, and record each hole outside",
            depth_limits(lengths)
        ),
        Concern::Step => format!("a step of up to {by} where the two halves meet may remain"),
    };
    let said = answer.said.trim_end_matches('.');
    let noted = match answer.by.as_str() {
        "" => date.to_owned(),
        by => format!("{by}, {date}"),
    };
    match answer.how {
        How::Agreed => format!("{what}. Agreed by {said} ({noted})."),
        How::Accepted => format!("{what}. Accepted by the shop: {said} ({noted})."),
    }
}

/// How far a depth may be off, and who says so.
fn depth_limits(lengths: &Lengths) -> String {
    let given = &lengths.given;
    if lengths.is_general {
        format!("no limits are given for it, by ISO 2768-m it is {given} to either side")
    } else {
        format!("{given} is allowed to either side")
    }
}
