//! Where a bore begins or ends: at a bottom, or open, and in which surface.

use std::collections::{BTreeMap, BTreeSet};

use super::body::Body;
use super::rings::Ring;
use super::surface::Surface;
use super::vector::{Bounds, V, add, along, cross, dot, is_parallel, length, sub, times};
use super::wall::{Axis, Wall, Way};
use crate::seen::{SeenSurface, SurfaceKind};

/// No recess has more steps.
pub(super) const MOST_STEPS: usize = 12;

/// One end of a bore.
#[derive(Clone, Debug)]
pub(super) struct End {
    /// Where it is on the axis.
    pub(super) t: f64,
    /// True where it is no bottom.
    pub(super) open: bool,
    /// The surface that it opens into.
    pub(super) surface: Option<SeenSurface>,
    /// The wider step that it opens into: its diameter, and how far it is from there to the outer surface.
    pub(super) recess: Option<[f64; 2]>,
    /// Whether the outer surface is the inside of a bore.
    pub(super) in_bore: bool,
    /// The faces that belong to the bottom, or to the recess.
    pub(super) faces: BTreeSet<usize>,
    /// The faces of the surface that it opens into, behind any recess.
    pub(super) outer: BTreeSet<usize>,
    /// Where the edge of its own wall is rounded or chamfered: the faces around that, up to which it goes.
    pub(super) around: BTreeSet<usize>,
    /// Whether that edge, or one of the recess, is.
    pub(super) is_broken: bool,
    /// Whether the bore goes on there along an arc.
    pub(super) bends: bool,
}

/// A bore whose ends are looked at.
pub(super) struct Bore<'b> {
    /// The body that it is in.
    pub(super) body: &'b Body,
    /// Its axis.
    pub(super) axis: Axis,
    /// Its radius.
    pub(super) radius: f64,
    /// How far apart things may be that are the same.
    pub(super) within: f64,
}

