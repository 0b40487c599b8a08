//! The normal distribution, quick enough to be asked hundreds of times a tube.

use alloc::vec::Vec;

use crate::spread::normal_below;

/// Deviations from which on the normal distribution is taken to have ended.
pub(super) const END_Z: f64 = 6.0;

/// The normal distribution by its value and density at steps; a chance takes hundreds of them.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Normal(Vec<[f64; 2]>);

/// Steps of a deviate.
const STEPS: f64 = 32.0;

impl Normal {
    pub(super) fn new() -> Self {
        let last = (2.0 * END_Z * STEPS) as u32;
        let at = |step: u32| {
            let z = f64::from(step) / STEPS - END_Z;
            let density = libm::exp(-z * z / 2.0) / libm::sqrt(core::f64::consts::TAU);
            [normal_below(z), density]
        };
        Self((0..=last).map(at).collect())
    }

    /// Share below a deviate, to 1e-8: to third order about the nearest step.
    pub(super) fn below(&self, z: f64) -> f64 {
        if z >= END_Z {
            return 1.0;
        }
        if z <= -END_Z {
            return 0.0;
        }
        // Above 0 here, so cutting it off rounds it down.
        let place = ((z + END_Z) * STEPS + 0.5) as usize;
        let Some([below, density]) = self.0.get(place) else {
            return normal_below(z);
        };
        let nearest = place as f64 / STEPS - END_Z;
        let off = z - nearest;
        let slope = 1.0 - nearest * off / 2.0 + (nearest * nearest - 1.0) * off * off / 6.0;
        below + density * off * slope
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_quick_normal_is_the_normal() {
        let quick = Normal::new();
        for step in -7_000..=7_000 {
            let z = f64::from(step) / 1_000.0;
            assert!((quick.below(z) - normal_below(z)).abs() < 1e-8, "{z}");
        }
        assert_eq!((quick.below(f64::INFINITY), quick.below(-9.0)), (1.0, 0.0));
    }
}
