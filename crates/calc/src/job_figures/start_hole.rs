//! What a wire finds in a start hole.

use crate::start_hole::Exits;

/// What a wire finds in a start hole, and how near the hole comes to the profile.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StartHoleFigures {
    /// The free exit; `None` where no tube is known.
    pub exits: Option<Exits>,
    /// Least free exit that counts [mm]: the typed one, else the wire with its clearance.
    pub needed_mm: Option<f64>,
    /// How far from its center the hole can reach toward the profile [mm]; `None` where nobody gave the
    /// profile.
    pub reaches_mm: Option<f64>,
}
