//! How near the guide comes to the holes of a job.

use super::{Clearance, Head, Recess, free_stand_off, free_stand_off_on_plane};
use crate::input::{JobInput, Place, RowInput};
use crate::outline::{self, Mouth, Outline};
use crate::tables::Tables;
use crate::vector::{Vector, dot};

/// A mouth as near to the part's outline as this lies on it [mm].
const NEAR_MM: f64 = 0.05;

/// Room that a nose needs in a recess beside its own width [mm] (our choice, no source).
const FREE_MM: f64 = 0.5;

/// Places of one row that are looked at on a round part: a ring's are alike, and each takes long.
const MOST_ROUND: usize = 48;

/// Puts into each row how near the machine's guide comes to its holes.
///
/// Formula: the worst of its places by [`free_stand_off`], where part and places are known and the hole begins
/// on the part's outline; otherwise [`free_stand_off_on_plane`] at the angle of its surface; and what its
/// recess keeps away, whichever is more: it counts as square to its face, and half a millimeter narrower
/// than it is. Of a row on a round part 48 places are looked at.
///
/// - `input`: the job, of which the rows get their clearance; none where the machine's head isn't known.
/// - `tables`: the shop's tables.
///
/// ```
/// use quillbore_calc::head::{Head, put_clearances};
/// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
/// # use shop::*;
/// let mut tables = tables();
/// tables.machines[0].head = Some(Head {
///     nose_mm: 12.0, nose_top_mm: 12.0, nose_length_mm: 40.0, body_mm: 100.0, body_from_mm: 40.0,
/// });
/// let mut input = job(vec![through(0.8, 20.0)]);
/// input.rows[0].tilt_deg = 30.0;
/// put_clearances(&mut input, &tables);
/// let needed = input.rows[0].clearance.unwrap().needed_mm;
/// assert!((needed - 3.464).abs() < 0.0005); // 6 tan 30
/// ```
///
/// Source: those of its functions.
pub fn put_clearances(input: &mut JobInput, tables: &Tables) {
    let machine = (input.machine).and_then(|machine| machine.of(&tables.machines));
    let head = machine.and_then(|machine| machine.head);
    let lies = head.and_then(|_| outline::of_job(input));
    for row in &mut input.rows {
        row.clearance = head.and_then(|head| of_row(&head, row, lies.as_ref()));
    }
}

impl Recess {
    /// What is left of a recess that is square to its face, seen along an axis that leans in it, and what a
    /// nose needs to go in.
    pub(crate) fn leaning(self, tilt_deg: f64) -> Self {
        let tilt = tilt_deg.abs().to_radians();
        let (tangent, cosine) = (libm::tan(tilt), libm::cos(tilt));
        // At its rim the axis has gone to one side.
        let beside_mm = self.width_mm / 2.0 - self.depth_mm * tangent;
        Self {
            depth_mm: self.depth_mm / cosine,
            width_mm: (2.0 * beside_mm * cosine - FREE_MM).max(0.0),
        }
    }
}

fn of_row(head: &Head, row: &RowInput, lies: Option<&Outline>) -> Option<Clearance> {
    let step = match lies {
        Some(lies) if lies.round.is_some() => row.places.len().div_ceil(MOST_ROUND).max(1),
        _ => 1,
    };
    let recess = row.recess.map(|recess| recess.leaning(row.tilt_deg));
    let looked_at = row.places.iter().step_by(step);
    let on_part = looked_at.filter_map(|place| at(head, place, recess, lies?));
    let tilt_deg = row.surface.entered(row.tilt_deg, 1.0).tilt_deg;
    on_part.reduce(worse).or_else(|| {
        // Where the part lies nobody knows: its surface is taken to go on.
        let on_plane = free_stand_off_on_plane(head, tilt_deg)?;
        let in_recess = recess.and_then(|recess| in_recess(head, recess));
        Some(in_recess.map_or(on_plane, |found| worse(on_plane, found)))
    })
}

/// At a place that lies on the part's outline, or at the bottom of a recess in it.
fn at(head: &Head, place: &Place, recess: Option<Recess>, lies: &Outline) -> Option<Clearance> {
    let mouth = Mouth::of(place);
    let is_known = recess.is_some() || is_on(lies, mouth.at_mm);
    let found = is_known.then(|| free_stand_off(head, &mouth, lies, recess))?;
    // A recess is deep by itself, however near to its end the outline is.
    let by_recess = recess.and_then(|recess| in_recess(head, recess));
    found.map(|found| by_recess.map_or(found, |other| worse(found, other)))
}

/// What a recess alone keeps away, in a face that goes on.
fn in_recess(head: &Head, recess: Recess) -> Option<Clearance> {
    let far = 1e4;
    let face = Outline {
        corners_mm: [[-far, -far, -far], [far, far, recess.depth_mm.max(0.0)]],
        round: None,
    };
    let bottom = Mouth {
        at_mm: [0.0; 3],
        out: [0.0, 0.0, 1.0],
    };
    free_stand_off(head, &bottom, &face, Some(recess))
}

fn worse(one: Clearance, other: Clearance) -> Clearance {
    if other.needed_mm > one.needed_mm {
        other
    } else {
        one
    }
}

/// Whether a point lies on the skin of a part.
fn is_on(lies: &Outline, point_mm: Vector) -> bool {
    let [low, high] = lies.corners_mm;
    let near = |a: f64, b: f64| (a - b).abs() <= NEAR_MM;
    let within = |axis: usize| {
        point_mm[axis] >= low[axis] - NEAR_MM && point_mm[axis] <= high[axis] + NEAR_MM
    };
    let on_face = |axis: usize| near(point_mm[axis], low[axis]) || near(point_mm[axis], high[axis]);
    match lies.round {
        Some(round) => {
            let mut from_axis = point_mm;
            from_axis[round.axis] = 0.0;
            let out = libm::sqrt(dot(from_axis, from_axis));
            let on_side = near(out, round.radius_mm) && within(round.axis);
            on_side || on_face(round.axis) && out <= round.radius_mm + NEAR_MM
        }
        None => (0..3).all(within) && (0..3).any(on_face),
    }
}
