//! Whether a part's weight holds it against the flush, and what else must.

use super::rest::{Part, Stand, Support};
use crate::direction::unit;
use crate::vector::{self, Vector, along, cross, dot};

/// Acceleration of gravity [m/s2]: as textbooks work with it. The standard 9.80665 differs by less than
/// any shop's own does from either.
const GRAVITY_M_S2: f64 = 9.81;
/// How many times the push a part is held against, and how many times what just holds a clamp gives (ours).
const SAFETY: f64 = 2.0;

/// What the flush of one hole pushes; vectors are in the part's coordinates.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pushed {
    /// Any point of the hole's axis [mm].
    pub point_mm: [f64; 3],
    /// The way in which the flush pushes: into the material, or up where it fills a pocket under the part.
    pub toward: [f64; 3],
    /// The push [N], 0 and up: see [`super::hole_push_n`].
    pub push_n: f64,
    /// Where the hole comes out, if water can be caught under the part there [mm]; it lifts only from
    /// the support.
    pub exit_mm: Option<[f64; 3]>,
}

/// What must hold a part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Holding {
    /// Force toward the support, above the part's center of gravity, that a clamp must give [N]: what holds
    /// twice the push, and twice what just holds; 0 where the weight holds twice the push alone.
    pub clamp_n: f64,
    /// The worst tipping that the weight doesn't hold.
    pub tips: Option<Turn>,
    /// The worst lifting by water under the part that the weight doesn't hold.
    pub lifts: Option<Turn>,
    /// The greatest force along the support, without a factor.
    pub stop: Option<Stop>,
}

/// A part that turns over an edge of its support, or rises from it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turn {
    /// Which of the pushes does it, counted from 0; `None` where the weight does alone.
    pub push: Option<usize>,
    /// The way from the middle of the support to the edge; `None` where the part rises straight up.
    pub over: Option<[f64; 3]>,
    /// Moment about the edge that is left over [N mm].
    pub moment_n_mm: f64,
    /// Force toward the support, above the center of gravity, that just holds it [N].
    pub hold_n: f64,
}

/// A force along the support.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stop {
    /// Which of the pushes does it, counted from 0; `None` where the weight does alone.
    pub push: Option<usize>,
    /// The way in which the part would slide.
    pub toward: [f64; 3],
    /// The force [N].
    pub force_n: f64,
}

/// What must hold a part on its support against its flush.
///
/// Formula: for the weight `m g` alone, and with each push (never two: one hole is drilled at a time): the
/// moment about each edge, `sum of (r x F) . (up x u)`, with r from the edge to where the force acts and u
/// the way out over the edge. Where it is above 0, it divided by the edge's distance from the center of
/// gravity is the force that just holds. A clamp gives what holds twice the push, and at least twice what
/// just holds: by twice the shortfall alone a part that weighs a hair more than the push would be held by
/// nothing. So it does, with the weight alone, for a push straight up from where a hole opens into the
/// support. That no more pushes up than down follows:
/// moments about opposite edges add up to it. A stop, as low as the support, takes what of weight and
/// push lies along it.
///
/// - `part`: the part [mm], [kg].
/// - `support`: what it rests on [mm].
/// - `gravity`: the way gravity pulls, in the part's coordinates: any vector with a length [-].
/// - `pushes`: what the flush pushes at each hole [mm], [N].
///
/// Result: clamp and stop [N]; `None` where up is along no axis within 0.1 degree, and for sizes, mass or
/// pushes that are none.
///
/// A plate of 100 by 60 by 10 and 0.5 kg on parallels that bear the middle 40 of its length:
///
/// ```
/// use quillbore_calc::push::{Part, Pushed, Rest, Support, held};
/// let plate = Part { corner_mm: [0.0; 3], size_mm: [100.0, 60.0, 10.0], mass_kg: 0.5 };
/// let support = Support { up: [0.0, 0.0, 1.0], rest: Rest::Rectangle([40.0, 60.0]) };
/// let hole = Pushed {
///     point_mm: [95.0, 30.0, 10.0],
///     toward: [0.0, 0.0, -1.0],
///     push_n: 5.0,
///     exit_mm: None,
/// };
/// // 5 N at 25 beyond the edge against 4.905 N at 20 inside of it: 26.9 N mm too much.
/// let holding = held(&plate, &support, [0.0, 0.0, -1.0], &[hole]).unwrap();
/// let tips = holding.tips.unwrap();
/// assert!((tips.moment_n_mm - 26.9).abs() < 1e-9);
/// assert_eq!((tips.push, tips.over), (Some(0), Some([1.0, 0.0, 0.0])));
/// // Against 10 N: 250 less 98.1 N mm, at 20.
/// assert!((holding.clamp_n - 7.595).abs() < 1e-9);
/// assert_eq!((holding.lifts, holding.stop), (None, None));
/// ```
///
/// Source: statics of a rigid body; twice the force is ours.
#[must_use]
pub fn held(
    part: &Part,
    support: &Support,
    gravity: [f64; 3],
    pushes: &[Pushed],
) -> Option<Holding> {
    let stand = Stand::of(part, support)?;
    if part.mass_kg.is_nan() || part.mass_kg <= 0.0 {
        return None;
    }
    let weight_n = part.mass_kg * GRAVITY_M_S2;
    let weight = Load::of(&stand, stand.center_mm, gravity, weight_n)?;
    let mut tips = turn(&stand, weight, None)?;
    let mut stop = slide(&stand, weight, None);
    let (mut lifts, mut twice) = (None, None);
    for (index, pushed) in pushes.iter().enumerate() {
        let push = Some(index);
        let load = |point_mm, toward, push_n| Load::of(&stand, point_mm, toward, push_n);
        let once = load(pushed.point_mm, pushed.toward, pushed.push_n)?.and(weight);
        let more_of_it = load(pushed.point_mm, pushed.toward, SAFETY * pushed.push_n)?;
        tips = worse(tips, turn(&stand, once, push)?);
        twice = worse(twice, turn(&stand, more_of_it.and(weight), push)?);
        stop = more(stop, slide(&stand, once, push));
        if let Some(exit) = pushed.exit_mm.filter(|exit| stand.bears(*exit)) {
            let once = load(exit, stand.up, pushed.push_n)?.and(weight);
            let more_of_it = load(exit, stand.up, SAFETY * pushed.push_n)?;
            lifts = worse(lifts, turn(&stand, once, push)?);
            twice = worse(twice, turn(&stand, more_of_it.and(weight), push)?);
        }
    }
    let hold_n = |turn: Option<Turn>| turn.map_or(0.0, |turn| turn.hold_n);
    Some(Holding {
        clamp_n: hold_n(twice).max(SAFETY * hold_n(worse(tips, lifts))),
        tips,
        lifts,
        stop,
    })
}

