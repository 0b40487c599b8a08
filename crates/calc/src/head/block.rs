//! A box as the head meets it: at a corner, on an edge or on a face.

use super::line::{Found, Line};
use super::shape::Stretch;
use super::stand_off::Shape;
use crate::vector::{Vector, across, along, dot, opposite, unit};

/// A box, as seen from the mouth.
pub(super) struct Block {
    /// Unit vector out of the hole.
    out: Vector,
    /// Least and most along x, y and z, from the mouth [mm].
    corners: [Vector; 2],
    /// Edges of the faces that look toward the tool.
    edges: [Option<Line>; 12],
    /// Faces that look toward the tool.
    faces: [Option<Face>; 3],
}

/// A face, as seen from the mouth.
struct Face {
    /// Which of x, y and z it is square to.
    axis: usize,
    /// Distance of its plane from the mouth, along its normal [mm].
    distance: f64,
    /// Cosine of the angle between its normal and the way out.
    cosine: f64,
    /// Sine of that angle.
    sine: f64,
    /// Unit vector square to the way out in which it rises most.
    uphill: Vector,
}

impl Block {
    /// The box of these corners, from the mouth.
    pub(super) fn new(corners: [Vector; 2], out: Vector) -> Self {
        let looks = |axis: usize, end: usize| if end == 1 { out[axis] } else { -out[axis] } > 0.0;
        let edges = core::array::from_fn(|index| {
            let (axis, ends) = (index / 4, [index & 1, (index >> 1) & 1]);
            let others = [(axis + 1) % 3, (axis + 2) % 3];
            let seen = looks(others[0], ends[0]) || looks(others[1], ends[1]);
            seen.then(|| {
                let mut from = corners[0];
                for (other, end) in others.into_iter().zip(ends) {
                    from[other] = corners[end][other];
                }
                let mut by = [0.0; 3];
                by[axis] = corners[1][axis] - corners[0][axis];
                Line::new(from, by, out)
            })
        });
        let faces = core::array::from_fn(|axis| {
            let cosine = out[axis].abs();
            (cosine > 0.0).then(|| Face::new(axis, corners, out))
        });
        Self {
            out,
            corners,
            edges,
            faces,
        }
    }

    /// How high a face is where it is highest at this distance from the axis; `None` where the box has
    /// ended there.
    fn on_face(&self, face: &Face, radius: f64) -> Option<f64> {
        let height = (face.distance + radius * face.sine) / face.cosine;
        let [x, y, z] = self.out.map(|part| part * height);
        let at = along([x, y, z], face.uphill, radius);
        let within = |axis| self.corners[0][axis] <= at[axis] && at[axis] <= self.corners[1][axis];
        let ends = (0..3).all(|axis| axis == face.axis || within(axis));
        ends.then_some(height)
    }
}

impl Face {
    /// The face square to an axis that looks toward the tool.
    fn new(axis: usize, corners: [Vector; 2], out: Vector) -> Self {
        let mut normal = [0.0; 3];
        normal[axis] = 1.0_f64.copysign(out[axis]);
        let end = usize::from(out[axis] > 0.0);
        let cosine = out[axis].abs();
        // A plane is highest where its normal points away from.
        let flat = along(opposite(normal), out, cosine);
        Self {
            axis,
            distance: corners[end][axis] * normal[axis],
            cosine,
            sine: libm::sqrt(dot(flat, flat)),
            uphill: unit(flat).unwrap_or(across(out)[0]),
        }
    }
}

impl Shape for Block {
    /// A face is touched at one end of the stretch, uphill of the axis; where it ends before that, its
    /// edges are touched, and at their ends the corners.
    fn highest(&self, stretch: &Stretch) -> Option<Found> {
        let edges = self.edges.iter().flatten();
        let on_edges = edges.fold(None, |most, edge| Found::more(most, edge.highest(stretch)));
        self.faces.iter().flatten().fold(on_edges, |most, face| {
            let radius = if face.sine > stretch.slope * face.cosine {
                stretch.outer_mm
            } else {
                stretch.inner_mm
            };
            let height = self.on_face(face, radius);
            Found::more(
                most,
                height.map(|height| Found::at(height, radius, stretch)),
            )
        })
    }

    fn on_circle(&self, radius_mm: f64) -> Option<f64> {
        let edges = self.edges.iter().flatten();
        let on_edges = edges.filter_map(|edge| edge.on_circle(radius_mm));
        let faces = self.faces.iter().flatten();
        let on_faces = faces.filter_map(|face| self.on_face(face, radius_mm));
        on_edges.chain(on_faces).reduce(f64::max)
    }
}
