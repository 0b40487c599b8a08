//! The holes of a body.

use std::collections::BTreeSet;

use super::bends::bends;
use super::body::Body;
use super::ends::{Bore, End};
use super::rings::{Ring, Rings, rings};
use super::surface::Surface;
use super::vector::{V, add, along, cross, dot, times};
use super::wall::{Wall, Way};
use super::walls::Walls;
use crate::seen::{Guessed, Refused, SeenDepth, SeenEnd, SeenHole, Why};

/// What was found in a body.
#[derive(Debug, Default)]
pub(super) struct Found {
    /// Its holes.
    pub(super) holes: Vec<SeenHole>,
    /// What looks like a hole and is none.
    pub(super) refused: Vec<Refused>,
    /// The faces of holes, and of what they begin and end in.
    pub(super) faces: BTreeSet<usize>,
}

/// A piece of a bore with its two ends, and how far one can go on from each of them.
struct Piece {
    ring: Ring,
    ends: [End; 2],
    /// Where a ray from within, out through each end, meets the body.
    met: [Option<f64>; 2],
}

/// The holes of a body; `None` where somebody stopped it.
pub(super) fn holes(body: &Body, cancel: &dyn Fn() -> bool) -> Option<Found> {
    let mut found = Found::default();
    let walls = Walls::of(body);
    for wall in &walls.bores {
        if cancel() {
            return None;
        }
        let bore = Bore {
            body,
            axis: wall.axis,
            radius: wall.radius,
            within: 1e-4 * wall.radius,
        };
        let unrolled = Wall::new(body, wall.axis, &wall.faces, Way::Along);
        let Rings { rings, open } = rings(&unrolled);
        if open {
            found.refuse(body, &wall.faces, Why::Open);
        }
        let pieces = rings.into_iter().map(|ring| bore.piece(ring)).collect();
        for pieces in joined(pieces) {
            found.hole(&bore, &unrolled, &wall.faces, &pieces);
        }
    }
    for cone in walls.tapers {
        let free: Vec<usize> = cone
            .faces
            .iter()
            .copied()
            .filter(|face| !found.faces.contains(face))
            .collect();
        let unrolled = Wall::new(body, cone.axis, &free, Way::Along);
        let Rings { rings, open } = rings(&unrolled);
        if open || !rings.is_empty() {
            found.refuse(body, &free, Why::NotRound);
        }
    }
    for faces in bends(body) {
        found.refuse(body, &faces, Why::Bent);
    }
    for face in walls.odd {
        if !found.faces.contains(&face) {
            found.refuse(body, &[face], Why::NotRound);
        }
    }
    Some(found)
}

/// Pieces behind each other that are one bore: open toward each other, with less room between them than
/// they have wall.
fn joined(pieces: Vec<Piece>) -> Vec<Vec<Piece>> {
    let mut bores: Vec<Vec<Piece>> = Vec::new();
    for piece in pieces {
        let last = bores
            .last_mut()
            .and_then(|bore| bore.last().map(|last| last.goes_on(&piece)));
        match bores.last_mut() {
            Some(bore) if last == Some(true) => bore.push(piece),
            _ => bores.push(vec![piece]),
        }
    }
    bores
}

impl Piece {
    fn length(&self) -> f64 {
        self.ring.mean(1) - self.ring.mean(0)
    }

    fn goes_on(&self, next: &Self) -> bool {
        let room = next.ring.mean(0) - self.ring.mean(1);
        let open = self.ends[1].open && next.ends[0].open;
        let free = self.met[1].is_none_or(|t| t > next.ring.mean(0));
        open && free && room <= self.length() + next.length()
    }
}

impl Bore<'_> {
    fn piece(&self, ring: Ring) -> Piece {
        let ends = [self.end(&ring, 0), self.end(&ring, 1)];
        let middle = 0.5 * (ring.mean(0) + ring.mean(1));
        let from = along(self.axis.p, self.axis.d, middle);
        let met = [-1.0, 1.0].map(|sign| {
            let hit = self.body.first_hit(from, times(self.axis.d, sign), 0.0);
            hit.map(|hit| middle + sign * hit.t)
        });
        Piece { ring, ends, met }
    }
}

impl Found {
    fn refuse(&mut self, body: &Body, faces: &[usize], why: Why) {
        if let Some(first) = faces.first() {
            let from = format!("#{}", body.faces[*first].number);
            self.refused.push(Refused { from, why });
        }
    }

