//! Callouts that are drawn in pieces: `8 DEEP` below `3x ⌀0.7`, or `2x`, `⌀1.0` and `THRU` in one line.

use std::borrow::Cow;

use quillbore_job::{Unit, read_quantity as read};

use super::near::{Near, Spot};
use super::notes::{Note, speaks_of_hole};
use crate::callout::split;

/// The texts of a drawing with their pieces put together.
pub(super) struct Pieces<'e> {
    /// What each text says, with its pieces where it is the one that speaks of a hole.
    pub(super) says: Vec<Cow<'e, str>>,
    /// The text that each is a piece of: itself, as a rule.
    pub(super) of: Vec<usize>,
}

/// How far pieces of one line may be apart, and how far below the next line stands, from and to, in letter
/// heights; common practice, no source.
const GAP: [f64; 2] = [-0.5, 1.6];
const BELOW: [f64; 2] = [1.1, 2.4];

/// How much pieces may differ in height, and stand off their line or their left end, in letter heights.
const HEIGHT: f64 = 0.15;
const OFF: f64 = 0.4;

/// A callout has so many pieces beside its size at most.
const MOST: usize = 4;

/// Where a piece stands of what was put together so far.
#[derive(Clone, Copy)]
enum Side {
    Behind,
    Before,
    Below,
}

impl<'e> Pieces<'e> {
    /// Puts pieces together; `kept` are the texts that stand in a chart.
    pub(super) fn of(notes: &[Note<'e>], kept: &[bool]) -> Self {
        let mut pieces = Self {
            says: notes.iter().map(|note| Cow::Borrowed(note.says)).collect(),
            of: (0..notes.len()).collect(),
        };
        let loose = Loose::of(notes, kept);
        if loose.notes.is_empty() {
            return pieces;
        }
        for (at, note) in notes.iter().enumerate() {
            if !kept[at] && speaks_of_hole(note.says) {
                pieces.put_together(at, notes, &loose);
            }
        }
        pieces
    }

    fn put_together(&mut self, at: usize, notes: &[Note<'e>], loose: &Loose) {
        // The texts at both ends of the first line, and the last line so far.
        let (mut first, mut last, mut lowest) = (at, at, at);
        for _ in 0..MOST {
            let found = [Side::Behind, Side::Before, Side::Below]
                .into_iter()
                .find_map(|side| {
                    let from = match side {
                        Side::Behind => last,
                        Side::Before => first,
                        Side::Below => lowest,
                    };
                    let piece = self.piece(from, side, notes, loose)?;
                    let words = notes[piece].says;
                    let joined = match side {
                        Side::Before => format!("{words} {}", self.says[at]),
                        Side::Behind | Side::Below => format!("{} {words}", self.says[at]),
                    };
                    is_callout(&joined).then_some((side, piece, joined))
                });
            let Some((side, piece, joined)) = found else {
                return;
            };
            match side {
                Side::Behind => last = piece,
                Side::Before => first = piece,
                Side::Below => (lowest, last) = (piece, piece),
            }
            self.says[at] = Cow::Owned(joined);
            self.of[piece] = at;
        }
    }

    /// The text that stands on a side of another one, and may be a piece of it.
    fn piece(&self, from: usize, side: Side, notes: &[Note<'e>], loose: &Loose) -> Option<usize> {
        let note = &notes[from];
        let height = note.height;
        let within =
            |by: f64, [least, most]: [f64; 2]| (least * height..=most * height).contains(&by);
        let fits = |at: usize| {
            let other = &notes[at];
            let (left, level) = (
                other.line().0 - note.line().0,
                note.line().1 - other.line().1,
            );
            let is_there = match side {
                Side::Behind => {
                    within(other.line().0 - note.ends(), GAP) && level.abs() <= OFF * height
                }
                Side::Before => {
                    within(note.line().0 - other.ends(), GAP) && level.abs() <= OFF * height
                }
                Side::Below => within(level, BELOW) && left.abs() <= OFF * height,
            };
            let is_free = at != from && self.of[at] == at;
            is_there
                && is_free
                && note.runs_as(other)
                && (other.height - height).abs() <= HEIGHT * height
        };
        let mut found = None;
        let distance = note.reach() + BELOW[1] * height;
        loose.near.visit(note.middle, distance, true, |number| {
            let at = loose.notes[number];
            if fits(at) {
                found = Some(at);
            }
            found.is_some()
        });
        found
    }
}

/// The texts that may be pieces.
struct Loose {
    notes: Vec<usize>,
    /// Finds them by their boxes.
    near: Near,
}

impl Loose {
    fn of(notes: &[Note<'_>], kept: &[bool]) -> Self {
        let may_be = |at: &usize| !kept[*at] && is_piece(notes[*at].says);
        let loose: Vec<usize> = (0..notes.len()).filter(may_be).collect();
        let boxes = loose
            .iter()
            .map(|at| (notes[*at].middle, notes[*at].reach()));
        let boxes: Vec<Spot> = boxes.collect();
        Self {
            notes: loose,
            near: Near::new(&boxes),
        }
    }
}

/// Pieces have words or signs, and are no callouts of their own.
fn is_piece(says: &str) -> bool {
    says.chars()
        .any(|sign| sign.is_alphabetic() || "\u{21a7}\u{b1}+\u{d7}".contains(sign))
        && says.len() <= LONGEST
        && !speaks_of_hole(says)
}

/// The longest piece, in bytes.
const LONGEST: usize = 60;

/// True where a text is read as a callout or as a size.
fn is_callout(says: &str) -> bool {
    let units = [Unit::Mm, Unit::Inch];
    units
        .iter()
        .any(|unit| split(says, *unit).is_some() || read::size(says, *unit).is_ok())
}
