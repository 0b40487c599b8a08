//! What figures were worked out by on the way: recorded where they are computed, shown by workings.

use crate::quantity::Spread;

/// What a row's figures were worked out by, before anybody overruled one.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct HoleSteps {
    /// How much smaller the exit is than the entry [mm].
    pub taper_mm: f64,
    /// Gap per side by the tube's diameter [mm].
    pub gap_mm: Option<Spread>,
    /// What the feed is a product of.
    pub feed: Option<FeedSteps>,
    /// Depth at which the feed is halved [mm].
    pub halved_mm: Option<f64>,
    /// Length lost in one hole, median [mm].
    pub wear_mm: Option<f64>,
    /// The same by length, mean over the depth [-].
    pub wear_ratio: Option<f64>,
    /// How far the tip goes from the work's surface [mm], the farther of its ends.
    pub tip_mm: Option<f64>,
    /// What of the exit zone lies beyond the exit, drilled from one end [mm].
    pub beyond_exit_mm: f64,
    /// Wear by length, mean over the depth that one electrode reaches [-].
    pub reach_ratio: Option<f64>,
}

/// What a feed at the face is a product of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FeedSteps {
    /// Of a one-channel tube of 1 mm in the material at the entry, median [mm/min].
    pub material_mm_min: f64,
    /// Factor for the tube's size [-].
    pub size: f64,
    /// Factor for its channels [-].
    pub channels: f64,
    /// Factor for the effort that close limits take [-].
    pub effort: f64,
    /// What of it is left in the interrupted metal of a broken tool [-]; 1 in full metal.
    pub full_metal: f64,
}
