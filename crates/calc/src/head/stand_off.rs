//! The least stand-off at which the head doesn't touch the part.

use super::block::Block;
use super::line::Found;
use super::shape::{Head, Stretch};
use super::turned::Turned;
use crate::outline::{Mouth, Outline};
use crate::vector::{Vector, along, unit};

/// Stand-off that counts as none [mm].
const NONE_MM: f64 = 1e-9;

/// A pocket or bore that a hole begins at the bottom of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Recess {
    /// Its depth along the hole's axis [mm], 0 and up.
    pub depth_mm: f64,
    /// Its free diameter about the hole's axis [mm], 0 and up.
    pub width_mm: f64,
}

/// How near the guide comes to a hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clearance {
    /// Least stand-off of the guide's lower end from the mouth, along the hole's axis [mm].
    pub needed_mm: f64,
    /// What would touch below that; `None` where nothing does down to the surface.
    pub touches: Option<Touches>,
}

/// What of the head touches the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Touches {
    /// The nose, or the guide in it.
    Nose,
    /// The cone between nose and body.
    Cone,
    /// The body, or the flat shoulder that it begins with.
    Body,
}

/// A part as the head comes down on it.
pub(super) trait Shape {
    /// Where a stretch of the head touches it first; `None` where it goes past.
    fn highest(&self, stretch: &Stretch) -> Option<Found>;
    /// Height of its highest point at a distance from the axis, above the mouth [mm].
    fn on_circle(&self, radius_mm: f64) -> Option<f64>;
}

impl Clearance {
    /// Length of electrode that a head which touches too early takes away.
    ///
    /// Formula: `max(0, needed - s)`: each millimeter above the machine's own stand-off is held back more.
    ///
    /// - `stand_off_mm`: the machine's own stand-off s [mm], 0 and up.
    ///
    /// Result: length [mm], to be added to what is held back; 0 where the head comes near enough.
    ///
    /// ```
    /// use quillbore_calc::head::{Clearance, Touches};
    /// let clearance = Clearance { needed_mm: 46.6, touches: Some(Touches::Body) };
    /// assert!((clearance.lost_mm(8.0) - 38.6).abs() < 1e-9);
    /// assert_eq!(clearance.lost_mm(50.0), 0.0);
    /// ```
    ///
    /// Source: arithmetic, from [`crate::reach::usable`].
    #[must_use]
    pub fn lost_mm(self, stand_off_mm: f64) -> f64 {
        (self.needed_mm - stand_off_mm.max(0.0)).max(0.0)
    }

    /// That of the greatest needs on nose and cone.
    fn of(stretches: &[Stretch; 2], found: [Option<Found>; 2]) -> Self {
        let [nose, cone] = found;
        let by_nose = Found::needed(nose) >= Found::needed(cone);
        let most = if by_nose { nose } else { cone };
        let Some(most) = most.filter(|most| most.needed_mm > NONE_MM) else {
            return Self {
                needed_mm: 0.0,
                touches: None,
            };
        };
        let [_, cone] = stretches;
        let is_body = cone.slope == 0.0 || most.from_axis_mm >= cone.outer_mm - NONE_MM;
        Self {
            needed_mm: most.needed_mm,
            touches: Some(match (by_nose, is_body) {
                (true, _) => Touches::Nose,
                (false, true) => Touches::Body,
                (false, false) => Touches::Cone,
            }),
        }
    }
}

