//! Every kind of slip and every line of one: two lists.

use super::holds::{self, Holds};
use crate::ground::list::list;
use crate::typed::field::FieldKind;

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

        /// Every kind of slip as a type, so that a line that it doesn't have can't be asked for.
        pub mod kind {
            use crate::pinned::slip::lists::{Has, SlipKind, TypedKind, line};

            $($(#[$doc])+
            #[derive(Clone, Copy, Debug)]
            pub struct $Name;

            impl TypedKind for $Name {
                const KIND: SlipKind = SlipKind::$Name;
            }

            $(impl Has<line::$line> for $Name {})+)+
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
    Order "order" [Date Number Paper Quantity Each Currency Revision DrawingRevision Terms Due Blanket Accepted AcceptedWhat GoOn Note];
    /// A call-off: part of the order that is due on a day of its own, or called off from a blanket
    /// order.
    Release "release" [Date Number Quantity Due Note];
    /// Parts that came in.
    Received "received" [Date Count Condition Heat Hardness Coating Serials Damage Files By];
    /// A point where work waits for a yes.
    Hold "hold" [Point NoticeDays Notified Freed By Note];
    /// What a stretch of drilling really took, blank by blank as on the traveler.
    Run "run" [Date Serials Mark Holes ElectrodeNumber TubeUsed TubeBefore TubeAfter Dressed DepthReached SparkMinutes FloorMinutes StopMinutes Electrodes Breakages Good Scrap Pins Trouble Settings NextTime By LeftOut];
    /// What was measured: of one piece, of one hole, or of a lot; the line says of which.
    Inspection "inspection" [Date Serials Mark HoleNumbers Checked NotGood Pins DepthFound Position AngleFound Gauge CalibrationDue Temperature By Note];
    /// Parts that are not as the drawing wants them.
    Nonconformance "nonconformance" [Date HolesNamed Serials Count What Decision DecidedBy Redo NotSent Credit Closed GoOn SendBecause Note];
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

macro_rules! lines {
    ($($(#[$doc:meta])+ $Name:ident $key:literal $holds:ident;)+) => {
        list! {
            /// A line of a slip.
            pub enum Line {
                /// How its text is read.
                kind: FieldKind,
            }
            $($(#[$doc])+ $Name $key <holds::$holds as Holds>::KIND;)+
        }

        /// Every line as a type that knows what the line holds.
        pub mod line {
            use crate::pinned::slip::holds;
            use crate::pinned::slip::lists::{Line, TypedLine};

            $($(#[$doc])+
            #[derive(Clone, Copy, Debug)]
            pub struct $Name;

            impl TypedLine for $Name {
                type Holds = holds::$holds;

                const LINE: Line = Line::$Name;
            })+
        }
    };
}

lines! {
    /// The day.
    Date "date" Date;
    /// Who wrote or did it.
    By "by" Line;
    /// Who was spoken to.
    Who "who" Line;
    /// What was said.
    Said "said" Lines;
    /// Drawing or revision that was only spoken of.
    SpokenOf "spoken_of" Line;
    /// When to call again.
    CallAgain "call_again" Date;
    /// Number of the issued paper it is about.
    Paper "paper" Line;
    /// How the quotation ended.
    Outcome "outcome" Outcome;
    /// Why.
    Why "why" Line;
    /// Why a paper that was withdrawn stands again after all, and who said so.
    StandsAgain "stands_again" Line;
    /// The customer's number.
    Number "number" Line;
    /// Parts ordered or due.
    Quantity "quantity" Count;
    /// Price of one part in the order.
    Each "each" Money;
    /// The currency of that price.
    Currency "currency" Currency;
    /// Revision of the part in the order.
    Revision "revision" Line;
    /// Revision of the drawing that came with it.
    DrawingRevision "drawing_revision" Line;
    /// Terms that the order names.
    Terms "terms" Line;
    /// When it is due.
    Due "due" Date;
    /// The order is called off in parts.
    Blanket "blanket" YesNo;
    /// Who accepted what differs from quotation and sheet, and why.
    Accepted "accepted" Line;
    /// What differed when that was typed: kept with it, so that nothing that differs later counts as
    /// accepted.
    AcceptedWhat "accepted_what" Lines;
    /// Parts counted.
    Count "count" CountOrNone;
    /// The parts' condition.
    Condition "condition" Line;
    /// Heat or melt number.
    Heat "heat" Line;
    /// Hardness on the certificate or measured.
    Hardness "hardness" Line;
    /// Coating as it came.
    Coating "coating" Line;
    /// Serial numbers.
    Serials "serials" Line;
    /// Damage that was there before.
    Damage "damage" Line;
    /// Photos and papers in the job's folder, by file name.
    Files "files" Lines;
    /// What work waits for.
    Point "point" Point;
    /// Days of notice that the customer wants.
    NoticeDays "notice_days" CountOrNone;
    /// When notice was given.
    Notified "notified" Date;
    /// When the yes came.
    Freed "freed" Date;
    /// The row's mark.
    Mark "mark" Line;
    /// Holes drilled.
    Holes "holes" CountOrNone;
    /// The electrode's number in the kit.
    ElectrodeNumber "electrode_number" Line;
    /// The tube that was used, by the shop's name of it.
    TubeUsed "tube_used" Line;
    /// Length of the tube before.
    TubeBefore "tube_before" Length;
    /// Length of the tube after.
    TubeAfter "tube_after" LengthOrNone;
    /// Length of the tube that was dressed or cut off, and not worn.
    Dressed "dressed" LengthOrNone;
    /// Depth that the holes reached.
    DepthReached "depth_reached" Length;
    /// Minutes of sparking by the machine's counter.
    SparkMinutes "spark_minutes" Minutes;
    /// Minutes by the clock, from the first touch-off to the last hole, setting up apart.
    FloorMinutes "floor_minutes" Minutes;
    /// Minutes of them that the machine stood.
    StopMinutes "stop_minutes" MinutesOrNone;
    /// Electrodes used.
    Electrodes "electrodes" CountOrNone;
    /// Electrodes that broke.
    Breakages "breakages" CountOrNone;
    /// Good parts.
    Good "good" CountOrNone;
    /// Spoiled parts.
    Scrap "scrap" CountOrNone;
    /// Sizes by pin.
    Pins "pins" Line;
    /// What went wrong.
    Trouble "trouble" Lines;
    /// Settings that worked.
    Settings "settings" Lines;
    /// What to do otherwise next time.
    NextTime "next_time" Lines;
    /// Numbers of the holes that were checked, where it was not all of the mark.
    HoleNumbers "hole_numbers" Line;
    /// Holes that were checked.
    Checked "checked" CountOrNone;
    /// Holes of them that are not good.
    NotGood "not_good" CountOrNone;
    /// Depth as measured.
    DepthFound "depth_found" Line;
    /// Position as measured, against its zero.
    Position "position" Line;
    /// Angle as measured.
    AngleFound "angle_found" Line;
    /// What it was measured with, by its number.
    Gauge "gauge" Line;
    /// Until when that is calibrated.
    CalibrationDue "calibration_due" Date;
    /// Temperature at which it was measured.
    Temperature "temperature" Line;
    /// Why nothing is learned of this record.
    LeftOut "left_out" Line;
    /// Which holes of which parts.
    HolesNamed "holes_named" Line;
    /// What is wrong.
    What "what" Lines;
    /// The customer's decision.
    Decision "decision" Line;
    /// Who decided.
    DecidedBy "decided_by" Line;
    /// Parts to be done again.
    Redo "redo" CountOrNone;
    /// Parts that are not delivered any more: scrapped, or back with the customer as they are.
    NotSent "not_sent" CountOrNone;
    /// Credit given.
    Credit "credit" Money;
    /// The day it was closed.
    Closed "closed" Date;
    /// Why a reorder may go on while it is open.
    GoOn "go_on" Line;
    /// Why parts are delivered and certified while it is open, and who said so.
    SendBecause "send_because" Line;
    /// Carrier and tracking.
    Carrier "carrier" Line;
    /// Anything else.
    Note "note" Lines;
}

/// A line as a type: those of [`line`].
pub trait TypedLine: Copy {
    /// What it holds.
    type Holds: Holds;

    /// The line.
    const LINE: Line;
}

/// A kind of slip as a type: those of [`kind`].
pub trait TypedKind {
    /// The kind.
    const KIND: SlipKind;
}

/// A kind of slip that has a line.
#[diagnostic::on_unimplemented(message = "a slip of the kind `{Self}` has no line `{L}`")]
pub trait Has<L: TypedLine>: TypedKind {}

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
