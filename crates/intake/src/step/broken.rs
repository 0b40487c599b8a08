//! Rounded and chamfered edges around a bore's mouth that don't stand about its axis, as where it leans.

use std::collections::{BTreeMap, BTreeSet};

use super::ends::Bore;
use super::surface::Surface;
use super::wall::{Wall, Way};

/// A broken edge is bounded by no more edges.
const MOST_EDGES: usize = 256;

/// What lies around a broken edge.
pub(super) struct Around {
    /// The faces of the surface around it.
    pub(super) faces: BTreeSet<usize>,
    /// The edges where the broken edge ends.
    pub(super) rim: BTreeSet<usize>,
}

impl Bore<'_> {
    /// What lies around a broken edge, where some faces are one: a band around the bore that the axis
    /// doesn't meet, with a surface around it that the axis does meet no further out than the bore is
    /// wide. `inner` are its inner edges, at `near` on the axis.
    pub(super) fn around_break(
        &self,
        faces: &BTreeSet<usize>,
        inner: &BTreeSet<usize>,
        near: f64,
        sign: f64,
    ) -> Option<Around> {
        let is_passed = |face: &usize| {
            let surface = &self.body.faces[*face].surface;
            let flat = matches!(surface, Surface::Plane(_));
            !flat && surface.met_by(self.axis.p, self.axis.d).is_empty()
        };
        let edges: usize = faces
            .iter()
            .map(|face| self.body.faces[*face].rim.len())
            .sum();
        if edges > MOST_EDGES || faces.is_empty() || !faces.iter().all(is_passed) {
            return None;
        }
        if self.next_rim(faces, inner, sign).is_some() {
            return None;
        }
        let mut uses: BTreeMap<usize, usize> = BTreeMap::new();
        for face in faces {
            for used in self.body.faces[*face].rim.iter().filter(|used| !used.seam) {
                *uses.entry(used.edge).or_default() += 1;
            }
        }
        let outer = uses
            .into_iter()
            .filter(|(edge, times)| *times == 1 && !inner.contains(edge));
        let outer: BTreeSet<usize> = outer.map(|(edge, _)| edge).collect();
        let all: Vec<usize> = faces.iter().copied().collect();
        let wall = Wall::new(self.body, self.axis, &all, Way::Outward);
        let (mut rim, mut counted, mut missed) = (BTreeSet::new(), 0, 0);
        for angle in wall.angles() {
            let crossings = wall.crossings(angle);
            match crossings.last() {
                // Through a corner a line may count one edge too few.
                Some(last) if crossings.len().is_multiple_of(2) => {
                    rim.insert(last.edge);
                    counted += 1;
                }
                _ => missed += 1,
            }
        }
        if missed > counted / 8 || rim.is_empty() || rim != outer {
            return None;
        }
        let beyond = rim.iter().flat_map(|edge| &self.body.edges[*edge].faces);
        let beyond: BTreeSet<usize> = beyond
            .map(|(face, _)| *face)
            .filter(|face| !faces.contains(face))
            .collect();
        let (t, _) = self.on_axis(&beyond, near, sign)?;
        let further = sign * (t - near);
        let slim = further > 0.0 && further < 2.0 * self.radius;
        slim.then_some(Around { faces: beyond, rim })
    }

    /// Where the line of the wall at an angle, which ends at `t` before a broken edge, meets the surface
    /// around the edge.
    pub(super) fn past_break(
        &self,
        around: &BTreeSet<usize>,
        angle: f64,
        t: f64,
        sign: f64,
    ) -> f64 {
        let p = super::vector::along(self.axis.p, self.axis.out(angle), self.radius);
        let met = around.iter().flat_map(|face| self.goes_out(*face, p, sign));
        met.min_by(|a, b| (a - t).abs().total_cmp(&(b - t).abs()))
            .unwrap_or(t)
    }
}
