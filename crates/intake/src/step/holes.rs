//! The holes of a body.

use std::collections::BTreeSet;

use super::bends::bends;
use super::body::Body;
use super::depth::depth;
use super::ends::{Bore, End};
use super::rings::{Ring, Rings, rings};
use super::surface::Surface;
use super::vector::{V, add, along, dot, times};
use super::wall::{Wall, Way};
use super::walls::{Walls, play};
use crate::seen::{Guessed, Refused, SeenEnd, SeenHole, Why};

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
pub(super) struct Piece {
    /// Its wall.
    pub(super) ring: Ring,
    ends: [End; 2],
    /// Where a ray from within, out through each end, meets the body.
    met: [Option<f64>; 2],
}

/// The pieces of a bore that is open at an end.
struct Open {
    pieces: Vec<Piece>,
    /// Free way on from each end; `None` without end.
    behind: [Option<f64>; 2],
    /// Whether each end opens into a room that is shut in.
    shut_in: [bool; 2],
}

/// The holes of a body; `None` where somebody stopped it.
pub(super) fn holes(body: &Body, cancel: &dyn Fn() -> bool) -> Option<Found> {
    let mut found = Found::default();
    let walls = Walls::of(body);
    let mut bores = Vec::new();
    for wall in &walls.bores {
        if cancel() {
            return None;
        }
        let bore = Bore {
            body,
            axis: wall.axis,
            radius: wall.radius,
            within: play(wall.radius),
        };
        let unrolled = Wall::new(body, wall.axis, &wall.faces, Way::Along);
        let Rings { rings, open } = rings(&unrolled);
        if open {
            found.refuse(body, &wall.faces, Why::Open);
        }
        let pieces = rings.into_iter().map(|ring| bore.piece(ring)).collect();
        let joined = joined(pieces).into_iter();
        let open: Vec<Open> = joined
            .filter_map(|pieces| found.open(&bore, &wall.faces, pieces))
            .collect();
        bores.push((bore, unrolled, &wall.faces, open));
    }
    // What opens into a room that is shut in where another hole opens into it does so too.
    let open = bores.iter().flat_map(|(.., open)| open);
    let rooms: BTreeSet<usize> = open.flat_map(Open::rooms).collect();
    for (bore, wall, faces, open) in &mut bores {
        for open in open {
            open.share(&rooms);
            found.hole(bore, wall, faces, open);
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
    let bends = bends(body);
    for faces in &bends {
        found.refuse(body, faces, Why::Bent);
    }
    let bent: BTreeSet<usize> = bends.into_iter().flatten().collect();
    for face in walls.odd {
        if !found.faces.contains(&face) && !bent.contains(&face) {
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

impl Open {
    /// Its two ends.
    fn ends(&self) -> Option<[&End; 2]> {
        Some([&self.pieces.first()?.ends[0], &self.pieces.last()?.ends[1]])
    }

    /// The faces of rooms that are shut in, by its ends.
    fn rooms(&self) -> impl Iterator<Item = usize> {
        let ends = self.ends().into_iter().flatten().zip(self.shut_in);
        let shut_in = ends.filter(|(_, shut_in)| *shut_in);
        shut_in.flat_map(|(end, _)| end.outer.iter().copied())
    }

    /// Takes up which faces belong to rooms that are shut in; an end that is free without end along the
    /// axis is outside whatever its surface.
    fn share(&mut self, rooms: &BTreeSet<usize>) {
        let Some(ends) = self.ends() else { return };
        let shared = ends.map(|end| end.outer.iter().any(|face| rooms.contains(face)));
        let behind = self.behind.iter().zip(shared);
        for (own, (behind, shared)) in self.shut_in.iter_mut().zip(behind) {
            *own |= shared && behind.is_some();
        }
    }
}

impl Bore<'_> {
    fn piece(&self, ring: Ring) -> Piece {
        let ends = [self.end(&ring, 0), self.end(&ring, 1)];
        // Between where the axis meets both ends: the ring's own middle may be in a crown's material.
        let middle = 0.5 * (ends[0].t + ends[1].t);
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

    /// The pieces of a bore, where they are an open one; what is none is refused.
    fn open(&mut self, bore: &Bore<'_>, faces: &[usize], pieces: Vec<Piece>) -> Option<Open> {
        let (first, last) = (pieces.first()?, pieces.last()?);
        let ends = [&first.ends[0], &last.ends[1]];
        let met = [first.met[0], last.met[1]];
        for end in ends {
            self.faces.extend(&end.faces);
        }
        let own = own_faces(&pieces);
        self.faces.extend(&own);
        let own: Vec<usize> = own.into_iter().collect();
        let holds_material = |piece: &Piece| {
            // What it ends in stands at its ends, not in its way.
            let of_ends = piece.ends.iter().flat_map(|end| &end.faces);
            let own = of_ends.chain(faces).copied().collect();
            bore.holds_material(&piece.ring, &own)
        };
        if pieces.iter().any(holds_material) {
            self.refuse(bore.body, faces, Why::AroundMaterial);
            return None;
        }
        if ends.iter().all(|end| end.bends) {
            self.refuse(bore.body, &own, Why::Bent);
            return None;
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
            self.refuse(bore.body, &own, why);
            return None;
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
        Some(Open {
            behind,
            shut_in,
            pieces,
        })
    }

    /// Takes a bore up as a hole.
    fn hole(&mut self, bore: &Bore<'_>, wall: &Wall<'_>, faces: &[usize], open: &Open) {
        let Open {
            pieces,
            behind,
            shut_in,
        } = open;
        let (Some(first), Some(last), Some(ends)) = (pieces.first(), pieces.last(), open.ends())
        else {
            return;
        };
        let entry = entry_of(ends, behind, *shut_in, bore.axis.d);
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
        // What is between the pieces, on the axis.
        let air = pieces.windows(2).filter_map(|pair| {
            let [one, next] = pair else { return None };
            Some(next.ends[0].t - one.ends[1].t).filter(|air| *air > bore.within)
        });
        let air = air.fold(None, |sum: Option<f64>, air| Some(sum.unwrap_or(0.0) + air));
        let gap = pieces
            .iter()
            .map(|piece| piece.ring.gap)
            .fold(0.0, f64::max);
        // Where a narrow hole leads into a wide bore, that is no matter of the bore's.
        let beside = (air.is_none() && gap > bore.radius).then_some(Guessed::OpenBeside(gap));
        let own = own_faces(pieces);
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
            line: None,
            group: String::new(),
            from: from.collect(),
            guessed: off_round
                .map(Guessed::NotQuiteRound)
                .into_iter()
                .chain(broken)
                .chain(air.map(Guessed::PassesAir))
                .chain(beside)
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
