//! Slips pinned to a job's sheet as its life goes on: calls, the order, parts that came, run
//! records, trouble, deliveries. A slip is a list of typed lines, read and kept like the sheet's.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::entry::Entry;
use crate::field::{FieldKind, Value};
use crate::list::list;

/// One slip; its identity is never used again in this job.
#[derive(Clone, Debug, PartialEq)]
pub struct Slip {
    /// Identity in this job.
    pub id: u32,
    /// What it is.
    pub kind: SlipKind,
    /// What was typed; a line that is not here is empty.
    pub lines: Arc<BTreeMap<Line, Entry<Value>>>,
}

impl Slip {
    /// What was typed in a line.
    #[must_use]
    pub fn line(&self, line: Line) -> &Entry<Value> {
        self.lines.get(&line).unwrap_or(&Entry::Empty)
    }

    /// A line's text without outer blanks; empty where nothing was typed.
    #[must_use]
    pub fn text(&self, line: Line) -> &str {
        self.line(line).text().trim()
    }

    /// A line's whole number.
    #[must_use]
    pub fn count(&self, line: Line) -> Option<u32> {
        self.line(line).value().and_then(Value::count)
    }

    /// A line's day.
    #[must_use]
    pub fn day(&self, line: Line) -> Option<chrono::NaiveDate> {
        self.line(line).value().and_then(Value::date)
    }

    /// A line's amount of money.
    #[must_use]
    pub fn money(&self, line: Line) -> Option<rust_decimal::Decimal> {
        self.line(line).value().and_then(Value::money)
    }

    /// A line's minutes.
    #[must_use]
    pub fn minutes(&self, line: Line) -> Option<f64> {
        self.line(line).value().and_then(Value::minutes)
    }

    /// A line's length [mm].
    #[must_use]
    pub fn length_mm(&self, line: Line) -> Option<f64> {
        let length = self.line(line).value().and_then(Value::length);
        length.map(quillbore_calc::Length::mm)
    }

    /// Whether a line can't be read.
    #[must_use]
    pub fn is_unread(&self) -> bool {
        self.lines.values().any(|entry| entry.why().is_some())
    }

    /// Whether a line says yes.
    #[must_use]
    pub fn says_yes(&self, line: Line) -> bool {
        matches!(self.line(line).value(), Some(Value::YesNo(true)))
    }
}

