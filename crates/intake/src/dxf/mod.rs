//! Drawings in DXF, text or binary, R12 to 2018: their holes, and what is said of them.
//!
//! Group codes are read here and not by a library: the one for Rust takes a hundred times the file in memory,
//! panics on dates that are none, reads the clock, and knows no leaders with text.

mod chart;
mod choose;
mod close;
mod cluster;
mod code_page;
mod counts;
mod dimension;
mod drawing;
mod drawn;
mod entities;
mod entity;
mod error;
mod fields;
mod headed;
mod lay;
mod line_type;
mod near;
mod notes;
mod outline;
mod pieces;
mod place;
mod place_blocks;
mod rings;
mod round;
mod sheet;
mod spline;
mod tags;
mod text_codes;
mod texts;
mod ties;
mod views;

pub use error::{DxfError, Spot};

pub(crate) use notes::{DIAMETER, speaks_of_hole};

use std::collections::BTreeMap;

use choose::{Choice, choose};
use close::{LEVEL, Nearly, close};
use counts::{Like, spread};
use drawing::Drawing;
use drawn::{Drawn, Edge, From, Round};
use near::Near;
use notes::notes;
use outline::{Web, outline};
use place::{Point, length, less, times};
use place_blocks::place_blocks;
use tags::Tags;
use ties::{Ties, tie};
use views::{doubts, unit_note};

use crate::seen::{Grouped, Guessed, Refused, Seen, SeenHole, Why};
use crate::watch::Watch;

/// The share of the work that taking a file apart is.
const APART: f64 = 0.6;

/// Reads a drawing; `watch` hears now and then how far it is.
///
/// # Errors
/// Where the file is no drawing, is not whole, or `watch` says so.
pub fn read(bytes: &[u8], watch: Watch<'_>) -> Result<Seen, DxfError> {
    let cancel = || watch(APART);
    let still_wanted = || {
        if cancel() {
            Err(DxfError::Cancelled)
        } else {
            Ok(())
        }
    };
    let told = |done| watch(APART * done);
    let drawing = Drawing::read(&mut Tags::new(bytes, &told)?)?;
    if drawing.things.entities.is_empty() && drawing.things.others.is_empty() {
        return Err(DxfError::Empty);
    }
    let most = MOST_PLACED + bytes.len() / BYTES_OF_ONE;
    let (mut drawn, mut refused) = place_blocks(&drawing, most, &cancel)?;
    still_wanted()?;
    let hair = hair_of(&drawn);
    let closed = close(std::mem::take(&mut drawn.arcs), hair);
    drawn.arcs = closed.others;
    let mut rounds = std::mem::take(&mut drawn.rounds);
    rounds.extend(closed.rounds);
    let notes = notes(&drawn);
    let choice = choose(&rounds, &closed.nearly, &notes, hair, &still_wanted)?;
    let mut ties = tie(
        &drawing,
        &drawn,
        &notes,
        &rounds,
        &choice.holes,
        &still_wanted,
    )?;
    let held: Vec<&Round<'_>> = choice
        .refused
        .iter()
        .filter(|(_, why)| *why == Why::HoldsHoles)
        .map(|(at, _)| &rounds[*at])
        .collect();
    let centers: Vec<[f64; 2]> = choice
        .holes
        .iter()
        .map(|hole| rounds[hole.hole].center)
        .map(|[x, y, _]| [x, y])
        .collect();
    let [left, low, _] = drawn.reach.least;
    let outlined = outline(&Web {
        edges: &drawn.edges,
        arcs: &drawn.arcs,
        rounds: &held,
        holes: &centers,
        notes: &notes,
        hair,
        corner: [left, low],
    });
    let alike: Vec<Like> = choice
        .holes
        .iter()
        .zip(&outlined.of_hole)
        .map(|(hole, ring)| {
            let round = &rounds[hole.hole];
            Like {
                diameter: 2.0 * round.radius,
                layer: round.look.layer,
                shown: round.look.shown,
                ring: *ring,
            }
        })
        .collect();
    spread(&mut ties, &alike);
    let diameters: Vec<f64> = alike.iter().map(|like| like.diameter).collect();
    let note = unit_note(&notes, drawing.unit_mm);
    // Settings and words that differ: somebody has to say which is right.
    let unit_mm = drawing.unit_mm.filter(|_| note.is_none());
    let hint_mm = note.as_ref().map(|note| note.mm).or(drawing.hint_mm);
    let refuse = |from, why| Refused {
        from: drawn.path(from),
        why,
    };
    for (at, why) in &choice.refused {
        refused.push(refuse(rounds[*at].from, why.clone()));
    }
    for from in open_arcs(&choice, &closed.nearly, &drawn.edges, hair) {
        refused.push(refuse(from, Why::Open));
    }
    let mut seen = Seen {
        unit_mm,
        hint_mm,
        holes: holes(&drawing, &drawn, &rounds, choice, &ties),
        grouped: Grouped::ByLayer,
        extents: extents(&drawn, &outlined.rings),
        doubts: doubts(&outlined, &diameters, &notes),
        outline: outlined.rings,
        refused,
        loose: ties.loose,
        unit_note: note,
    };
    if let Some(unit) = unit_mm {
        seen.scale(unit);
    }
    Ok(seen)
}