/// The least stand-off at which the head that comes down along a hole's axis doesn't touch the part.
///
/// Formula: the greatest `t - h` of all points of the part, t their height above the mouth along the axis
/// and h the height above the guide's end from which the head is as wide as they are far from the axis. On
/// a box it lies on a corner, on an edge where that leaves a ring of the head or moves off as steeply as
/// the head widens, or on a face uphill of the axis; on a round part it is narrowed to a millionth of a
/// micrometer. In a recess the part begins at half the width from the axis, at least as high as the recess
/// is deep; its bottom counts as square to the axis. What is hollow counts as full.
///
/// - `head`: nose and head [mm].
/// - `mouth`: where the hole begins, on the part or in the recess, and its way out [mm], any direction.
/// - `outline`: where the part lies [mm].
/// - `recess`: the recess that the hole begins in [mm], 0 and up, where it does.
///
/// Result: stand-off [mm] and what would touch; `None` where head, outline or recess are none.
///
/// A nose of 12 mm, 40 long, under a body of 100, in the middle of the top of a plate, tilted by nothing, by
/// 30 degrees (`6 tan 30`) and by 60 (the body: `50 tan 60 - 40`):
///
/// ```
/// use quillbore_calc::head::{Head, Touches, free_stand_off};
/// use quillbore_calc::outline::{Mouth, Outline};
/// let head = Head {
///     nose_mm: 12.0, nose_top_mm: 12.0, nose_length_mm: 40.0, body_mm: 100.0, body_from_mm: 40.0,
/// };
/// let plate = Outline { corners_mm: [[-300.0, -300.0, 0.0], [300.0, 300.0, 20.0]], round: None };
/// let tilted = |degrees: f64| {
///     let (sine, cosine) = degrees.to_radians().sin_cos();
///     let mouth = Mouth { at_mm: [0.0, 0.0, 20.0], out: [sine, 0.0, cosine] };
///     free_stand_off(&head, &mouth, &plate, None).unwrap()
/// };
/// assert_eq!((tilted(0.0).needed_mm, tilted(0.0).touches), (0.0, None));
/// assert!((tilted(30.0).needed_mm - 3.464).abs() < 0.0005);
/// assert!((tilted(60.0).needed_mm - 46.60).abs() < 0.005);
/// assert_eq!(tilted(60.0).touches, Some(Touches::Body));
/// ```
///
/// Source: geometry; ours.
#[must_use]
pub fn free_stand_off(
    head: &Head,
    mouth: &Mouth,
    outline: &Outline,
    recess: Option<Recess>,
) -> Option<Clearance> {
    let stretches = head.stretches()?;
    let out = unit(mouth.out)?;
    let corners = outline
        .corners_mm
        .map(|corner| along(corner, mouth.at_mm, -1.0));
    let is_box = (0..3).all(|axis| {
        let [low, high] = [corners[0][axis], corners[1][axis]];
        low.is_finite() && high.is_finite() && low <= high
    });
    let is_recess =
        recess.is_none_or(|recess| recess.depth_mm.is_finite() && recess.width_mm >= 0.0);
    if !is_box || !is_recess {
        return None;
    }
    let found = match outline.round {
        Some(round) => {
            let at = |axis: usize| f64::midpoint(corners[0][axis], corners[1][axis]);
            let middle: Vector = [at(0), at(1), at(2)];
            let mut axis = [0.0; 3];
            *axis.get_mut(round.axis)? = 1.0;
            let half = (corners[1][round.axis] - corners[0][round.axis]) / 2.0;
            if !(round.radius_mm > 0.0 && round.radius_mm.is_finite()) {
                return None;
            }
            let turned = Turned::new(axis, middle, round.radius_mm, half, out);
            touching(&turned, &stretches, recess)
        }
        None => touching(&Block::new(corners, out), &stretches, recess),
    };
    Some(Clearance::of(&stretches, found))
}

/// The same on a plane that goes on, where the part's size is not known.
///
/// Formula: the greatest `r tan t - h` at the ends of nose and cone, r their radius there and h their height
/// above the guide's lower end.
///
/// - `head`: nose and head [mm].
/// - `tilt_deg`: angle t between the hole's axis and the plane's normal [deg], below 90 either way.
///
/// Result: stand-off [mm] and what would touch; `None` where the head is none, or from 90 degrees on.
///
/// ```
/// use quillbore_calc::head::{Head, Touches, free_stand_off_on_plane};
/// let head = Head {
///     nose_mm: 12.0, nose_top_mm: 12.0, nose_length_mm: 40.0, body_mm: 100.0, body_from_mm: 60.0,
/// };
/// let clearance = free_stand_off_on_plane(&head, 45.0).unwrap();
/// assert!((clearance.needed_mm - 6.0).abs() < 1e-9);
/// assert_eq!(clearance.touches, Some(Touches::Nose));
/// ```
///
/// Source: geometry.
#[must_use]
pub fn free_stand_off_on_plane(head: &Head, tilt_deg: f64) -> Option<Clearance> {
    let stretches = head.stretches()?;
    let tilt = tilt_deg.abs();
    if tilt.is_nan() || tilt >= 90.0 {
        return None;
    }
    let rise = libm::tan(tilt.to_radians());
    let found = stretches.each_ref().map(|stretch| {
        let ends = [stretch.inner_mm, stretch.outer_mm];
        let [inner, outer] = ends.map(|radius| Some(Found::at(radius * rise, radius, stretch)));
        Found::more(inner, outer)
    });
    Some(Clearance::of(&stretches, found))
}

/// Where nose and cone touch a part first.
fn touching(
    part: &impl Shape,
    stretches: &[Stretch; 2],
    recess: Option<Recess>,
) -> [Option<Found>; 2] {
    let Some(recess) = recess else {
        return stretches.each_ref().map(|stretch| part.highest(stretch));
    };
    let free = recess.width_mm / 2.0;
    let rim = part
        .on_circle(free)
        .map_or(recess.depth_mm, |height| height.max(recess.depth_mm));
    stretches.each_ref().map(|stretch| {
        // What is no wider than the recess goes in.
        if stretch.outer_mm <= free {
            return None;
        }
        // Where a stretch would touch the full part within the recess, it touches what is left of it at the
        // rim first: from any other point of it the way toward there only rises.
        let beyond = part
            .highest(stretch)
            .filter(|found| found.from_axis_mm >= free);
        Found::more(Some(Found::at(rim, free, stretch)), beyond)
    })
}
