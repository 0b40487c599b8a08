//! What is said of a job's life: its state, what differs, what is in the way, what changed.

use super::{english, slips};
use crate::life::{Blocker, Difference, State};
use crate::merge::Clash;
use crate::reorder::Changed;
use crate::slip::{Line, Slip};
use crate::words::names;

/// A state, in plain words.
#[must_use]
pub const fn state(state: State) -> &'static str {
    match state {
        State::Inquiry => "inquiry",
        State::Quoted => "quoted",
        State::Ordered => "ordered",
        State::PartsHere => "parts here",
        State::OnTheFloor => "on the floor",
        State::Delivered => "delivered",
        State::LaidAside => "laid aside",
    }
}

/// One sentence: what differs between order and quotation.
#[must_use]
pub fn difference(difference: &Difference) -> String {
    match difference {
        Difference::NoQuotation => {
            "No quotation of this job stands that the order could be held against.".to_owned()
        }
        Difference::OtherPaper { named } => format!(
            "The order names \u{201c}{named}\u{201d}, and no quotation of that number stands."
        ),
        Difference::TooLate { until } => {
            format!("The quotation stood until {until}; the order came later.")
        }
        Difference::Quantity { ordered, quoted } => format!(
            "{ordered} were ordered, which was not priced; the nearest quantity is {quoted}."
        ),
        Difference::Price { ordered, quoted } => {
            format!("The order pays {ordered} each, {quoted} was quoted.")
        }
        Difference::Revision { ordered, quoted } => format!(
            "The order is for revision {ordered}; quotation or sheet say {}.",
            or_none(quoted)
        ),
        Difference::DrawingRevision { ordered, quoted } => format!(
            "The order brings drawing revision {ordered}, the sheet has {}.",
            or_none(quoted)
        ),
        Difference::Terms { named } => {
            format!("The order has terms of its own: {named}.")
        }
    }
}

fn or_none(text: &str) -> &str {
    if text.is_empty() { "none" } else { text }
}

/// One sentence: what an order pays against today's price.
#[must_use]
pub fn underpaid(quantity: u32, pays: &str, today: &str, accepted: bool) -> String {
    let said = format!("The order pays {pays} each; today's price at {quantity} is {today}.");
    if accepted {
        return said;
    }
    format!("{said} Say on the order who accepts that, or call.")
}

/// One sentence: an open hold point, and the notice that is owed.
#[must_use]
pub fn hold(hold: &Slip) -> String {
    let point = match hold.text(Line::Point) {
        "" => "customer",
        point => point,
    };
    let notice = match (hold.count(Line::NoticeDays), hold.text(Line::Notified)) {
        (Some(days), "") if days > 0 => {
            format!(" The customer wants {days} days of notice, and none is written down.")
        }
        (_, "") => String::new(),
        (_, day) => format!(" Notice was given on {day}."),
    };
    format!("Work waits for the {point}: no yes is written down.{notice}")
}

/// Half a sentence: what is in the way of the floor.
#[must_use]
pub fn blocker(blocker: &Blocker) -> String {
    match blocker {
        Blocker::Stop => "a side note says stop".to_owned(),
        Blocker::SheetUnread => {
            "something on the sheet can't be read, and the figures are without it".to_owned()
        }
        Blocker::NoOrder => "the order is not here".to_owned(),
        Blocker::OrderDiffers => {
            "the order differs from the quotation and nobody accepted that".to_owned()
        }
        Blocker::NoParts => "the parts are not here".to_owned(),
        Blocker::Missing { here, ordered } => {
            format!("{here} of {ordered} parts are here, and the order is not due in parts")
        }
        Blocker::OpenTrouble => {
            "a non-conformance of the job before is open, and nobody said why to go on".to_owned()
        }
        Blocker::Underpaid => {
            "the order pays less than today's price and nobody accepted that".to_owned()
        }
        Blocker::Undecided => "a non-conformance of this job is not closed".to_owned(),
        Blocker::NotInspected { marks } => format!(
            "no run record says that holes {} are good",
            marks.join(", ")
        ),
        Blocker::NothingToDeliver => "no delivery is written down".to_owned(),
        Blocker::Unread => "a line of the order or of the received parts can't be read".to_owned(),
    }
}

/// One line: something that both desks changed, and whose version stands.
#[must_use]
pub fn clash(clash: &Clash) -> String {
    match clash {
        Clash::Field(field, theirs) => format!(
            "{}: yours stands; theirs was \u{201c}{theirs}\u{201d}",
            names::field(*field)
        ),
        Clash::Row(mark) => format!("hole {mark}: yours stands, theirs is in the version before"),
        Clash::Overrule => {
            "an overruled figure: yours stands, theirs is in the version before".to_owned()
        }
        Clash::Slip(_) => "a slip: yours stands, theirs is in the version before".to_owned(),
    }
}

/// One line: something that differs from the job before.
#[must_use]
pub fn changed(changed: &Changed) -> String {
    let arrow = |was: &str, is: &str| match (was, is) {
        ("", is) => format!("now {is}"),
        (was, "") => format!("was {was}, now empty"),
        (was, is) => format!("{was} \u{2192} {is}"),
    };
    match changed {
        Changed::Field(field, was, is) => {
            format!("{}: {}", english::field(*field), arrow(was, is))
        }
        Changed::Cell(mark, column, was, is) => format!(
            "hole {mark}, {}: {}",
            english::column(*column),
            arrow(was, is)
        ),
        Changed::NewRow(mark) => format!("hole {mark} is new"),
        Changed::RowGone(mark) => format!("hole {mark} is gone"),
        Changed::Places(mark) => format!("hole {mark}: the places changed"),
    }
}

/// A paper's name with its number.
#[must_use]
pub fn paper(paper: crate::issued::Paper, number: &str) -> String {
    format!("{} {number}", slips::paper(paper))
}
