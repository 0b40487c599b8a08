//! Sampled lot factors and what one hole comes to under them.

use crate::quantity::Pace;

/// Sampled lot factors, each relative to the median.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Draw {
    /// Factor on the feed; the sparking minutes are divided by it.
    pub feed: f64,
    /// Factor on the wear by length.
    pub wear: f64,
    /// Which values the times of handling take.
    pub pace: Pace,
}

impl Draw {
    /// Every factor at its median.
    pub const MEDIAN: Self = Self {
        feed: 1.0,
        wear: 1.0,
        pace: Pace::Median,
    };
}

/// One hole of a row under sampled lot factors.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DrawnHole {
    /// Minutes that go with the feed, over all its ends [min].
    pub sparking_min: f64,
    /// All its other minutes: touch-off, retract, electrode changes inside the hole [min].
    pub other_min: f64,
    /// Length of electrode lost, over all its ends [mm].
    pub wear_mm: f64,
    /// Depth that the tip must reach from the work's surface [mm], the larger of its ends.
    pub target_mm: f64,
    /// Electrodes in one hole, one after another, over all its ends.
    pub electrodes_per_hole: u32,
    /// What each end asks of electrodes; the second only where it is drilled from both.
    pub stages: [Option<Stage>; 2],
}

impl DrawnHole {
    /// All its minutes [min].
    #[must_use]
    pub const fn minutes(&self) -> f64 {
        self.sparking_min + self.other_min
    }
}

/// What one end of a hole asks of electrodes: some used up whole, then the one that finishes it.
///
/// Only the last shares its electrode with other holes: it needs a free length of at least
/// `target_mm + wear_mm` before, and `wear_mm` is gone after.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stage {
    /// Electrodes used up whole before the last.
    pub whole: u32,
    /// Depth that the last one's tip must reach from the work's surface [mm].
    pub target_mm: f64,
    /// Length that the last one loses [mm].
    pub wear_mm: f64,
}
