//! Material that stands within the wall of what would be a hole.

use std::collections::BTreeSet;

use super::ends::Bore;
use super::rings::Ring;
use super::vector::{along, times};

/// Where along a wall one looks across: near both of its ends too, for an island may be low.
const HEIGHTS: [f64; 3] = [0.02, 0.5, 0.98];
/// Angles at which one looks across, aside of what drawings line up along.
const ANGLES: [f64; 3] = [0.31, 1.37, 2.45];

impl Bore<'_> {
    /// Whether something stands within a ring, beside its own faces: an island, a boss, what a ring groove
    /// leaves.
    pub(super) fn holds_material(&self, ring: &Ring, own: &BTreeSet<usize>) -> bool {
        let (low, high) = (ring.range(0)[1], ring.range(1)[0]);
        if low >= high {
            // No height at which the wall goes all around.
            return false;
        }
        let own: BTreeSet<u64> = own
            .iter()
            .filter_map(|face| self.body.faces.get(*face))
            .map(|face| face.number)
            .collect();
        HEIGHTS.iter().any(|share| {
            let center = along(self.axis.p, self.axis.d, low + share * (high - low));
            ANGLES.iter().any(|angle| {
                let out = self.axis.out(*angle);
                let from = along(center, out, self.radius);
                let hit =
                    self.body
                        .first_hit_of(from, times(out, -1.0), 0.01 * self.radius, |face| {
                            !own.contains(&face.number)
                        });
                hit.is_some_and(|hit| hit.t < 1.99 * self.radius)
            })
        })
    }
}
