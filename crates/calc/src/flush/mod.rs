//! How much water flows through a tube electrode and back up the gap, and what it carries.
//!
//! Channels are smooth and straight, the tube stands in the middle of the hole, and the water is clean:
//! what sparks and debris take away is not counted. A tube that lies at the wall lets up to 2.5 times as
//! much of a laminar flow up the gap as one in the middle.

mod jet;
mod path;
mod pipe;
mod resistance;
mod water;

pub use jet::{free_jet, jet_force};
pub use path::{Flow, Path};
pub use pipe::{LaminarDrop, Pipe, PipeFlow, laminar_drop};
pub use water::{Water, viscosity_upa_s};

/// Velocity heads lost where water enters a channel from a wide room and leaves it into one [-]: 0.5
/// at a sharp mouth and 1 at the end.
pub const END_LOSSES: f64 = 1.5;

/// Widest bore that is reckoned with [mm].
pub(crate) const WIDEST_BORE_MM: f64 = 12.0;

/// How water flows, as far as that is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Regime {
    /// In layers: Reynolds number below 2,000.
    Laminar,
    /// From 2,000 to 4,000, where neither law can be counted on.
    Uncertain,
    /// In eddies: above 4,000. The law is fitted to 100,000; at 1,000,000 it gives some 8 percent too much
    /// flow.
    Turbulent,
}

impl Regime {
    /// That of a Reynolds number [-].
    pub(crate) fn of(reynolds: f64) -> Self {
        if reynolds < 2000.0 {
            Self::Laminar
        } else if reynolds <= 4000.0 {
            Self::Uncertain
        } else {
            Self::Turbulent
        }
    }

    /// The one of two that is known less well; of two that are known, eddies.
    pub(crate) fn or_worse(self, other: Self) -> Self {
        match (self, other) {
            (Self::Uncertain, _) | (_, Self::Uncertain) => Self::Uncertain,
            (Self::Turbulent, _) | (_, Self::Turbulent) => Self::Turbulent,
            (Self::Laminar, Self::Laminar) => Self::Laminar,
        }
    }
}

/// True for a figure that can be reckoned with: above 0 and finite.
pub(crate) fn counts(value: f64) -> bool {
    value > 0.0 && value.is_finite()
}

/// Pascal in a bar.
pub(crate) const PA_PER_BAR: f64 = 1e5;

/// Milliliters a minute in a cubic meter a second.
pub(crate) const ML_MIN_PER_M3_S: f64 = 6e7;
