//! The groups of the day's list.

/// A group of the day's list, in the list's order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// Ordered parts were due before today and are not delivered.
    Late,
    /// A call that was promised, or a quotation's follow-up, is for today or before.
    CallToday,
    /// An order differs from quotation or sheet and nobody accepted that, or it can't be read.
    OrderDiffers,
    /// Parts are here, and no traveler that holds is released for them.
    ToRelease,
    /// Parts are waited for.
    WaitingForParts,
    /// A quotation stands without an answer.
    NoAnswer,
    /// Ordered parts are due before the shop works again after this week.
    DueThisWeek,
    /// A non-conformance is open.
    Nonconformance,
    /// Electrodes or guides are short in the drawer.
    Short,
    /// A job can't be read, or an entry of it not be relied on.
    CantRead,
}

impl Group {
    /// Every group, in the list's order.
    pub const ALL: [Self; 10] = [
        Self::Late,
        Self::CallToday,
        Self::OrderDiffers,
        Self::ToRelease,
        Self::WaitingForParts,
        Self::NoAnswer,
        Self::DueThisWeek,
        Self::Nonconformance,
        Self::Short,
        Self::CantRead,
    ];

    /// Its name where somebody keeps what was put off: never changed once released.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Late => "late",
            Self::CallToday => "call",
            Self::OrderDiffers => "differs",
            Self::ToRelease => "to_release",
            Self::WaitingForParts => "parts",
            Self::NoAnswer => "no_answer",
            Self::DueThisWeek => "due",
            Self::Nonconformance => "nonconformance",
            Self::Short => "short",
            Self::CantRead => "cant_read",
        }
    }
}