    /// Takes a bore up as a hole.
    fn hole(&mut self, bore: &Bore<'_>, wall: &Wall<'_>, faces: &[usize], pieces: &[Piece]) {
        let [Some(first), Some(last)] = [pieces.first(), pieces.last()] else {
            return;
        };
        let ends = [&first.ends[0], &last.ends[1]];
        let met = [first.met[0], last.met[1]];
        for end in ends {
            self.faces.extend(&end.faces);
        }
        let own = own_faces(pieces);
        self.faces.extend(&own);
        let holds_material = |piece: &Piece| {
            // What it ends in stands at its ends, not in its way.
            let of_ends = piece.ends.iter().flat_map(|end| &end.faces);
            let own = of_ends.chain(faces).copied().collect();
            bore.holds_material(&piece.ring, &own)
        };
        if pieces.iter().any(holds_material) {
            self.refuse(bore.body, faces, Why::AroundMaterial);
            return;
        }
        if ends.iter().all(|end| end.bends) {
            self.refuse(
                bore.body,
                &own.iter().copied().collect::<Vec<_>>(),
                Why::Bent,
            );
            return;
        }
        if !ends.iter().any(|end| end.open) {
            // A ray that goes on past a shoulder tells of a narrower bore on that side.
            let goes_on = |which: usize| {
                let sign = if which == 0 { -1.0 } else { 1.0 };
                met[which].is_none_or(|t| (t - ends[which].t) * sign > bore.within)
            };
            let why = if goes_on(0) || goes_on(1) {
                Why::Groove
            } else {
                Why::Closed
            };
            self.refuse(bore.body, &own.iter().copied().collect::<Vec<_>>(), why);
            return;
        }
        // How far one gets on from an open end; `None` without end.
        let behind = [0, 1].map(|which| {
            let sign = if which == 0 { -1.0 } else { 1.0 };
            met[which].map(|t| ((t - ends[which].t) * sign).max(0.0))
        });
        let shut_in = [0, 1].map(|which| {
            let end = ends[which];
            let sign = if which == 0 { -1.0 } else { 1.0 };
            // A recess is a way out, however narrow: what counts is where it ends.
            let outside = end.t + sign * end.recess.map_or(0.0, |[_, deep]| deep);
            end.in_bore || (end.open && bore.is_shut_in(outside, sign))
        });
        let entry = entry_of(ends, &behind, shut_in, bore.axis.d);
        let exit = 1 - entry;
        let axis = if entry == 0 {
            bore.axis.d
        } else {
            times(bore.axis.d, -1.0)
        };
        let exit_end = ends[exit];
        let off_round = faces
            .iter()
            .filter_map(|face| bore.body.faces[*face].off_round);
        let off_round = off_round.fold(None, |most: Option<f64>, off| {
            Some(most.map_or(off, |most| most.max(off)))
        });
        let broken = ends.iter().any(|end| end.is_broken);
        let broken = broken.then_some(Guessed::BrokenEdge);
        let from = own
            .iter()
            .map(|face| format!("#{}", bore.body.faces[*face].number));
        self.holes.push(SeenHole {
            diameter: 2.0 * bore.radius,
            entry: along(bore.axis.p, bore.axis.d, ends[entry].t),
            axis,
            depth: Some(depth(bore, wall, first, last, ends)),
            end: Some(match (exit_end.open, shut_in[exit]) {
                (false, _) => SeenEnd::Blind,
                (true, true) => SeenEnd::Into,
                (true, false) => SeenEnd::Through,
            }),
            begins: ends[entry].surface,
            leaves: exit_end.surface,
            behind: behind[exit].filter(|_| exit_end.open),
            recess: ends[entry].recess,
            text: None,
            group: String::new(),
            from: from.collect(),
            guessed: off_round
                .map(Guessed::NotQuiteRound)
                .into_iter()
                .chain(broken)
                .collect(),
        });
    }
}

/// Which end is the entry: one that is open, then one that is not shut in, then one that can be reached
/// along the axis, then the one with a recess, then the one further up.
fn entry_of(ends: [&End; 2], behind: &[Option<f64>; 2], shut_in: [bool; 2], d: V) -> usize {
    let rank = |which: usize| {
        let end = ends[which];
        (
            !end.open,
            shut_in[which],
            behind[which].is_some(),
            end.recess.is_none(),
        )
    };
    match rank(0).cmp(&rank(1)) {
        std::cmp::Ordering::Less => 0,
        std::cmp::Ordering::Greater => 1,
        std::cmp::Ordering::Equal => {
            let [x, y, z] = d;
            let tell = |part: f64| part.abs() > 1e-6;
            let down = if tell(z) {
                z < 0.0
            } else if tell(y) {
                y < 0.0
            } else {
                x < 0.0
            };
            usize::from(!down)
        }
    }
}

