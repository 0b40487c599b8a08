//! Whether an open end leads outside, or into a room that is shut in.

use std::f64::consts::TAU;

use super::ends::Bore;
use super::vector::{V, along, dot, times, unit};

impl Bore<'_> {
    /// Whether an open end leads to a room that is shut in: hardly any way leads out of it.
    pub(super) fn is_shut_in(&self, t: f64, sign: f64) -> bool {
        if self.is_funnel(t, sign) {
            return false;
        }
        const PARTS: [f64; 5] = [-1.0, -0.5, 0.0, 0.5, 1.0];
        let out = times(self.axis.d, sign);
        let from = along(self.axis.p, self.axis.d, t + sign * 0.05 * self.radius);
        // Points on the faces of a cube, a little aside of what drawings line up along.
        let all = PARTS.iter().flat_map(|a| {
            let pairs = PARTS
                .iter()
                .flat_map(move |b| PARTS.iter().map(move |c| [*a, *b, *c]));
            pairs.filter(|parts| parts.iter().any(|part| part.abs() > 0.9))
        });
        let ways = all.filter_map(|[a, b, c]| unit([a, b + 0.013, c + 0.029]));
        let ways: Vec<V> = ways.filter(|way| dot(*way, out) > 0.17).collect();
        let enough = ways.len() / 10 + 1;
        let free = ways
            .iter()
            .filter(|way| self.body.first_hit(from, **way, 0.0).is_none());
        free.take(enough).count() < enough
    }

    /// Whether an end opens into a narrow funnel or pocket that leads straight out, however long it is: the
    /// wide end of a shaped hole. All around it is walled in near by, and a tool a little wider than the
    /// bore gets out along the axis.
    fn is_funnel(&self, t: f64, sign: f64) -> bool {
        const ANGLES: u8 = 8;
        let out = times(self.axis.d, sign);
        let from = along(self.axis.p, self.axis.d, t + sign * 0.05 * self.radius);
        let is_free = |from| self.body.first_hit(from, out, 0.0).is_none();
        is_free(from)
            && (0..ANGLES).all(|at| {
                let aside = self
                    .axis
                    .out(0.19 + f64::from(at) * TAU / f64::from(ANGLES));
                let wall = self.body.first_hit(from, aside, 0.0);
                wall.is_some_and(|hit| hit.t < 4.0 * self.radius)
                    && is_free(along(from, aside, 1.05 * self.radius))
            })
    }
}