impl Bore<'_> {
    /// The end of a ring: 0 its beginning, 1 its end.
    pub(super) fn end(&self, ring: &Ring, which: usize) -> End {
        let mut lines: BTreeMap<usize, (usize, usize)> = BTreeMap::new();
        for (_, ends) in &ring.lines {
            let Some(crossing) = ends.get(which) else {
                continue;
            };
            lines.entry(crossing.edge).or_insert((crossing.face, 0)).1 += 1;
        }
        let (mut open, mut closed) = (0, 0);
        let (mut opening, mut closing) = (BTreeSet::new(), BTreeSet::new());
        for (edge, (wall, count)) in &lines {
            let Some(face) = self.body.other_face(*edge, *wall) else {
                open += count;
                continue;
            };
            if self.opens(face, *edge) {
                open += count;
                opening.insert(face);
            } else {
                closed += count;
                closing.insert(face);
            }
        }
        let edges: BTreeSet<usize> = lines.keys().copied().collect();
        let mut beyond = opening.iter().chain(&closing).peekable();
        if beyond.peek().is_some() && beyond.all(|face| self.bends_in(*face)) {
            return End {
                t: ring.mean(which),
                open: true,
                surface: None,
                recess: None,
                in_bore: true,
                faces: BTreeSet::new(),
                outer: BTreeSet::new(),
                around: BTreeSet::new(),
                is_broken: false,
                bends: true,
            };
        }
        if open < closed {
            if let Some(room) = self.breaks_into(&closing, ring, which) {
                let mut end = self.opening(BTreeSet::from([room]), &edges, ring, which);
                end.faces.append(&mut closing);
                return end;
            }
            return End {
                t: self.bottom(&closing, ring, which),
                open: false,
                surface: None,
                recess: None,
                in_bore: false,
                faces: closing,
                outer: BTreeSet::new(),
                around: BTreeSet::new(),
                is_broken: false,
                bends: false,
            };
        }
        self.opening(opening, &edges, ring, which)
    }

    /// Whether a face leads away from the bore's room at an edge; else it closes the room.
    fn opens(&self, face: usize, edge: usize) -> bool {
        let Some(arc) = self.body.edges.get(edge).map(|edge| &edge.arc) else {
            return true;
        };
        let p = arc.at(0.5);
        let radial = self.axis.radial(p);
        if let Some(into) = self.body.way_into(face, edge, 0.5) {
            let out = dot(into, radial) / length(radial);
            if out.abs() > 1e-3 {
                return out > 0.0;
            }
            // A face that goes on from the wall without a corner: a step further it shows.
            let step = add(p, times(into, 0.2 * self.radius));
            let surface = &self.body.faces[face].surface;
            if let Some(q) = surface.onto(step) {
                return length(self.axis.radial(q)) > length(radial);
            }
        }
        let rim = &self.body.faces[face].rim;
        let points = rim
            .iter()
            .flat_map(|used| &self.body.edges[used.edge].points);
        let away = points.map(|q| length(self.axis.radial(*q)) - self.radius);
        away.sum::<f64>() > 0.0
    }

    /// An open end, and the recess that it opens into.
    fn opening(
        &self,
        first: BTreeSet<usize>,
        edges: &BTreeSet<usize>,
        ring: &Ring,
        which: usize,
    ) -> End {
        let sign = if which == 0 { -1.0 } else { 1.0 };
        let mut faces = BTreeSet::new();
        let (mut outer, mut rim) = (first, edges.clone());
        let (mut around, mut broken) = (BTreeSet::new(), BTreeSet::new());
        if let Some(past) = self.around_break(&outer, &rim, ring.mean(which), sign) {
            // What breaks the edge is no step: the bore goes up to the surface around it.
            around.clone_from(&past.faces);
            broken.append(&mut outer);
            (outer, rim) = (past.faces, past.rim);
        }
        let (t, surface) = self.meets(&outer, ring, which);
        let (mut step, mut widest): (Option<f64>, f64) = (None, 0.0);
        for _ in 0..MOST_STEPS {
            let Some(next) = self.next_rim(&outer, &rim, sign) else {
                break;
            };
            for face in &outer {
                if let Surface::Cylinder { radius, .. } = &self.body.faces[*face].surface {
                    step = step.or(Some(*radius));
                }
            }
            let points = next.iter().flat_map(|edge| &self.body.edges[*edge].points);
            let wide = points.map(|p| length(self.axis.radial(*p)));
            widest = wide.fold(widest, f64::max);
            let mut beyond = BTreeSet::new();
            for edge in &next {
                let mut at_edge = self.body.edges[*edge].faces.iter().map(|(face, _)| *face);
                beyond.extend(at_edge.find(|face| !outer.contains(face)));
            }
            faces.append(&mut outer);
            (outer, rim) = (beyond, next);
        }
        let height = self.mean_height(&rim);
        if !faces.is_empty()
            && let Some(past) = self.around_break(&outer, &rim, height, sign)
        {
            broken.append(&mut outer);
            (outer, rim) = (past.faces, past.rim);
        }
        let in_bore = outer.iter().any(|face| {
            let face = &self.body.faces[*face];
            matches!(face.surface, Surface::Cylinder { .. }) && face.sense * face.outward < 0.0
        });
        let recess = (!faces.is_empty()).then(|| {
            let mean = self.mean_height(&rim);
            let outside = self.on_axis(&outer, mean, sign).map_or(mean, |(t, _)| t);
            [2.0 * step.unwrap_or(widest), (t - outside).abs()]
        });
        let is_broken = !broken.is_empty();
        faces.append(&mut broken);
        End {
            t,
            open: true,
            surface,
            recess,
            in_bore,
            faces,
            outer,
            around,
            is_broken,
            bends: false,
        }
    }

    /// The mean height of some edges.
    fn mean_height(&self, edges: &BTreeSet<usize>) -> f64 {
        let heights = edges.iter().flat_map(|edge| &self.body.edges[*edge].points);
        let heights: Vec<f64> = heights.map(|p| self.axis.polar(*p)[1]).collect();
        heights.iter().sum::<f64>() / heights.len().max(1) as f64
    }

    /// The outer edges of a step, countersink or rounded edge about the axis; `None` where the faces are
    /// none, and are the outer surface.
    pub(super) fn next_rim(
        &self,
        faces: &BTreeSet<usize>,
        inner: &BTreeSet<usize>,
        sign: f64,
    ) -> Option<BTreeSet<usize>> {
        let first = *faces.first()?;
        let all: Vec<usize> = faces.iter().copied().collect();
        let flat = |face: &usize| match &self.body.faces[*face].surface {
            Surface::Plane(frame) => is_parallel(frame.z, self.axis.d),
            _ => false,
        };
        let round = |face: &usize| {
            let face = &self.body.faces[*face];
            let about = match &face.surface {
                Surface::Ball { frame, .. } => Some((frame.origin, self.axis.d)),
                surface => surface.axis().map(|frame| (frame.origin, frame.z)),
            };
            about.is_some_and(|(p, d)| self.axis.is_same(p, d, self.within))
        };
        let way = if all.iter().all(flat) {
            Way::Outward
        } else if all.iter().all(round) {
            Way::Along
        } else {
            return None;
        };
        if way == Way::Outward && !self.is_centered(&all) {
            return None;
        }
        let wall = Wall::new(self.body, self.axis, &all, way);
        let next = match way {
            Way::Outward => wall.last_edges(1.0),
            Way::Along => wall.last_edges(sign),
        };
        if next.is_empty() || next.iter().any(|edge| inner.contains(edge)) {
            return None;
        }
        if way == Way::Outward {
            // The floor of a step has a round rim, between its corners too, and a wall that leads further
            // out.
            const BETWEEN: [f64; 5] = [0.0, 0.25, 0.5, 0.75, 1.0];
            let arcs = next.iter().map(|edge| &self.body.edges[*edge].arc);
            let points = arcs.flat_map(|arc| BETWEEN.map(|share| arc.at(share)));
            let wide: Vec<f64> = points.map(|p| length(self.axis.radial(p))).collect();
            let widest = wide.iter().copied().fold(0.0, f64::max);
            let round = wide.iter().all(|out| widest - out < 1e-4 * widest);
            let leads_out = next.iter().all(|edge| {
                let beyond = self.body.other_face(*edge, first);
                let beyond = beyond.filter(|face| !faces.contains(face));
                let into = beyond.and_then(|face| self.body.way_into(face, *edge, 0.5));
                into.is_some_and(|into| sign * dot(into, self.axis.d) > 1e-3)
            });
            if !(round && leads_out) {
                return None;
            }
        }
        Some(next)
    }

    /// Whether some faces lie evenly about the axis, as the floor of a step does.
    fn is_centered(&self, faces: &[usize]) -> bool {
        let mut all = Bounds::EMPTY;
        faces
            .iter()
            .for_each(|face| all.join(&self.body.faces[*face].bounds));
        let center = times(add(all.low, all.high), 0.5);
        length(self.axis.radial(center)) <= 1e-3 * all.size()
    }

    /// Where the axis goes through the surface that a ring opens into, and what surface that is.
    fn meets(
        &self,
        faces: &BTreeSet<usize>,
        ring: &Ring,
        which: usize,
    ) -> (f64, Option<SeenSurface>) {
        let sign = if which == 0 { -1.0 } else { 1.0 };
        let mean = ring.mean(which);
        let mut different: BTreeSet<usize> = BTreeSet::new();
        for face in faces {
            let surface = &self.body.faces[*face].surface;
            let known = |other: &usize| {
                self.body.faces[*other]
                    .surface
                    .is_same(surface, self.within)
            };
            if !different.iter().any(known) {
                different.insert(*face);
            }
        }
        let found = match different.len() {
            0 => return (mean, None),
            1 => self.on_axis(&different, mean, sign),
            _ => self.on_edge(&different, ring, which),
        };
        // A surface that runs all but along the axis meets it far away, where the hole has no end.
        let [low, high] = ring.range(which);
        let far = (high - low) + 2.0 * self.radius;
        let found = found.filter(|(t, _)| (t - mean).abs() <= far);
        let (t, face) = found.unwrap_or((mean, *different.first().unwrap_or(&0)));
        let met = along(self.axis.p, self.axis.d, t);
        let coaxial = self.body.faces[face]
            .surface
            .axis()
            .is_some_and(|frame| self.axis.is_same(frame.origin, frame.z, self.within));
        let tilt_deg = if coaxial {
            Some(0.0)
        } else {
            let normal = found.and_then(|_| self.body.outward(face, met));
            normal.map(|normal| libm::acos(dot(normal, self.axis.d).abs().min(1.0)).to_degrees())
        };
        let t = if coaxial { mean } else { t };
        let kind = if different.len() == 1 && !coaxial && found.is_some() {
            self.kind(face)
        } else {
            SurfaceKind::Other
        };
        (t, Some(SeenSurface { kind, tilt_deg }))
    }

    /// Where the axis goes out through the surface of some faces, nearest to a height, and the face.
    pub(super) fn on_axis(
        &self,
        faces: &BTreeSet<usize>,
        near: f64,
        sign: f64,
    ) -> Option<(f64, usize)> {
        let all = faces.iter().flat_map(|face| {
            let heights = self.goes_out(*face, self.axis.p, sign);
            heights.into_iter().map(|t| (t, *face))
        });
        all.min_by(|a, b| (a.0 - near).abs().total_cmp(&(b.0 - near).abs()))
    }

    /// Heights at which a line along the axis leaves the material through a face's surface.
    pub(super) fn goes_out(&self, face: usize, p: V, sign: f64) -> Vec<f64> {
        let mut met = self.body.faces[face].surface.met_by(p, self.axis.d);
        met.retain(|t| {
            let q = along(p, self.axis.d, *t);
            let normal = self.body.outward(face, q);
            normal.is_none_or(|normal| sign * dot(normal, self.axis.d) > -1e-9)
        });
        met
    }

    /// The same of a bore that opens across an edge of the part: of two or more surfaces the one that
    /// holds where the bore's own wall goes out, by what the lines of the wall do.
    fn on_edge(&self, faces: &BTreeSet<usize>, ring: &Ring, which: usize) -> Option<(f64, usize)> {
        let sign = if which == 0 { -1.0 } else { 1.0 };
        let (mut first, mut last) = (0.0, 0.0);
        for (angle, ends) in &ring.lines {
            let p = along(self.axis.p, self.axis.out(*angle), self.radius);
            let t = ends.get(which)?.t;
            let heights = faces.iter().filter_map(|face| {
                let heights = self.goes_out(*face, p, sign);
                heights
                    .into_iter()
                    .min_by(|a, b| (a - t).abs().total_cmp(&(b - t).abs()))
            });
            let (low, high) = heights
                .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| {
                    (low.min(at), high.max(at))
                });
            if low <= high {
                first += (t - low).abs();
                last += (t - high).abs();
            }
        }
        let mean = ring.mean(which);
        let each = faces.iter().filter_map(|face| {
            let heights = self.goes_out(*face, self.axis.p, sign);
            let near = |a: &f64, b: &f64| (a - mean).abs().total_cmp(&(b - mean).abs());
            heights.into_iter().min_by(near).map(|t| (t, *face))
        });
        let by_height = |a: &(f64, usize), b: &(f64, usize)| a.0.total_cmp(&b.0);
        if first <= last {
            each.min_by(by_height)
        } else {
            each.max_by(by_height)
        }
    }

    /// What kind the surface of a face is, met by the axis.
    fn kind(&self, face: usize) -> SurfaceKind {
        let face = &self.body.faces[face];
        let convex = face.sense * face.outward > 0.0;
        match &face.surface {
            Surface::Plane(_) => SurfaceKind::Flat,
            Surface::Cylinder { frame, radius } => {
                let (radius, offset) = (*radius, self.apart(frame.origin, frame.z));
                if convex {
                    SurfaceKind::Cylinder { radius, offset }
                } else {
                    SurfaceKind::Bore { radius, offset }
                }
            }
            Surface::Ball { frame, radius } if convex => SurfaceKind::Ball {
                radius: *radius,
                offset: length(self.axis.radial(frame.origin)),
            },
            _ => SurfaceKind::Other,
        }
    }

    /// How far the axis is from another line.
    fn apart(&self, p: V, d: V) -> f64 {
        let between = cross(self.axis.d, d);
        let size = length(between);
        if size < 1e-9 {
            return length(self.axis.radial(p));
        }
        (dot(sub(p, self.axis.p), between) / size).abs()
    }
}
