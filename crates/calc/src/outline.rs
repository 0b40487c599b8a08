//! Where a part of a typed size lies about its zero, and whether it is round.

use alloc::vec::Vec;

use crate::input::{JobInput, Place};
use crate::vector::{Vector, dot, opposite};

/// What lies as near to a face as this lies on it [mm]; locations are written to some hundredths.
const NEAR_MM: f64 = 0.02;
/// Sizes and radii that differ by no more than this share are one.
const ALIKE: f64 = 1e-4;

/// Where a hole begins, and its way out of the part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mouth {
    /// Where the electrode enters, in the part's coordinates [mm].
    pub at_mm: [f64; 3],
    /// Unit vector out of the hole.
    pub out: [f64; 3],
}

impl Mouth {
    /// The mouth of a hole at its location.
    ///
    /// Formula: the way out is opposite to the axis into the material.
    ///
    /// - `place`: where it is drilled [mm].
    ///
    /// Result: the mouth [mm].
    ///
    /// ```
    /// use quillbore_calc::input::Place;
    /// use quillbore_calc::outline::Mouth;
    /// let place = Place { number: 1, point_mm: [1.0, 2.0, 3.0], axis: [0.0, 0.0, -1.0] };
    /// assert_eq!(Mouth::of(&place).out, [-0.0, -0.0, 1.0]);
    /// ```
    ///
    /// Source: its definition.
    #[must_use]
    pub fn of(place: &Place) -> Self {
        Self {
            at_mm: place.point_mm,
            out: opposite(place.axis),
        }
    }
}

/// The part as its size and its holes tell it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outline {
    /// Least and most along x, y and z [mm].
    pub corners_mm: [[f64; 3]; 2],
    /// Round about an axis, where holes begin on its curved side.
    pub round: Option<Round>,
}

/// A round part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Round {
    /// Which of x, y and z it is round about, 0 to 2.
    pub axis: usize,
    /// Its radius [mm].
    pub radius_mm: f64,
    /// Its inner radius, where it has a wall [mm].
    pub inner_mm: Option<f64>,
}

/// The outline of a part about its zero.
///
/// Formula: along each axis zero lies at one end of the size, at the other, or in its middle: the first of
/// these about which every hole begins on the part and goes into it, one where it begins on a face square
/// to it before one where it begins in a recess. Round is a part with two equal sizes about a zero in
/// their middle, of which a hole begins on the cylinder and points away from the axis, or three and more
/// begin as far from the axis as each other and point to it or from it; and none beyond the cylinder.
///
/// - `size_mm`: size along x, y, z [mm], above 0.
/// - `wall_mm`: its wall [mm], above 0, where it is hollow and round.
/// - `mouths`: where holes begin [mm], 1 and more.
///
/// Result: the outline [mm]; `None` where a hole begins outside of the part, wherever its zero is, or
/// where there are none.
///
/// Zero on the lower left corner of a plate whose holes begin on its upper face; a ring of 100 by 40 with a
/// wall of 8 whose holes begin on its side; a hole 1 m off:
///
/// ```
/// use quillbore_calc::outline::{Mouth, outline};
/// let from_above = |x, z| Mouth { at_mm: [x, 30.0, z], out: [0.0, 0.0, 1.0] };
/// let plate = outline([100.0, 75.0, 40.0], None, &[from_above(25.0, 40.0)]).unwrap();
/// assert_eq!(plate.corners_mm, [[0.0, 0.0, 0.0], [100.0, 75.0, 40.0]]);
/// assert_eq!(plate.round, None);
/// let from_side = Mouth { at_mm: [30.0, -40.0, 10.0], out: [0.6, -0.8, 0.0] };
/// let ring = outline([100.0, 100.0, 40.0], Some(8.0), &[from_side]).unwrap();
/// let round = ring.round.unwrap();
/// assert_eq!((round.axis, round.radius_mm, round.inner_mm), (2, 50.0, Some(42.0)));
/// assert_eq!(outline([100.0, 75.0, 40.0], None, &[from_above(1000.0, 40.0)]), None);
/// ```
///
/// Source: geometry; where a part's zero may be, common practice, no source.
#[must_use]
pub fn outline(size_mm: [f64; 3], wall_mm: Option<f64>, mouths: &[Mouth]) -> Option<Outline> {
    if mouths.is_empty() {
        return None;
    }
    if let Some(found) = (0..3).find_map(|axis| round(axis, size_mm, wall_mm, mouths)) {
        return Some(found);
    }
    let [x, y, z] = [0, 1, 2].map(|axis| along(axis, size_mm[axis], mouths));
    let (x, y, z) = (x?, y?, z?);
    Some(Outline {
        corners_mm: [[x.0, y.0, z.0], [x.1, y.1, z.1]],
        round: None,
    })
}

