//! A body: its faces, their edges, and who meets whom there.

use super::curve::Arc;
use super::surface::Surface;
use super::tree::Tree;
use super::vector::{Bounds, V, add, cross, distance, dot, sub, times, unit};

/// What share of a face's size its edges may be apart where they meet.
const CORNER: f64 = 1e-4;

/// A body, its lengths in millimeters where the file tells its unit.
#[derive(Debug, Default)]
pub(super) struct Body {
    /// Its faces.
    pub(super) faces: Vec<Face>,
    /// The edges of its faces.
    pub(super) edges: Vec<Edge>,
    /// Finds the faces that a ray may meet.
    pub(super) tree: Tree,
    /// Those of its faces that share no edge with another one, though they have edges.
    pub(super) loose: Vec<usize>,
    /// Those of its other faces that have an edge which is no other's.
    pub(super) unclosed: Vec<usize>,
}

/// A face.
#[derive(Debug)]
pub(super) struct Face {
    /// Its number in the file.
    pub(super) number: u64,
    /// The surface that it lies on.
    pub(super) surface: Surface,
    /// 1 where the surface's normal is the face's own, -1 where it is against it.
    pub(super) sense: f64,
    /// 1 where the face's own normal points out of the material, -1 where it points in.
    pub(super) outward: f64,
    /// The shell that it belongs to.
    pub(super) shell: usize,
    /// Its edges, each as it is run through with the face to its left.
    pub(super) rim: Vec<Use>,
    /// Finds the edges near a point, of a face with many.
    pub(super) rim_tree: Option<Tree>,
    /// What it lies within.
    pub(super) bounds: Bounds,
    /// How far from a cylinder a free form is, of one that was told to be one.
    pub(super) off_round: Option<f64>,
}

/// An edge as a face uses it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Use {
    /// Which edge.
    pub(super) edge: usize,
    /// Whether it is run through from its beginning to its end.
    pub(super) along: bool,
    /// Whether it is a seam: the face lies on both sides of it.
    pub(super) seam: bool,
    /// Which of the face's bounds it belongs to.
    pub(super) bound: usize,
}

/// An edge.
#[derive(Debug)]
pub(super) struct Edge {
    /// Its curve, from its beginning to its end.
    pub(super) arc: Arc,
    /// Points along it.
    pub(super) points: Vec<V>,
    /// The faces that it is an edge of, and whether each runs through it from its beginning to its end.
    pub(super) faces: Vec<(usize, bool)>,
}

/// Where a ray meets a body.
#[derive(Clone, Copy, Debug)]
pub(super) struct Hit {
    /// How far along the ray.
    pub(super) t: f64,
    /// The face.
    pub(super) face: usize,
}

/// The piece of an edge that a point is beside.
struct Beside {
    /// How far from it.
    away: f64,
    /// Its nearest point.
    foot: V,
    /// Which way it runs, with the face on its left.
    way: V,
    /// Whether its nearest point is one of its ends.
    at_end: bool,
}

impl Beside {
    /// How far a point is to its left, along the face; `None` where the face has no normal there.
    fn side(&self, face: &Face, q: V) -> Option<f64> {
        let normal = times(face.surface.normal(self.foot)?, face.sense);
        let left = unit(cross(normal, self.way))?;
        Some(dot(sub(q, self.foot), left))
    }
}

impl Body {
    /// The faces that share no edge with another one, though they have edges.
    pub(super) fn loose_faces(&self) -> Vec<usize> {
        let faces = self.faces.iter().enumerate();
        let loose = faces.filter(|(_, face)| {
            let mut own = face.rim.iter().filter(|used| !used.seam).peekable();
            own.peek().is_some() && own.all(|used| self.is_free(used))
        });
        loose.map(|(at, _)| at).collect()
    }

    /// The faces that have an edge which belongs to no other face; of `loose` ones all edges are so.
    pub(super) fn unclosed_faces(&self, loose: &[usize]) -> Vec<usize> {
        let faces = self.faces.iter().enumerate();
        let open = faces.filter(|(at, face)| {
            let mut own = face.rim.iter().filter(|used| !used.seam);
            loose.binary_search(at).is_err() && own.any(|used| self.is_free(used))
        });
        open.map(|(at, _)| at).collect()
    }

    /// Whether an edge of a face is no other's.
    fn is_free(&self, used: &Use) -> bool {
        self.edges[used.edge].faces.len() < 2
    }

    /// The first face that a ray meets behind a length.
    pub(super) fn first_hit(&self, p: V, d: V, behind: f64) -> Option<Hit> {
        self.first_hit_of(p, d, behind, |_| true)
    }