macro_rules! kinds {
    ($($(#[$doc:meta])+ $Name:ident $key:literal [$($line:ident)+];)+) => {
        list! {
            /// What a slip is, in the order of a job's life.
            pub enum SlipKind {
                /// The lines that it has, in order.
                lines: &'static [Line],
            }
            $($(#[$doc])+ $Name $key &[$(Line::$line,)+];)+
        }
    };
}

kinds! {
    /// Somebody called, or was called.
    Call "call" [Date Who Said SpokenOf CallAgain By];
    /// How a quotation ended.
    Reply "reply" [Date Paper Outcome Why];
    /// An issued paper no longer stands.
    Withdrawal "withdrawal" [Date Paper Why By StandsAgain];
    /// The customer's order.
    Order "order" [Date Number Paper Quantity Each Revision DrawingRevision Terms Due Blanket Accepted AcceptedWhat GoOn Note];
    /// A call-off: part of the order that is due on a day of its own, or called off from a blanket
    /// order.
    Release "release" [Date Number Quantity Due Note];
    /// Parts that came in.
    Received "received" [Date Count Condition Heat Hardness Coating Serials Damage Files By];
    /// A point where work waits for a yes.
    Hold "hold" [Point NoticeDays Notified Freed By Note];
    /// What a stretch of drilling really took, blank by blank as on the traveler.
    Run "run" [Date Serials Mark Holes ElectrodeNumber TubeBefore TubeAfter SparkMinutes FloorMinutes StopMinutes Electrodes Breakages Good Scrap Pins Trouble Settings NextTime By];
    /// What was measured: of one piece, of one hole, or of a lot; the line says of which.
    Inspection "inspection" [Date Serials Mark HoleNumbers Checked NotGood Pins By Note];
    /// Parts that are not as the drawing wants them.
    Nonconformance "nonconformance" [Date HolesNamed Serials Count What Decision DecidedBy Redo Credit Closed GoOn SendBecause Note];
    /// Parts that went out.
    Delivery "delivery" [Date Count Serials Carrier By Note];
}

impl Line {
    /// Whether somebody types it; the others are kept beside what was typed.
    #[must_use]
    pub const fn is_typed(self) -> bool {
        !matches!(self, Self::AcceptedWhat)
    }
}

/// What the customer may answer to a quotation.
pub const OUTCOMES: &[&str] = &["accepted", "declined", "no answer"];

/// What work may wait for.
pub const POINTS: &[&str] = &["test piece", "first piece", "source inspection"];

list! {
    /// A line of a slip.
    pub enum Line {
        /// How its text is read.
        kind: FieldKind,
    }

    /// The day.
    Date "date" FieldKind::Date;
    /// Who wrote or did it.
    By "by" FieldKind::Line;
    /// Who was spoken to.
    Who "who" FieldKind::Line;
    /// What was said.
    Said "said" FieldKind::Lines;
    /// Drawing or revision that was only spoken of.
    SpokenOf "spoken_of" FieldKind::Line;
    /// When to call again.
    CallAgain "call_again" FieldKind::Date;
    /// Number of the issued paper it is about.
    Paper "paper" FieldKind::Line;
    /// How the quotation ended.
    Outcome "outcome" FieldKind::OneOf(OUTCOMES);
    /// Why.
    Why "why" FieldKind::Line;
    /// Why a paper that was withdrawn stands again after all, and who said so.
    StandsAgain "stands_again" FieldKind::Line;
    /// The customer's number.
    Number "number" FieldKind::Line;
    /// Parts ordered or due.
    Quantity "quantity" FieldKind::Count;
    /// Price of one part in the order.
    Each "each" FieldKind::Money;
    /// Revision of the part in the order.
    Revision "revision" FieldKind::Line;
    /// Revision of the drawing that came with it.
    DrawingRevision "drawing_revision" FieldKind::Line;
    /// Terms that the order names.
    Terms "terms" FieldKind::Line;
    /// When it is due.
    Due "due" FieldKind::Date;
    /// The order is called off in parts.
    Blanket "blanket" FieldKind::YesNo;
    /// Who accepted what differs from quotation and sheet, and why.
    Accepted "accepted" FieldKind::Line;
    /// What differed when that was typed: kept with it, so that nothing that differs later counts as
    /// accepted.
    AcceptedWhat "accepted_what" FieldKind::Lines;
    /// Parts counted.
    Count "count" FieldKind::CountOrNone;
    /// The parts' condition.
    Condition "condition" FieldKind::Line;
    /// Heat or melt number.
    Heat "heat" FieldKind::Line;
    /// Hardness on the certificate or measured.
    Hardness "hardness" FieldKind::Line;
    /// Coating as it came.
    Coating "coating" FieldKind::Line;
    /// Serial numbers.
    Serials "serials" FieldKind::Line;
    /// Damage that was there before.
    Damage "damage" FieldKind::Line;
    /// Photos and papers in the job's folder, by file name.
    Files "files" FieldKind::Lines;
    /// What work waits for.
    Point "point" FieldKind::OneOf(POINTS);
    /// Days of notice that the customer wants.
    NoticeDays "notice_days" FieldKind::CountOrNone;
    /// When notice was given.
    Notified "notified" FieldKind::Date;
    /// When the yes came.
    Freed "freed" FieldKind::Date;
    /// The row's mark.
    Mark "mark" FieldKind::Line;
    /// Holes drilled.
    Holes "holes" FieldKind::CountOrNone;
    /// The electrode's number in the kit.
    ElectrodeNumber "electrode_number" FieldKind::Line;
    /// Length of the tube before.
    TubeBefore "tube_before" FieldKind::Length;
    /// Length of the tube after.
    TubeAfter "tube_after" FieldKind::Length;
    /// Minutes of sparking by the machine's counter.
    SparkMinutes "spark_minutes" FieldKind::Minutes;
    /// Minutes on the floor from start to end.
    FloorMinutes "floor_minutes" FieldKind::Minutes;
    /// Minutes of them that the machine stood.
    StopMinutes "stop_minutes" FieldKind::Minutes;
    /// Electrodes used.
    Electrodes "electrodes" FieldKind::CountOrNone;
    /// Electrodes that broke.
    Breakages "breakages" FieldKind::CountOrNone;
    /// Good parts.
    Good "good" FieldKind::CountOrNone;
    /// Spoiled parts.
    Scrap "scrap" FieldKind::CountOrNone;
    /// Sizes by pin.
    Pins "pins" FieldKind::Line;
    /// What went wrong.
    Trouble "trouble" FieldKind::Lines;
    /// Settings that worked.
    Settings "settings" FieldKind::Lines;
    /// What to do otherwise next time.
    NextTime "next_time" FieldKind::Lines;
    /// Numbers of the holes that were checked, where it was not all of the mark.
    HoleNumbers "hole_numbers" FieldKind::Line;
    /// Holes that were checked.
    Checked "checked" FieldKind::CountOrNone;
    /// Holes of them that are not good.
    NotGood "not_good" FieldKind::CountOrNone;
    /// Which holes of which parts.
    HolesNamed "holes_named" FieldKind::Line;
    /// What is wrong.
    What "what" FieldKind::Lines;
    /// The customer's decision.
    Decision "decision" FieldKind::Line;
    /// Who decided.
    DecidedBy "decided_by" FieldKind::Line;
    /// Parts to be done again.
    Redo "redo" FieldKind::CountOrNone;
    /// Credit given.
    Credit "credit" FieldKind::Money;
    /// The day it was closed.
    Closed "closed" FieldKind::Date;
    /// Why a reorder may go on while it is open.
    GoOn "go_on" FieldKind::Line;
    /// Why parts are delivered and certified while it is open, and who said so.
    SendBecause "send_because" FieldKind::Line;
    /// Carrier and tracking.
    Carrier "carrier" FieldKind::Line;
    /// Anything else.
    Note "note" FieldKind::Lines;
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_told_apart_and_every_line_stands_on_a_slip() {
        for (at, line) in Line::ALL.iter().enumerate() {
            let again = Line::ALL[at + 1..].iter().find(|l| l.key() == line.key());
            assert_eq!(again, None);
            let used = SlipKind::ALL.iter().any(|k| k.lines().contains(line));
            assert!(used, "{line:?} stands on no slip");
        }
        for (at, kind) in SlipKind::ALL.iter().enumerate() {
            assert!(
                SlipKind::ALL[at + 1..]
                    .iter()
                    .all(|k| k.key() != kind.key())
            );
        }
    }
}