/// Forces on a part: their sum, and how they turn it about the middle of its support.
#[derive(Clone, Copy)]
struct Load {
    force_n: Vector,
    /// Moment by the way it turns the part to, along the support [N mm].
    turning_n_mm: Vector,
}

impl Load {
    /// A force at a point.
    fn of(stand: &Stand, point_mm: Vector, toward: Vector, force_n: f64) -> Option<Self> {
        if !force_n.is_finite() || force_n < 0.0 {
            return None;
        }
        let force = stand.straight(unit(toward)?).map(|part| part * force_n);
        let from_middle = along(point_mm, stand.middle_mm, -1.0);
        Some(Self {
            force_n: force,
            turning_n_mm: cross(cross(from_middle, force), stand.up),
        })
    }

    /// Both together.
    fn and(self, other: Self) -> Self {
        Self {
            force_n: along(self.force_n, other.force_n, 1.0),
            turning_n_mm: along(self.turning_n_mm, other.turning_n_mm, 1.0),
        }
    }
}

/// How a load turns the part, where it does; `None` where it is no number.
fn turn(stand: &Stand, load: Load, push: Option<usize>) -> Option<Option<Turn>> {
    let over = stand.worst(load.turning_n_mm, dot(load.force_n, stand.up));
    let hold_n = over.hold_n();
    hold_n.is_finite().then(|| {
        (hold_n > 0.0).then_some(Turn {
            push,
            over: over.toward,
            moment_n_mm: over.moment_n_mm,
            hold_n,
        })
    })
}

/// How a load slides the part along its support, where it does.
fn slide(stand: &Stand, load: Load, push: Option<usize>) -> Option<Stop> {
    let side = along(load.force_n, stand.up, -dot(load.force_n, stand.up));
    // What is less than a billionth of a newton comes of rounding.
    vector::unit(side).map(|toward| Stop {
        push,
        toward,
        force_n: dot(side, toward),
    })
}

/// The one that asks for more force, the earlier of equals.
fn worse(one: Option<Turn>, other: Option<Turn>) -> Option<Turn> {
    match (one, other) {
        (Some(a), Some(b)) if b.hold_n > a.hold_n => Some(b),
        _ => one.or(other),
    }
}

/// The greater force, the earlier of equals.
fn more(one: Option<Stop>, other: Option<Stop>) -> Option<Stop> {
    match (one, other) {
        (Some(a), Some(b)) if b.force_n > a.force_n => Some(b),
        _ => one.or(other),
    }
}