    /// The same of some of its faces.
    pub(super) fn first_hit_of(
        &self,
        p: V,
        d: V,
        behind: f64,
        among: impl Fn(&Face) -> bool,
    ) -> Option<Hit> {
        let mut best: Option<Hit> = None;
        self.tree.along(p, d, |at| {
            let far = best.map_or(f64::INFINITY, |hit| hit.t);
            let Some(face) = self.faces.get(at) else {
                return far;
            };
            if !among(face) || !face.bounds.met(p, d, far) {
                return far;
            }
            for t in face.surface.met_by(p, d) {
                let nearer = best.is_none_or(|hit| t < hit.t);
                let q = add(p, times(d, t));
                // A ray all but along a round wall meets its surface, though far beyond the face.
                let near = face.bounds.distance(q) <= 1e-6 * face.bounds.size();
                if t > behind && nearer && near && self.holds(at, q) {
                    best = Some(Hit { t, face: at });
                }
            }
            best.map_or(f64::INFINITY, |hit| hit.t)
        });
        best
    }

    /// Whether a point of a face's surface lies in the face: on the left of the nearest of its edges.
    pub(super) fn holds(&self, at: usize, q: V) -> bool {
        let Some(face) = self.faces.get(at) else {
            return false;
        };
        let q = face.surface.aside(q, 1e-3 * face.bounds.size());
        // Corners of edges are as far apart as the digits of a file leave them.
        let slack = CORNER * face.bounds.size();
        let (mut nearest, mut any) = (f64::INFINITY, false);
        let mut near: Vec<Beside> = Vec::new();
        let mut ask = |used: &Use| {
            if used.seam {
                return nearest + slack;
            }
            any = true;
            for pair in self.edges[used.edge].points.windows(2) {
                let &[a, b] = pair else { continue };
                let along = sub(b, a);
                let share = (dot(sub(q, a), along) / dot(along, along)).clamp(0.0, 1.0);
                let foot = add(a, times(along, share));
                let away = distance(q, foot);
                if away.is_nan() || away > nearest + slack {
                    continue;
                }
                near.push(Beside {
                    away,
                    foot,
                    way: if used.along {
                        along
                    } else {
                        times(along, -1.0)
                    },
                    at_end: share <= 0.0 || share >= 1.0,
                });
                nearest = nearest.min(away);
            }
            nearest + slack
        };
        match &face.rim_tree {
            Some(tree) => tree.near(q, |at| face.rim.get(at).map_or(f64::INFINITY, &mut ask)),
            None => face.rim.iter().for_each(|used| {
                ask(used);
            }),
        }
        let Some(first) = near.iter().min_by(|a, b| a.away.total_cmp(&b.away)) else {
            return !any;
        };
        // At a corner both edges speak.
        let speaks = |one: &&Beside| match first.at_end {
            true => one.away <= nearest + slack,
            false => std::ptr::eq(*one, first),
        };
        let sides = near.iter().filter(speaks);
        let sides: Vec<f64> = sides.filter_map(|one| one.side(face, q)).collect();
        // An arc stands off the line between its points, which is square to the face there.
        let beside = match sides[..] {
            [side] if !first.at_end => side.abs(),
            _ => first.away,
        };
        let touched = beside <= 1e-6 * face.bounds.size();
        sides.is_empty() || touched || sides.iter().sum::<f64>() > 0.0
    }

    /// The normal that points out of the material, at a point of a face.
    pub(super) fn outward(&self, at: usize, q: V) -> Option<V> {
        let face = self.faces.get(at)?;
        let normal = face.surface.normal(q)?;
        Some(times(normal, face.sense * face.outward))
    }

    /// The direction from an edge into a face, square to the edge, where `s` of the edge lies behind.
    pub(super) fn way_into(&self, at: usize, edge: usize, s: f64) -> Option<V> {
        let face = self.faces.get(at)?;
        let Edge { arc, faces, .. } = self.edges.get(edge)?;
        let (_, along) = faces.iter().find(|(face, _)| *face == at)?;
        let normal = times(face.surface.normal(arc.at(s))?, face.sense);
        let way = arc.slope(s);
        let way = if *along { way } else { way.map(|part| -part) };
        unit(cross(normal, way))
    }

    /// The other face at an edge.
    pub(super) fn other_face(&self, edge: usize, than: usize) -> Option<usize> {
        let faces = &self.edges.get(edge)?.faces;
        faces
            .iter()
            .map(|(face, _)| *face)
            .find(|face| *face != than)
    }
}
