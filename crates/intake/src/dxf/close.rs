//! Arcs of one circle: those that close to it, those that nearly do, and the others.

use super::cluster::Clusters;
use super::drawn::{Arc, As, Round};
use super::place::{Place, Point, dot, times};

/// What arcs come to.
pub(super) struct Closed<'a> {
    /// Circles that arcs close to.
    pub(super) rounds: Vec<Round<'a>>,
    /// Three quarters of a turn and more that don't close: threads, or circles with a gap.
    pub(super) nearly: Vec<Nearly<'a>>,
    /// All other arcs, and those that nearly close.
    pub(super) others: Vec<Arc<'a>>,
}

/// Most of a circle.
pub(super) struct Nearly<'a> {
    pub(super) round: Round<'a>,
    /// Where its arcs begin and end, seen along z.
    pub(super) ends: Vec<[f64; 2]>,
}

/// Puts arcs about one center together; `hair` is how near centers have to be.
pub(super) fn close<'a>(arcs: Vec<Arc<'a>>, hair: f64) -> Closed<'a> {
    let keys: Vec<([f64; 7], f64)> = arcs
        .iter()
        .map(|arc| {
            let [x, y, z] = arc.center;
            // Normals are compared by what their difference moves a point of the arc.
            let [i, j, k] = times(upward(arc.normal), arc.radius);
            let hair = hair.min(HAIR_OF_RADIUS * arc.radius);
            ([arc.radius, x, y, z, i, j, k], hair)
        })
        .collect();
    let mut closed = Closed {
        rounds: Vec::new(),
        nearly: Vec::new(),
        others: Vec::new(),
    };
    let mut arcs: Vec<Option<Arc<'a>>> = arcs.into_iter().map(Some).collect();
    for group in Clusters::new(&keys).groups() {
        let taken: Vec<Arc<'a>> = group.iter().filter_map(|at| arcs[*at].take()).collect();
        let (covered, gap) = coverage(&taken);
        let alone = taken.iter().all(|arc| arc.alone);
        let whole = gap <= GAP && taken.len() > 1;
        let Some(round) = round_of(&taken).filter(|_| alone && (whole || covered >= NEARLY)) else {
            closed.others.extend(taken);
            continue;
        };
        if whole {
            closed.rounds.push(round);
        } else {
            closed.nearly.push(Nearly {
                round,
                ends: taken.iter().flat_map(Arc::ends).collect(),
            });
            closed.others.extend(taken);
        }
    }
    closed
}

/// How near centers have to be, in parts of the radius.
const HAIR_OF_RADIUS: f64 = 0.01;

/// What may be missing between two arcs that close, in radians.
const GAP: f64 = 1e-3;

/// A thread is drawn as three quarters of a turn, give or take a little (ISO 6410-1, from memory).
const NEARLY: f64 = 265.0 / 360.0 * std::f64::consts::TAU;

/// A normal turned to the upper side; drawings are seen from above.
pub(super) fn upward(normal: Point) -> Point {
    let [x, y, z] = normal;
    let is_down = if z.abs() > LEVEL {
        z < 0.0
    } else if y.abs() > LEVEL {
        y < 0.0
    } else {
        x < 0.0
    };
    if is_down { times(normal, -1.0) } else { normal }
}

/// A normal that rises less is level.
pub(super) const LEVEL: f64 = 1e-9;

/// How much of the turn arcs about one center cover, and the widest gap between them.
fn coverage(arcs: &[Arc<'_>]) -> (f64, f64) {
    const TURN: f64 = std::f64::consts::TAU;
    let Some(plane) = arcs
        .first()
        .and_then(|arc| Place::of_normal(upward(arc.normal)))
    else {
        return (0.0, TURN);
    };
    let axes = [plane.vector([1.0, 0.0, 0.0]), plane.vector([0.0, 1.0, 0.0])];
    let mut spans: Vec<(f64, f64)> = arcs
        .iter()
        .map(|arc| {
            let begins = libm::atan2(dot(arc.begins, axes[1]), dot(arc.begins, axes[0]));
            let start = if arc.normal == upward(arc.normal) {
                begins
            } else {
                begins - arc.turn
            };
            (start.rem_euclid(TURN), arc.turn)
        })
        .collect();
    spans.sort_by(|a, b| a.0.total_cmp(&b.0));
    let Some(first) = spans.first().map(|span| span.0) else {
        return (0.0, TURN);
    };
    let (mut covered, mut widest, mut reached) = (0.0, 0.0, first);
    for (start, turn) in &spans {
        let gap = start - reached;
        widest = f64::max(widest, gap);
        covered += (start + turn - f64::max(reached, *start)).max(0.0);
        reached = reached.max(start + turn);
    }
    // An arc that runs past the beginning covers nothing anew there.
    widest = widest.max(first + TURN - reached);
    (covered.min(TURN), widest)
}

fn round_of<'a>(arcs: &[Arc<'a>]) -> Option<Round<'a>> {
    let (first, others) = arcs.split_first()?;
    let mut look = first.look;
    look.shown = arcs.iter().any(|arc| arc.look.shown);
    Some(Round {
        center: first.center,
        radius: first.radius,
        normal: first.normal,
        look,
        drawn: As::Closed,
        from: first.from,
        order: first.order,
        also: others.iter().map(|arc| arc.from).collect(),
    })
}
