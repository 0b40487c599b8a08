//! What there is to say about holes that one plunge into full metal doesn't make.

use crate::chance::Bought;

/// What is found about a broken tool, or about a hole that is opened with a thinner tube.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Burning {
    /// No tube makes this size by itself: a thinner one opens it.
    Opened {
        /// The tube [mm].
        tube_mm: f64,
        /// Plunges over the whole depth; one where it goes round in layers.
        plunges: u32,
        /// What of the middle falls out [mm].
        slug_mm: Option<f64>,
        /// A tube to buy that would do it in one plunge.
        buy: Option<Bought>,
    },
    /// The thread's pitch isn't known, or a size makes no sense.
    SizeUnknown,
    /// Nothing in stock fits: an electrode between these is to be had [mm].
    ToBuy {
        /// The thinnest that takes the core.
        least_mm: f64,
        /// The thickest that spares thread or wall.
        most_mm: f64,
    },
    /// The core is wider than tubes open [mm].
    TooWide {
        /// Burnt hole that it takes.
        hole_mm: f64,
    },
    /// No hole takes the core for certain and spares the thread or wall for certain.
    AtRisk {
        /// What is missing between the two [mm].
        short_mm: f64,
        /// With what it may be tried [mm].
        tube_mm: Option<f64>,
    },
    /// With run-out and an axis off the middle at their worst, thread or wall is cut on one side.
    MayCut {
        /// How deep [mm].
        by_mm: f64,
    },
    /// Nobody measured what is left of the tool: so much is assumed.
    LengthAssumed {
        /// Its length [mm].
        left_mm: f64,
    },
    /// What is burnt away is an assumption, and a thread is never guaranteed.
    NotGuaranteed {
        /// Core [mm].
        core_mm: f64,
        /// Burnt hole [mm].
        hole_mm: f64,
    },
    /// A size was given beside the tool, by which the burnt hole goes.
    SizeNotUsed,
    /// Both ends were asked for: what is led on circles, or burnt out, comes from one.
    FromOneEnd,
}

impl Burning {
    /// Its code, see [`crate::finding::Kind::code`].
    pub(crate) const fn code(&self) -> &'static str {
        match self {
            Self::Opened { .. } => "opened-by-plunging",
            Self::SizeUnknown => "broken-size-unknown",
            Self::ToBuy { .. } => "broken-to-buy",
            Self::TooWide { .. } => "broken-too-wide",
            Self::AtRisk { .. } => "broken-at-risk",
            Self::MayCut { .. } => "broken-may-cut",
            Self::LengthAssumed { .. } => "broken-length-assumed",
            Self::NotGuaranteed { .. } => "broken-not-guaranteed",
            Self::SizeNotUsed => "broken-size-not-used",
            Self::FromOneEnd => "burnt-from-one-end",
        }
    }
}
