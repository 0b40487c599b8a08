//! Letters joined to lines: those that follow each other, then what stands on one base line.

use std::collections::BTreeMap;

use super::limits::join_limits;
use super::line::{ABOVE, BELOW, Line, Marks};
use super::stacked_limits::join_stacked;

/// A letter on the page; y goes down.
pub(super) struct Letter<'t> {
    pub(super) text: &'t str,
    /// Where it stands on its base line.
    pub(super) at: [f64; 2],
    /// Unit vector along its line.
    pub(super) along: [f64; 2],
    /// Its size, square to its line.
    pub(super) size: f64,
    /// How far it goes along its line.
    pub(super) wide: f64,
    /// Where the next one stands.
    pub(super) step: f64,
    pub(super) marks: Marks,
}

/// Letters of a page on their way into lines.
pub(super) struct Letters {
    /// By their directions, in tenths of a degree.
    pieces: BTreeMap<i32, Vec<Line>>,
    /// The direction of the piece that may go on, where its next letter stands.
    open: Option<(i32, f64)>,
    left: usize,
}

/// Gaps between letters and words, in parts of the letters' size; common practice, no source.
const SPACE: f64 = 0.14;
const WORDS: f64 = 0.8;
const BACK: f64 = -0.35;

/// How far letters of one line stand off its base line, and by what their sizes differ.
const OFF: f64 = 0.08;
const SIZES: f64 = 1.08;

/// The same of words, which may be of several fonts.
const WORDS_OFF: f64 = 0.15;
const WORDS_SIZES: f64 = 1.45;

impl Letters {
    /// At most so many pieces are kept.
    pub(super) const fn new(most: usize) -> Self {
        Self {
            pieces: BTreeMap::new(),
            open: None,
            left: most,
        }
    }

    /// How many pieces may still come.
    pub(super) const fn left(&self) -> usize {
        self.left
    }

    /// Takes a letter; false where there are too many.
    pub(super) fn push(&mut self, letter: &Letter<'_>) -> bool {
        let is_sound = letter
            .at
            .iter()
            .chain(&letter.along)
            .all(|each| each.abs() < 1e7)
            && letter.size > 1e-3
            && letter.size < 1e5
            && letter.wide.abs() < 1e6
            && letter.step.abs() < 1e6;
        if !is_sound || letter.text.trim().is_empty() {
            return true;
        }
        if self.goes_on(letter) {
            return true;
        }
        let Some(left) = self.left.checked_sub(1) else {
            return false;
        };
        self.left = left;
        let turned = turned_deg(letter.along);
        let key = (turned * 10.0).round() as i32 % 3600;
        let group = self.pieces.entry(key).or_default();
        let along = group.first().map_or(letter.along, |first| first.along);
        let [u, v] = seen_along(letter.at, along);
        group.push(Line {
            text: letter.text.to_owned(),
            along,
            from: u.min(u + letter.wide),
            to: u.max(u + letter.wide),
            base: v,
            size: letter.size,
            top: v - ABOVE * letter.size,
            bottom: v + BELOW * letter.size,
            marks: letter.marks,
        });
        self.open = Some((key, u + letter.step));
        true
    }

    /// Whether it belongs to the piece that was begun last.
    fn goes_on(&mut self, letter: &Letter<'_>) -> bool {
        let Some((key, next)) = &mut self.open else {
            return false;
        };
        let Some(piece) = self.pieces.get_mut(key).and_then(|group| group.last_mut()) else {
            return false;
        };
        let [u, v] = seen_along(letter.at, piece.along);
        let same_way = piece.along[0] * letter.along[0] + piece.along[1] * letter.along[1];
        let gap = (u - *next) / piece.size;
        let goes_on = same_way > 1.0 - 1e-5
            && is_like(piece.size, letter.size, SIZES)
            && (v - piece.base).abs() <= OFF * piece.size
            && (BACK..=WORDS).contains(&gap)
            && piece.marks.is_unseen == letter.marks.is_unseen
            && piece.text.len() < LONGEST;
        if goes_on {
            if gap > SPACE {
                piece.text.push(' ');
            }
            piece.text.push_str(letter.text);
            piece.to = piece.to.max(u + letter.wide);
            piece.marks = piece.marks.and(letter.marks);
            *next = u + letter.step;
        }
        goes_on
    }