/// How deep a bore is.
fn depth(
    bore: &Bore<'_>,
    wall: &Wall<'_>,
    first: &Piece,
    last: &Piece,
    ends: [&End; 2],
) -> SeenDepth {
    let begin = first.ring.range(0);
    let end = last.ring.range(1);
    let angle = |at: usize| first.ring.lines[at].0;
    // How long a line is, up to the surfaces around broken edges.
    let whole = |angle: f64, from: f64, to: f64| {
        bore.past_break(&ends[1].around, angle, to, 1.0)
            - bore.past_break(&ends[0].around, angle, from, -1.0)
    };
    let count = first.ring.lines.len().min(last.ring.lines.len());
    let lengths: Vec<f64> = (0..count)
        .map(|at| {
            let (from, to) = (first.ring.lines[at].1[0].t, last.ring.lines[at].1[1].t);
            whole(angle(at), from, to)
        })
        .collect();
    let length = |at: usize| lengths.get(at).copied().unwrap_or_default();
    // The line at any angle, between the two ends as they are at the lines known.
    let slack = 0.1 * (begin[1] - begin[0]).max(end[1] - end[0]) + 1e-9;
    let anywhere = |angle: f64| {
        let crossings = wall.crossings(angle);
        let from = crossings
            .iter()
            .find(|crossing| crossing.t >= begin[0] - slack)?;
        let to = crossings
            .iter()
            .rev()
            .find(|crossing| crossing.t <= end[1] + slack)?;
        Some(whole(angle, from.t, to.t)).filter(|length| *length > 0.0)
    };
    let most = (0..count)
        .max_by(|a, b| length(*a).total_cmp(&length(*b)))
        .unwrap_or(0);
    let least = (0..count)
        .min_by(|a, b| length(*a).total_cmp(&length(*b)))
        .unwrap_or(0);
    let wavy = length(most) - length(least) > 1e-9 * length(most).abs();
    let best = |at: usize, sign: f64| {
        if !wavy {
            return length(at);
        }
        let before = angle((at + count - 1) % count);
        let after = angle((at + 1) % count);
        let aside = |other: f64| super::wall::turned(other - angle(at));
        let around = [angle(at) + aside(before), angle(at) + aside(after)];
        let found = furthest(around, |angle| {
            anywhere(angle).map_or(f64::MIN, |length| sign * length)
        });
        sign * found.max(sign * length(at))
    };
    SeenDepth {
        least: best(least, -1.0),
        on_axis: ends[1].t - ends[0].t,
        most: best(most, 1.0),
    }
}

/// The most that something is between two angles, by golden sections.
fn furthest([mut low, mut high]: [f64; 2], of: impl Fn(f64) -> f64) -> f64 {
    let share = 0.381_966_011_250_105_1;
    let mut best = f64::MIN;
    let (mut a, mut b) = (low + share * (high - low), high - share * (high - low));
    let (mut at_a, mut at_b) = (of(a), of(b));
    for _ in 0..28 {
        best = best.max(at_a).max(at_b);
        if at_a > at_b {
            (high, b, at_b) = (b, a, at_a);
            a = low + share * (high - low);
            at_a = of(a);
        } else {
            (low, a, at_a) = (a, b, at_b);
            b = high - share * (high - low);
            at_b = of(b);
        }
    }
    best
}

/// The faces of a bore's own wall.
fn own_faces(pieces: &[Piece]) -> BTreeSet<usize> {
    let lines = pieces.iter().flat_map(|piece| &piece.ring.lines);
    lines
        .flat_map(|(_, ends)| ends.iter().map(|crossing| crossing.face))
        .collect()
}

/// True where a round face's surface points toward its axis from the material.
pub(super) fn is_hollow(body: &Body, face: usize) -> bool {
    let face = &body.faces[face];
    let round = matches!(
        face.surface,
        Surface::Cylinder { .. } | Surface::Cone { .. }
    );
    round && face.sense * face.outward < 0.0
}

/// The point of a line nearest to another point.
pub(super) fn foot(p: V, d: V, q: V) -> V {
    let from = super::vector::sub(q, p);
    add(p, times(d, dot(from, d)))
}

/// True where two directions are the same, or against each other.
pub(super) fn is_parallel(a: V, b: V) -> bool {
    super::vector::length(cross(a, b)) < 1e-6
}
