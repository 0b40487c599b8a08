//! The hollow round faces of a body, those about one axis together.

use super::body::Body;
use super::holes::{foot, is_hollow};
use super::round::bends_around;
use super::surface::Surface;
use super::vector::{ALIKE, Bounds, V, add, distance, dot, is_parallel, times};
use super::wall::Axis;

/// Faces of one axis and radius.
pub(super) struct Round {
    /// Their axis, about where they are.
    pub(super) axis: Axis,
    /// Their radius; of a cone that at one end.
    pub(super) radius: f64,
    /// The faces.
    pub(super) faces: Vec<usize>,
}

/// What of a body may be the wall of a hole.
pub(super) struct Walls {
    /// Cylinders.
    pub(super) bores: Vec<Round>,
    /// Cones.
    pub(super) tapers: Vec<Round>,
    /// Free forms that bend around more than half a turn, and are no cylinders.
    pub(super) odd: Vec<usize>,
}

/// A hollow face while they are put together.
struct Hollow {
    face: usize,
    /// The point of its axis nearest to the middle of the body.
    foot: V,
    /// The point of its axis beside the face.
    beside: V,
    d: V,
    radius: f64,
    slope: f64,
    /// How far apart radii may be that are the same.
    within: f64,
}

/// How far apart axes of a bore may be that are one: files write few digits, and each face its own.
pub(super) fn play(radius: f64) -> f64 {
    2e-3 * radius
}

impl Walls {
    /// Those of a body, in the order of its faces.
    pub(super) fn of(body: &Body) -> Self {
        let mut all = Bounds::EMPTY;
        body.faces.iter().for_each(|face| all.join(&face.bounds));
        let center = middle(all);
        let (mut bores, mut tapers, mut odd) = (Vec::new(), Vec::new(), Vec::new());
        for (at, face) in body.faces.iter().enumerate() {
            if let Surface::Patch(patch) = &face.surface {
                if bends_around(patch, face.sense * face.outward) {
                    odd.push(at);
                }
                continue;
            }
            if !is_hollow(body, at) {
                continue;
            }
            match &face.surface {
                Surface::Cylinder { frame, radius } => bores.push(Hollow {
                    face: at,
                    foot: foot(frame.origin, frame.z, center),
                    beside: foot(frame.origin, frame.z, middle(face.bounds)),
                    d: frame.z,
                    radius: *radius,
                    slope: 0.0,
                    within: 1e-5 * radius + 2.0 * face.off_round.unwrap_or(0.0),
                }),
                Surface::Cone {
                    frame,
                    radius,
                    slope,
                } => {
                    let at_center = foot(frame.origin, frame.z, center);
                    let up = dot(super::vector::sub(at_center, frame.origin), frame.z);
                    let wide = radius + slope * up;
                    tapers.push(Hollow {
                        face: at,
                        foot: at_center,
                        beside: foot(frame.origin, frame.z, middle(face.bounds)),
                        d: frame.z,
                        radius: wide,
                        slope: *slope,
                        within: 1e-5 * wide.abs().max(*radius),
                    });
                }
                _ => {}
            }
        }
        Self {
            bores: together(body, bores, all.size()),
            tapers: together(body, tapers, all.size()),
            odd,
        }
    }
}

/// Puts the faces of one axis and radius together, each group in the order of its first face; `size` is
/// that of the body.
fn together(body: &Body, mut hollow: Vec<Hollow>, size: f64) -> Vec<Round> {
    hollow.sort_by(|a, b| a.radius.total_cmp(&b.radius).then(a.face.cmp(&b.face)));
    let mut taken = vec![false; hollow.len()];
    let mut groups = Vec::new();
    // Those of one radius stand beside each other; among them by a coordinate of their axes.
    let mut from = 0;
    while from < hollow.len() {
        let mut to = from + 1;
        while to < hollow.len() && hollow[to].radius - hollow[to - 1].radius <= hollow[to].within {
            to += 1;
        }
        let mut order: Vec<usize> = (from..to).collect();
        // A direction that no drawing lines its holes up along.
        let key = |at: &usize| dot(hollow[*at].foot, [0.539_3, 0.733_1, 0.414_7]);
        order.sort_by(|a, b| key(a).total_cmp(&key(b)));
        for (place, first) in order.iter().enumerate() {
            if taken[*first] {
                continue;
            }
            taken[*first] = true;
            let mut faces = vec![hollow[*first].face];
            for other in &order[place + 1..] {
                // Axes that lean by a digit are that far apart at the middle of the body.
                if key(other) - key(first) > 2.0 * hollow[*first].play() + ALIKE * size {
                    break;
                }
                if !taken[*other] && is_same(&hollow[*first], &hollow[*other]) {
                    taken[*other] = true;
                    faces.push(hollow[*other].face);
                }
            }
            faces.sort_unstable();
            groups.push(group(body, &hollow[*first], faces));
        }
        from = to;
    }
    groups.sort_by_key(|group| group.faces.first().copied());
    groups
}

fn is_same(a: &Hollow, b: &Hollow) -> bool {
    let turned = dot(a.d, b.d).signum();
    let apart = distance(foot(a.beside, a.d, b.beside), b.beside);
    is_parallel(a.d, b.d)
        && apart <= a.play().max(b.play())
        && (a.radius - b.radius).abs() <= a.within.max(b.within)
        && (a.slope - turned * b.slope).abs() < ALIKE
}

/// The middle of some bounds; the origin of none.
fn middle(bounds: Bounds) -> V {
    if bounds.is_empty() {
        [0.0; 3]
    } else {
        times(add(bounds.low, bounds.high), 0.5)
    }
}

impl Hollow {
    /// How far its axis may be from another that is the same.
    fn play(&self) -> f64 {
        play(self.radius.abs()).max(self.within)
    }
}

fn group(body: &Body, first: &Hollow, faces: Vec<usize>) -> Round {
    // Heights are counted from where the faces are, so that they keep their digits.
    let mut bounds = Bounds::EMPTY;
    faces
        .iter()
        .for_each(|face| bounds.join(&body.faces[*face].bounds));
    Round {
        axis: Axis::new(foot(first.beside, first.d, middle(bounds)), first.d),
        radius: first.radius,
        faces,
    }
}
