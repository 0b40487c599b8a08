//! Names of slips, of their lines and of papers, in American shop English.

use crate::job::Job;
use crate::pinned::paper::Paper;
use crate::pinned::slip::choices::Outcome;
use crate::pinned::slip::lists::{Line, SlipKind};

/// A slip's name at its head.
#[must_use]
pub const fn kind(kind: SlipKind) -> &'static str {
    match kind {
        SlipKind::Call => "call",
        SlipKind::Reply => "reply to a quotation",
        SlipKind::Withdrawal => "paper withdrawn",
        SlipKind::Order => "order",
        SlipKind::Release => "call-off",
        SlipKind::Received => "parts received",
        SlipKind::Hold => "hold point",
        SlipKind::Run => "run record",
        SlipKind::Inspection => "inspection",
        SlipKind::Nonconformance => "non-conformance",
        SlipKind::Delivery => "delivery",
    }
}

/// A line's label in a slip of a kind: what an order or a reply speaks of is our quotation, what is
/// withdrawn may be any paper of ours.
#[must_use]
pub const fn line_in(kind: SlipKind, line: Line) -> &'static str {
    match (kind, line) {
        (SlipKind::Order | SlipKind::Reply, Line::Paper) => "our quotation number",
        _ => self::line(line),
    }
}

/// The label of a line of a slip of a job.
#[must_use]
pub fn line_of(job: &Job, slip: u32, line: Line) -> &'static str {
    job.slip(slip)
        .map_or_else(|| self::line(line), |slip| line_in(slip.kind, line))
}

/// A line's label.
#[must_use]
pub const fn line(line: Line) -> &'static str {
    match line {
        Line::Date => "date",
        Line::By => "name",
        Line::Who => "spoke with",
        Line::Said => "what was said",
        Line::SpokenOf => "drawing only mentioned",
        Line::CallAgain => "call again on",
        Line::Paper => "paper number",
        Line::Outcome => "outcome",
        Line::Why => "why",
        Line::StandsAgain => "valid again because",
        Line::Number => "customer's PO",
        Line::Quantity => "quantity",
        Line::Each => "price each",
        Line::Currency => "currency",
        Line::Revision => "part rev",
        Line::DrawingRevision => "drawing rev",
        Line::Terms => "terms",
        Line::Due => "due",
        Line::Blanket => "blanket order",
        Line::Accepted => "accepted by, why (printed)",
        Line::AcceptedWhat => "what was accepted",
        Line::Count => "count",
        Line::Condition => "condition",
        Line::Heat => "heat",
        Line::Hardness => "hardness",
        Line::Coating => "coating",
        Line::Serials => "pieces, serials",
        Line::Damage => "existing damage",
        Line::Files => "photos and files",
        Line::Point => "wait for",
        Line::NoticeDays => "days of notice",
        Line::Notified => "notice given on",
        Line::Freed => "released on",
        Line::Mark => "mark",
        Line::Holes => "holes",
        Line::ElectrodeNumber => "electrode number",
        Line::TubeUsed => "electrode used",
        Line::TubeBefore => "length before",
        Line::TubeAfter => "length after",
        Line::Dressed => "dressed or cut off",
        Line::DepthReached => "depth reached",
        Line::SparkMinutes => "sparking by the counter, min",
        Line::FloorMinutes => "or by the clock, min",
        Line::StopMinutes => "less stops, min",
        Line::Electrodes => "electrodes",
        Line::Breakages => "broke or stuck",
        Line::Good => "good",
        Line::Scrap => "scrap",
        Line::Pins => "sizes by pin",
        Line::Trouble => "trouble",
        Line::Settings => "settings that worked",
        Line::NextTime => "do differently next time",
        Line::HoleNumbers => "hole numbers",
        Line::Checked => "holes checked",
        Line::NotGood => "holes not good",
        Line::DepthFound => "depth found",
        Line::Position => "position found",
        Line::AngleFound => "angle found",
        Line::Gauge => "gauge, its number",
        Line::CalibrationDue => "calibrated until",
        Line::Temperature => "temperature",
        Line::LeftOut => "left out of learning because",
        Line::HolesNamed => "holes and pieces",
        Line::What => "what is wrong",
        Line::Decision => "customer's decision",
        Line::DecidedBy => "decided by",
        Line::Redo => "to be redone",
        Line::NotSent => "parts not to be delivered",
        Line::Credit => "credit",
        Line::Closed => "closed on",
        Line::GoOn => "may go on because",
        Line::SendBecause => "may be delivered because",
        Line::Carrier => "carrier, tracking",
        Line::Note => "note",
    }
}

/// How a quotation ended.
#[must_use]
pub const fn outcome(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Accepted => "accepted",
        Outcome::Declined => "declined",
        Outcome::NoAnswer => "no answer",
    }
}

/// A paper's name.
#[must_use]
pub const fn paper(paper: Paper) -> &'static str {
    match paper {
        Paper::Quotation => "quotation",
        Paper::Confirmation => "order confirmation",
        Paper::Receiving => "receiving slip",
        Paper::ToolReceipt => "broken tool receipt",
        Paper::Traveler => "traveler",
        Paper::Inspection => "hole inspection record",
        Paper::FirstArticle => "first article report",
        Paper::Certificate => "certificate of conformance",
        Paper::Packing => "packing list",
        Paper::Label => "box label",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_order_speaks_of_our_quotation_and_a_withdrawal_of_any_paper() {
        for kind in [SlipKind::Order, SlipKind::Reply] {
            assert_eq!(line_in(kind, Line::Paper), "our quotation number");
        }
        assert_eq!(line_in(SlipKind::Withdrawal, Line::Paper), "paper number");
        assert_eq!(line_in(SlipKind::Order, Line::Number), "customer's PO");
    }
}
