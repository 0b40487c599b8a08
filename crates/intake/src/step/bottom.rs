//! The bottom of a bore: how deep it is on the axis, and whether it breaks into another room there.

use std::collections::BTreeSet;

use super::ends::{Bore, MOST_STEPS};
use super::rings::Ring;
use super::surface::Surface;
use super::vector::{along, dot, is_parallel, length, times};
use super::wall::{Wall, Way};

/// Further than so many radii a slim point doesn't reach.
const DEEPEST: f64 = 8.0;
/// A bottom has no more edges.
const MOST_EDGES: usize = 256;

impl Bore<'_> {
    /// Where the axis meets a bottom.
    pub(super) fn bottom(&self, faces: &BTreeSet<usize>, ring: &Ring, which: usize) -> f64 {
        let sign = if which == 0 { -1.0 } else { 1.0 };
        let mean = ring.mean(which);
        for face in faces {
            let face = &self.body.faces[*face];
            if matches!(face.surface, Surface::Plane(_)) {
                let met = face.surface.met_by(self.axis.p, self.axis.d);
                if let Some(t) = met.first() {
                    return *t;
                }
            }
        }
        let there = self.first_ahead(ring, sign).map(|(t, _)| t);
        // Further it is no bottom: a narrower bore goes on.
        let near = there.filter(|t| (t - mean) * sign < DEEPEST * self.radius);
        near.unwrap_or_else(|| self.far_rim(faces, sign).unwrap_or(mean))
    }

    /// The face of another room that the axis comes to before it meets a bottom: the drill's point, or a
    /// flat end, breaks into a crossing bore. `closing` are the faces of the bottom at the wall.
    pub(super) fn breaks_into(
        &self,
        closing: &BTreeSet<usize>,
        ring: &Ring,
        which: usize,
    ) -> Option<usize> {
        let sign = if which == 0 { -1.0 } else { 1.0 };
        let mean = ring.mean(which);
        let ahead = self.first_ahead(ring, sign);
        let is_ahead = |faces: &BTreeSet<usize>| ahead.is_some_and(|(_, at)| faces.contains(&at));
        if is_ahead(closing) {
            return None;
        }
        let bottom = self.whole_bottom(closing, ring, sign)?;
        if is_ahead(&bottom) {
            return None;
        }
        let room = self.room_within(&bottom)?;
        let near = self.goes_out(room, self.axis.p, sign).into_iter().any(|t| {
            let deep = sign * (t - mean);
            let before = ahead.is_none_or(|(hit, _)| sign * (hit - t) > self.within);
            before && (-2.0 * self.radius..DEEPEST * self.radius).contains(&deep)
        });
        near.then_some(room)
    }

    /// The one surface that cuts a bottom open all around the axis, by one of its faces.
    fn room_within(&self, bottom: &BTreeSet<usize>) -> Option<usize> {
        let all: Vec<usize> = bottom.iter().copied().collect();
        let wall = Wall::new(self.body, self.axis, &all, Way::Outward);
        let mut room: Option<usize> = None;
        for angle in wall.angles() {
            // Where the room cuts the bore's wall too, nothing of the bottom is left.
            let crossings = wall.crossings(angle);
            let Some(first) = crossings.first() else {
                continue;
            };
            let beyond = self.body.other_face(first.edge, first.face)?;
            let surface = &self.body.faces[beyond].surface;
            let known = *room.get_or_insert(beyond);
            let same = self.body.faces[known].surface.is_same(surface, self.within);
            if known != beyond && !same {
                return None;
            }
        }
        room.filter(|face| self.may_hold_end(*face))
    }

    /// What the axis meets first from the other end of a ring, and where: a bottom that is a crown may reach
    /// past its middle.
    fn first_ahead(&self, ring: &Ring, sign: f64) -> Option<(f64, usize)> {
        let other = usize::from(sign < 0.0);
        let begin = ring.mean(other) + sign * self.within;
        let from = along(self.axis.p, self.axis.d, begin);
        let hit = self.body.first_hit(from, times(self.axis.d, sign), 0.0)?;
        Some((begin + sign * hit.t, hit.face))
    }

    /// Whether a room may be one that the bore ends in; a narrower bore that begins in the bottom is none,
    /// unless it crosses.
    fn may_hold_end(&self, face: usize) -> bool {
        match &self.body.faces[face].surface {
            Surface::Cylinder { frame, radius } => {
                let crosses = dot(frame.z, self.axis.d).abs() < 0.25;
                crosses || *radius >= self.radius - self.within
            }
            _ => true,
        }
    }

    /// The faces about the axis that a bottom is made of; `None` where a narrower bore goes on from it.
    fn whole_bottom(
        &self,
        closing: &BTreeSet<usize>,
        ring: &Ring,
        sign: f64,
    ) -> Option<BTreeSet<usize>> {
        let lines = ring.lines.iter();
        let wall: BTreeSet<usize> = lines
            .flat_map(|(_, ends)| ends.iter().map(|crossing| crossing.face))
            .collect();
        let mut whole = closing.clone();
        let mut last = closing.clone();
        for _ in 0..MOST_STEPS {
            let rim = last.iter().flat_map(|face| &self.body.faces[*face].rim);
            let edges: BTreeSet<usize> = rim.map(|used| used.edge).take(MOST_EDGES + 1).collect();
            if edges.len() > MOST_EDGES {
                return None;
            }
            let mut next = BTreeSet::new();
            for edge in edges {
                for (face, _) in &self.body.edges[edge].faces {
                    if whole.contains(face) || wall.contains(face) {
                        continue;
                    }
                    if self.goes_on_in(*face) {
                        return None;
                    }
                    if self.is_bottom(*face, sign) {
                        next.insert(*face);
                    }
                }
            }
            if next.is_empty() {
                break;
            }
            whole.extend(&next);
            last = next;
        }
        Some(whole)
    }

    /// Whether a face is the wall of a bore about the same axis.
    fn goes_on_in(&self, face: usize) -> bool {
        match &self.body.faces[face].surface {
            Surface::Cylinder { frame, .. } => {
                self.axis.is_same(frame.origin, frame.z, self.within)
            }
            _ => false,
        }
    }

    /// Whether a face stands about the axis as a bottom does: a cone, a ring, a ball, or a plane that
    /// faces back.
    fn is_bottom(&self, face: usize, sign: f64) -> bool {
        let at = &self.body.faces[face];
        match &at.surface {
            Surface::Plane(frame) => {
                let faces_back = sign * at.sense * at.outward * dot(frame.z, self.axis.d) < 0.0;
                faces_back && is_parallel(frame.z, self.axis.d)
            }
            Surface::Ball { frame, .. } => length(self.axis.radial(frame.origin)) <= self.within,
            surface => surface
                .axis()
                .is_some_and(|frame| self.axis.is_same(frame.origin, frame.z, self.within)),
        }
    }

    /// The mean height of what lies furthest along the axis of some faces.
    fn far_rim(&self, faces: &BTreeSet<usize>, sign: f64) -> Option<f64> {
        let faces: Vec<usize> = faces.iter().copied().collect();
        let wall = Wall::new(self.body, self.axis, &faces, Way::Along);
        let edges = wall.last_edges(sign);
        let points = edges.iter().flat_map(|edge| &self.body.edges[*edge].points);
        let heights: Vec<f64> = points.map(|p| self.axis.polar(*p)[1]).collect();
        (!heights.is_empty()).then(|| heights.iter().sum::<f64>() / heights.len() as f64)
    }
}
