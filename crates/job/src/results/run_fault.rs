//! What can be wrong with an entry of a run record.

use crate::ground::list::list;

list! {
    /// What can't be, or is no number, in a run record; it changes no figure and keeps no paper back.
    pub enum RunFault;

    /// No row has the mark.
    UnknownMark "run-mark-unknown";
    /// The shop has no such tube.
    UnknownTube "run-tube-unknown";
    /// The tube was longer before than one of its size is when new.
    TubeTooLong "run-tube-too-long";
    /// More was dressed off than the tube lost.
    DressedTooMuch "run-dressed-too-much";
    /// The holes are far deeper than asked for.
    TooDeep "run-too-deep";
    /// More minutes than any stretch takes.
    ManyMinutes "run-minutes-many";
    /// Sparking and stops take more minutes than the clock counted.
    ClockTooShort "run-clock-too-short";
    /// More parts came out of a mark than were received.
    TooManyParts "run-too-many-parts";
    /// More holes of a mark were drilled than all parts have.
    TooManyHoles "run-too-many-holes";
    /// Parts are scrap, and no non-conformance says what becomes of them.
    ScrapUnsaid "run-scrap-unsaid";
    /// Nobody said how many electrodes the holes took, where the drawer is counted.
    ElectrodesUnsaid "run-electrodes-unsaid";
    /// The drawer was counted on the day of the line.
    CountedThatDay "run-counted-that-day";
    /// Parts that went out and those that never will are more than were ordered.
    MoreThanOrdered "parts-more-than-ordered";
    /// Sizes by pin that are no sizes.
    PinsUnread "run-pins-unread";
}