/// What blocks may lay down beside what the file has room for: a few bytes can place a block a thousand million
/// times.
const MOST_PLACED: usize = 50_000;

/// A drawing of some size may lay down one thing for so many of its bytes.
const BYTES_OF_ONE: usize = 20;

/// How near points have to be to be one, in parts of the drawing.
const HAIR: f64 = 1e-6;

fn hair_of(drawn: &Drawn<'_, '_>) -> f64 {
    let reach = drawn.reach;
    let size = if reach.is_empty() {
        1.0
    } else {
        length(less(reach.most, reach.least))
    };
    (HAIR * size).clamp(1e-100, 1e100)
}

/// What nearly closes, belongs to no hole, and joins no straight edge.
fn open_arcs<'a>(
    choice: &Choice,
    nearly: &[Nearly<'a>],
    edges: &[Edge],
    hair: f64,
) -> Vec<From<'a>> {
    if choice.open.is_empty() {
        return Vec::new();
    }
    let ends: Vec<near::Spot> = edges
        .iter()
        .flat_map(|edge| edge.ends.map(|end| (end, 0.0)))
        .collect();
    let ends = Near::new(&ends);
    let is_joined = |nearly: &Nearly<'_>| {
        nearly.ends.iter().any(|end| {
            let mut meets = false;
            ends.visit(*end, hair, false, |_| {
                meets = true;
                true
            });
            meets
        })
    };
    let open = choice.open.iter().map(|at| &nearly[*at]);
    open.filter(|nearly| !is_joined(nearly))
        .map(|nearly| nearly.round.from)
        .collect()
}

fn holes(
    drawing: &Drawing<'_>,
    drawn: &Drawn<'_, '_>,
    rounds: &[Round<'_>],
    choice: Choice,
    ties: &Ties,
) -> Vec<SeenHole> {
    let mut counted: BTreeMap<usize, Vec<Guessed>> = BTreeMap::new();
    for (number, guess) in &ties.guessed {
        counted.entry(*number).or_default().push(guess.clone());
    }
    let holes = choice.holes.into_iter().enumerate().map(|(number, hole)| {
        let round = &rounds[hole.hole];
        let twice = hole.twice.iter().map(|at| &rounds[*at]);
        let from = std::iter::once(round).chain(twice);
        let from =
            from.flat_map(|round| std::iter::once(round.from).chain(round.also.iter().copied()));
        let mut guessed = hole.guessed;
        let text = ties.texts.get(number).and_then(Option::as_ref);
        if text.is_some_and(|(_, tied)| !tied) {
            guessed.push(Guessed::TextBeside);
        }
        guessed.extend(counted.remove(&number).unwrap_or_default());
        let layer = drawing.tables.layers.get(round.look.layer as usize);
        SeenHole {
            diameter: 2.0 * round.radius,
            entry: round.center,
            axis: into(round.normal),
            depth: None,
            end: None,
            begins: None,
            leaves: None,
            behind: None,
            recess: None,
            text: text.map(|(text, _)| text.clone()),
            line: ties.lines.get(&number).cloned(),
            group: layer.map(|layer| layer.name.clone()).unwrap_or_default(),
            from: from.map(|from| drawn.path(from)).collect(),
            guessed,
        }
    });
    holes.collect()
}

/// From the side that a drawing is looked at, into the material.
fn into(normal: Point) -> Point {
    let axis = if normal[2] < -LEVEL {
        normal
    } else {
        times(normal, -1.0)
    };
    // No zero has a sign.
    axis.map(|along| along + 0.0)
}

fn extents(drawn: &Drawn<'_, '_>, rings: &[Vec<[f64; 2]>]) -> Option<[[f64; 3]; 2]> {
    let mut reach = drawn.reach;
    if reach.is_empty() {
        return None;
    }
    if let Some(outer) = rings.first() {
        let (low, high) = (reach.least[2], reach.most[2]);
        reach = drawn::Reach::default();
        for [x, y] in outer {
            reach.take([*x, *y, low], [0.0; 3]);
        }
        reach.most[2] = high;
    }
    Some([reach.least, reach.most])
}