/// The outline of a job's part by all of its holes; `None` where its size is not known, too.
pub(crate) fn of_job(input: &JobInput) -> Option<Outline> {
    let rows = input.rows.iter();
    let mouths: Vec<Mouth> = rows
        .flat_map(|row| row.places.iter().map(Mouth::of))
        .collect();
    outline(input.part_mm?, None, &mouths)
}

/// From where to where the part reaches along an axis.
fn along(axis: usize, size: f64, mouths: &[Mouth]) -> Option<(f64, f64)> {
    let half = size / 2.0;
    let ways = [(0.0, size), (-size, 0.0), (-half, half)];
    // A hair within the hole is a hair within the part.
    let goes_in = |mouth: &Mouth| {
        let at = mouth.at_mm[axis];
        [at, at - mouth.out[axis] * NEAR_MM * 2.0]
    };
    let within = |(low, high): &(f64, f64)| {
        let mut all = mouths.iter().flat_map(goes_in);
        all.all(|at| at >= low - NEAR_MM && at <= high + NEAR_MM)
    };
    // Square to a face a hole begins on it, unless that lies in a recess.
    let on_face = |(low, high): &(f64, f64)| {
        mouths.iter().all(|mouth| match mouth.out[axis] {
            out if out > 0.9 => (mouth.at_mm[axis] - high).abs() < NEAR_MM,
            out if out < -0.9 => (mouth.at_mm[axis] - low).abs() < NEAR_MM,
            _ => true,
        })
    };
    let mut found = ways.into_iter().filter(within);
    let faces = found.clone().find(on_face);
    faces.or_else(|| found.next())
}

/// The part as round about an axis, zero in its middle, where its holes are on it.
fn round(
    axis: usize,
    size_mm: [f64; 3],
    wall_mm: Option<f64>,
    mouths: &[Mouth],
) -> Option<Outline> {
    let [one, other] = [(axis + 1) % 3, (axis + 2) % 3];
    let radius = size_mm[one] / 2.0;
    if (size_mm[one] - size_mm[other]).abs() > ALIKE * size_mm[one] || radius <= 0.0 {
        return None;
    }
    let off_axis = |mouth: &Mouth| -> Vector {
        let mut at = mouth.at_mm;
        at[axis] = 0.0;
        at
    };
    let far = |mouth: &Mouth| {
        let at = off_axis(mouth);
        libm::sqrt(dot(at, at))
    };
    let on_side = |mouth: &Mouth| {
        (far(mouth) - radius).abs() <= NEAR_MM && dot(off_axis(mouth), mouth.out) > 0.7 * radius
    };
    // A ring of holes in a groove or a cone is turned as well: three and more as far from the axis.
    let first = mouths.first().map_or(0.0, far);
    let around = |mouth: &Mouth| {
        let points = dot(off_axis(mouth), mouth.out).abs() > 0.5 * far(mouth);
        points && far(mouth) > 0.0 && (far(mouth) - first).abs() <= NEAR_MM
    };
    let in_a_ring = mouths.len() >= 3 && mouths.iter().all(around);
    let none_beyond = mouths.iter().all(|mouth| far(mouth) <= radius + NEAR_MM);
    if !none_beyond || !(in_a_ring || mouths.iter().any(on_side)) {
        return None;
    }
    let (low, high) = along(axis, size_mm[axis], mouths)?;
    let mut corners_mm = [[-radius; 3], [radius; 3]];
    (corners_mm[0][axis], corners_mm[1][axis]) = (low, high);
    let inner = wall_mm.map(|wall| radius - wall);
    Some(Outline {
        corners_mm,
        round: Some(Round {
            axis,
            radius_mm: radius,
            inner_mm: inner.filter(|inner| *inner > 0.0),
        }),
    })
}