    /// The lines of the page.
    pub(super) fn lines(self) -> Vec<Line> {
        let mut all = Vec::new();
        for (_, pieces) in self.pieces {
            let mut lines = joined(once(pieces));
            let small = join_limits(&mut lines);
            if join_stacked(&mut lines) || small {
                lines = joined(lines);
            }
            all.extend(lines);
        }
        all
    }
}

/// No line is longer, in bytes.
const LONGEST: usize = 4_000;

/// Where a point lies along a direction, and across it.
fn seen_along([x, y]: [f64; 2], [i, j]: [f64; 2]) -> [f64; 2] {
    [x * i + y * j, y * i - x * j]
}

/// How far a direction is turned counterclockwise as it is seen, y going down.
pub(super) fn turned_deg([x, y]: [f64; 2]) -> f64 {
    let deg = libm::atan2(-y, x).to_degrees();
    let deg = if deg < -1e-9 { deg + 360.0 } else { deg };
    deg.max(0.0)
}

fn is_like(one: f64, other: f64, by: f64) -> bool {
    one <= by * other && other <= by * one
}

/// Pieces that were set twice in one place, as for heavy letters, are one.
fn once(mut pieces: Vec<Line>) -> Vec<Line> {
    let order = |a: &Line, b: &Line| {
        a.text
            .cmp(&b.text)
            .then(a.base.total_cmp(&b.base))
            .then(a.from.total_cmp(&b.from))
    };
    pieces.sort_by(order);
    pieces.dedup_by(|next, kept| {
        let near = |one: f64, other: f64| (one - other).abs() <= TWICE * kept.size;
        next.text == kept.text
            && near(next.from, kept.from)
            && near(next.base, kept.base)
            && is_like(next.size, kept.size, SIZES)
    });
    pieces
}

/// Heavy letters are set again within so much of their size.
const TWICE: f64 = 0.12;

/// Pieces on one base line, one behind the other, are one line.
fn joined(mut pieces: Vec<Line>) -> Vec<Line> {
    pieces.sort_by(|a, b| a.base.total_cmp(&b.base).then(a.from.total_cmp(&b.from)));
    let mut lines = Vec::with_capacity(pieces.len());
    let mut row: Vec<Line> = Vec::new();
    for piece in pieces {
        let is_next = row.last().is_some_and(|last: &Line| {
            piece.base - last.base > WORDS_OFF * last.size.min(piece.size)
        });
        if is_next {
            join_row(&mut row, &mut lines);
        }
        row.push(piece);
    }
    join_row(&mut row, &mut lines);
    lines
}

/// Joins what stands on one base line.
fn join_row(row: &mut Vec<Line>, lines: &mut Vec<Line>) {
    row.sort_by(|a, b| a.from.total_cmp(&b.from).then(a.to.total_cmp(&b.to)));
    let begins = lines.len();
    for piece in row.drain(..) {
        // Of a few lines upon each other the one that ends just before it.
        let open = lines.len().saturating_sub(FEW).max(begins);
        let before = lines.get_mut(open..).unwrap_or_default().iter_mut().rev();
        let fits = |line: &&mut Line| {
            let size = line.size.max(piece.size);
            let gap = (piece.from - line.to) / size;
            is_like(line.size, piece.size, WORDS_SIZES)
                && (line.base - piece.base).abs() <= WORDS_OFF * size
                && (BACK..=WORDS).contains(&gap)
                && line.marks.is_unseen == piece.marks.is_unseen
                && line.text.len() < LONGEST
        };
        match before.into_iter().find(fits) {
            Some(line) => {
                if (piece.from - line.to) / line.size.max(piece.size) > SPACE {
                    line.text.push(' ');
                }
                line.text.push_str(&piece.text);
                line.take(&piece);
                line.size = line.size.max(piece.size);
            }
            None => lines.push(piece),
        }
    }
}

/// So many lines may lie upon each other.
const FEW: usize = 8;
