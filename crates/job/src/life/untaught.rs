//! Why a run record, or a figure of it, teaches nothing.

use quillbore_calc::recorded::{NotUsed, Unbelievable};

use crate::pinned::slip::lists::Line;

/// Why a run record, or a figure of it, teaches nothing.
#[derive(Clone, Debug, PartialEq)]
pub enum Why {
    /// Somebody left it out, for this reason.
    LeftOut(String),
    /// A line of it can't be read.
    Unread(Line),
    /// It names no row of the job.
    NoRow(String),
    /// The shop has no such tube.
    NoTube(String),
    /// Its day is after today.
    NotYet,
    /// The start values say nothing of it, or it says nothing itself.
    NotUsed(NotUsed),
    /// A figure is too far from what was planned to be one.
    Unbelievable(Unbelievable),
    /// The tube is longer after than before, or nothing of it is gone.
    NothingLost,
    /// The tube was longer than it comes [mm].
    TubeTooLong {
        /// As written [mm].
        before_mm: f64,
        /// As it comes [mm].
        new_mm: f64,
    },
    /// Several electrodes were used, and one length before and after doesn't say what all of them lost.
    SeveralElectrodes(u32),
    /// An electrode broke, so the length that is gone was not worn.
    Broke(u32),
    /// Stops are as long as the clock ran, or longer.
    AllStops,
    /// The sparking took longer than the clock ran, stops taken off.
    ClockTooShort,
    /// Sizes by pin are written in words.
    PinsInWords(String),
    /// More pieces than were received [counts].
    MorePieces {
        /// Good and spoiled ones.
        told: u32,
        /// Received.
        received: u32,
    },
}

impl Why {
    /// Whether something was mistyped or mismeasured, so that somebody can correct it.
    #[must_use]
    pub const fn is_mistake(&self) -> bool {
        match self {
            Self::Unread(_)
            | Self::NoRow(_)
            | Self::NoTube(_)
            | Self::Unbelievable(_)
            | Self::NothingLost
            | Self::TubeTooLong { .. }
            | Self::AllStops
            | Self::ClockTooShort
            | Self::MorePieces { .. } => true,
            Self::LeftOut(_)
            | Self::NotYet
            | Self::NotUsed(_)
            | Self::SeveralElectrodes(_)
            | Self::Broke(_)
            | Self::PinsInWords(_) => false,
        }
    }
}
