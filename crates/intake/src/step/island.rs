//! Material that stands within the wall of what would be a hole.

use std::collections::BTreeSet;

use super::ends::Bore;
use super::rings::Ring;
use super::vector::{V, along, dot, times};

/// How many radii from its ends one looks across too, for an island may be low; what is lower is what a
/// drill leaves on its bottom.
const NEAR_END: f64 = 0.25;
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
        let middle = 0.5 * (low + high);
        let near = NEAR_END * self.radius;
        let heights = [middle, middle.min(low + near), middle.max(high - near)];
        heights.iter().any(|height| {
            let center = along(self.axis.p, self.axis.d, *height);
            ANGLES.iter().any(|angle| {
                let out = self.axis.out(*angle);
                let from = along(center, out, self.radius);
                let hit =
                    self.body
                        .first_hit_of(from, times(out, -1.0), 0.01 * self.radius, |face| {
                            !own.contains(&face.number)
                        });
                let hit = hit.filter(|hit| hit.t < 1.99 * self.radius);
                hit.is_some_and(|hit| {
                    self.is_material(along(from, out, -hit.t - 1e-3 * self.radius))
                })
            })
        })
    }

    /// Whether a point lies in the material: both ways along the axis lead out of it.
    fn is_material(&self, p: V) -> bool {
        [1.0, -1.0].into_iter().all(|sign| {
            let d = times(self.axis.d, sign);
            let hit = self.body.first_hit(p, d, 0.0);
            let normal = hit.and_then(|hit| self.body.outward(hit.face, along(p, d, hit.t)));
            normal.is_some_and(|normal| dot(normal, d) > 1e-6)
        })
    }
}
