//! How many ends and holes are checked, and by what.

use super::{Counts, Times};
use crate::input::Proof;

/// What is checked.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Checks {
    /// Ends of holes, by pin.
    pub(crate) ends: u64,
    /// Holes, by something else.
    pub(crate) proved: Proved,
}

impl Checks {
    /// Adds others.
    pub(crate) const fn add(&mut self, other: Self) {
        self.ends = self.ends.saturating_add(other.ends);
        self.proved = self.proved.and(other.proved);
    }
}

impl Counts {
    /// Adds what is checked.
    pub(crate) const fn add_checks(&mut self, checks: Checks) {
        self.ends = self.ends.saturating_add(checks.ends);
        self.proved = self.proved.and(checks.proved);
    }
}

/// Holes by what proves them open.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Proved {
    /// Light.
    pub light: u64,
    /// A wire or a pin that goes all the way through.
    pub wire: u64,
    /// Air.
    pub air: u64,
}

impl Proved {
    /// So many holes that are proved so.
    pub(crate) fn of(proof: Option<Proof>, holes: u64) -> Self {
        let none = Self::default();
        match proof {
            None | Some(Proof::Pin) => none,
            Some(Proof::Light) => Self {
                light: holes,
                ..none
            },
            Some(Proof::Wire | Proof::PinThrough) => Self {
                wire: holes,
                ..none
            },
            Some(Proof::Air) => Self { air: holes, ..none },
        }
    }

    /// These and others.
    pub(crate) const fn and(self, other: Self) -> Self {
        Self {
            light: self.light.saturating_add(other.light),
            wire: self.wire.saturating_add(other.wire),
            air: self.air.saturating_add(other.air),
        }
    }

    /// The same of each.
    pub(crate) fn map(self, of: impl Fn(u64) -> u64) -> Self {
        Self {
            light: of(self.light),
            wire: of(self.wire),
            air: of(self.air),
        }
    }

    pub(super) fn minutes(self, times: &Times) -> f64 {
        self.light as f64 * times.light_check
            + self.wire as f64 * times.wire_check
            + self.air as f64 * times.air_check
    }
}
