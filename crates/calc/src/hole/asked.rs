//! What a size is judged by, and how it was judged.

use crate::chance::Bought;
use crate::quantity::Limits;
use crate::size_choice::Wish;
use crate::tables::TubeMaterial;

/// Limits, taper and wish by value.
pub(super) type Key = ([u64; 3], bool, Option<TubeMaterial>);

/// Limits and taper of a size, and what is wished of its tube.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Asked {
    pub(super) limits_mm: Limits,
    pub(super) taper_mm: f64,
    pub(super) wish: Wish,
}

/// Whether a size can be held.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Held {
    /// Chance of a hole inside both limits with tubes of the shop.
    pub(super) held: f64,
    /// A tube to buy, where it would be better.
    pub(super) bought: Option<Bought>,
}

impl Asked {
    pub(super) fn key(&self) -> Key {
        let bits = [self.limits_mm.lower, self.limits_mm.upper, self.taper_mm].map(f64::to_bits);
        (bits, self.wish.several, self.wish.material)
    }
}
