//! Which text belongs to which hole: by a dimension, a leader, its mark in a chart, or nearness.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::chart::Chart;
use super::choose::Chosen;
use super::dimension;
use super::drawing::Drawing;
use super::drawn::{Drawn, Placed, Round};
use super::entity::{Dimension, Leader};
use super::error::DxfError;
use super::near::{Near, Spot};
use super::notes::{Note, named, numbers, speaks_of_hole, speaks_of_holes};
use super::pieces::Pieces;
use crate::seen::{ChartLine, Guessed};

/// The texts of holes.
pub(super) struct Ties {
    /// Each hole's text, and whether it is tied to it by more than nearness.
    pub(super) texts: Vec<Option<(String, bool)>>,
    /// Callouts that belong to no hole.
    pub(super) loose: Vec<String>,
    /// What of the texts of holes is guessed by their counts: the hole's number, and what.
    pub(super) guessed: Vec<(usize, Guessed)>,
    /// The lines of charts that holes have their texts of, by the holes' numbers.
    pub(super) lines: BTreeMap<usize, Arc<ChartLine>>,
    /// Lines of charts whose marks stand at no hole, each as one text; with heads where it has some.
    pub(super) unmarked: Vec<(String, Option<Arc<ChartLine>>)>,
    /// Which text of the drawing that of a hole is, by the holes' numbers.
    pub(super) of_note: BTreeMap<usize, usize>,
}

/// Ties texts to holes.
pub(super) fn tie<'e>(
    drawing: &Drawing<'_>,
    drawn: &Drawn<'e, 'e>,
    notes: &[Note<'e>],
    rounds: &[Round<'_>],
    holes: &[Chosen],
    still_wanted: &dyn Fn() -> Result<(), DxfError>,
) -> Result<Ties, DxfError> {
    let mut spots: Vec<Spot> = Vec::new();
    let mut hole_of = Vec::new();
    for (number, hole) in holes.iter().enumerate() {
        let round = &rounds[hole.hole];
        let [x, y, _] = round.center;
        if round.normal[2].abs() > LOOKED_AT {
            spots.extend(hole.about.iter().map(|radius| ([x, y], *radius)));
            hole_of.resize(spots.len(), number);
        }
    }
    let on_sheet = drawn.on_sheet.iter().copied();
    let on_sheet = on_sheet.filter(|says| speaks_of_hole(says));
    let ends: Vec<Spot> = notes
        .iter()
        .map(|note| (note.middle, note.reach() + AT_END * note.height))
        .collect();
    let chart = Chart::of(notes);
    let pieces = Pieces::of(notes, &chart.cells);
    let mut tying = Tying {
        near_notes: Near::new(&ends),
        near: Near::new(&spots),
        spots,
        hole_of,
        notes,
        chart,
        // A piece is used by what it is a piece of.
        used: (0..notes.len()).map(|at| pieces.of[at] != at).collect(),
        pieces,
        ties: Ties {
            texts: vec![None; holes.len()],
            loose: on_sheet.map(ToOwned::to_owned).collect(),
            guessed: Vec::new(),
            lines: BTreeMap::new(),
            unmarked: Vec::new(),
            of_note: BTreeMap::new(),
        },
        sources: 0,
        marked: BTreeSet::new(),
    };
    for dimension in &drawn.dimensions {
        tying.dimension(dimension, drawing);
    }
    let by_handle: BTreeMap<_, usize> = notes
        .iter()
        .enumerate()
        .map(|(at, note)| ((note.from.within, note.from.handle), at))
        .collect();
    for leader in &drawn.leaders {
        tying.leader(leader, &by_handle);
    }
    still_wanted()?;
    tying.beside(still_wanted)?;
    tying.marks();
    tying.unmarked();
    still_wanted()?;
    Ok(tying.ties)
}

/// Circles that lean more are not seen as circles.
const LOOKED_AT: f64 = 0.99;

/// Whether it is still wanted is asked once for so many texts.
const ASKED: usize = 1024;

struct Tying<'n, 'e> {
    spots: Vec<Spot>,
    hole_of: Vec<usize>,
    near: Near,
    near_notes: Near,
    notes: &'n [Note<'e>],
    chart: Chart,
    pieces: Pieces<'e>,
    /// Which notes belong to somebody already.
    used: Vec<bool>,
    ties: Ties,
    /// How many texts there were so far that are no notes.
    sources: usize,
    /// Marks of charts that stand at holes.
    marked: BTreeSet<String>,
}

impl<'e> Tying<'_, 'e> {
    /// A dimension of a diameter, or across a circle from side to side.
    fn dimension(&mut self, dimension: &Placed<'e, 'e, Dimension<'e>>, drawing: &Drawing<'_>) {
        let what = dimension.what;
        let [mut a, b] = what.ends.map(|end| dimension.place.point(end));
        if what.of_radius {
            a = [0, 1, 2].map(|at| 2.0 * a[at] - b[at]);
        }
        let across = libm::hypot(b[0] - a[0], b[1] - a[1]);
        let middle = [a[0].midpoint(b[0]), a[1].midpoint(b[1])];
        let mut of: Option<(f64, usize)> = None;
        self.near.visit(middle, MEETS * across, false, |at| {
            let (center, radius) = self.spots[at];
            let apart = libm::hypot(center[0] - middle[0], center[1] - middle[1]);
            let off = (2.0 * radius - across).abs();
            if off <= MEETS * across && of.is_none_or(|(least, _)| apart + off < least) {
                of = Some((apart + off, self.hole_of[at]));
            }
            false
        });
        if let Some((_, hole)) = of {
            let block = drawing.blocks.get(&what.block.to_ascii_uppercase());
            let says = dimension::says(what, block, across);
            if !what.of_radius {
                self.sources += 1;
                self.tie(hole, &says, self.notes.len() + self.sources);
            } else if says.contains(char::is_whitespace) {
                // Its limits are those of the radius: nothing of it is taken, what it says more is told.
                self.ties.loose.push(says);
            }
        }
    }

    /// A leader: its arrow points at a circle.
    fn leader(
        &mut self,
        leader: &Placed<'e, 'e, Leader<'e>>,
        by_handle: &BTreeMap<(Option<u32>, &[u8]), usize>,
    ) {
        let what = leader.what;
        let end = leader.place.point(what.end);
        let note = match &what.says {
            Some(_) => None,
            None if what.text.is_empty() => self.note_at([end[0], end[1]]),
            None => by_handle
                .get(&(leader.from.within, what.text))
                .copied()
                .or_else(|| self.note_at([end[0], end[1]])),
        };
        let note = note.map(|note| self.pieces.of[note]);
        let says = match (&what.says, note) {
            (Some(says), _) => says.as_str(),
            (None, Some(note)) => self.pieces.says[note].as_ref(),
            (None, None) => return,
        };
        let mark = says.to_owned();
        let says = match self.chart.lines.get(says) {
            Some(line) => line.clone(),
            None if speaks_of_hole(says) || says.chars().count() > LONGEST_ITEM => says.to_owned(),
            None => return,
        };
        let mut pointed = false;
        self.sources += 1;
        let source = note.unwrap_or(self.notes.len() + self.sources);
        for tip in &what.tips {
            let tip = leader.place.point(*tip);
            let long = libm::hypot(end[0] - tip[0], end[1] - tip[1]);
            if let Some(hole) = self.pointed_at([tip[0], tip[1]], ARROW * long) {
                self.tie(hole, &says, source);
                self.headed(hole, &mark);
                pointed = true;
            }
        }
        if let Some(note) = note {
            self.used[note] |= pointed;
        } else if !pointed && speaks_of_hole(&says) {
            self.ties.loose.push(says);
        }
    }

    /// The hole whose rim is nearest to an arrow, or that it stands in.
    fn pointed_at(&self, tip: [f64; 2], slack: f64) -> Option<usize> {
        let mut best: Option<(f64, usize)> = None;
        self.near.visit(tip, slack, true, |at| {
            let (center, radius) = self.spots[at];
            let off = libm::hypot(center[0] - tip[0], center[1] - tip[1]) - radius;
            if off <= radius && best.is_none_or(|(least, _)| off.abs() < least) {
                best = Some((off.abs(), self.hole_of[at]));
            }
            false
        });
        best.map(|(_, hole)| hole)
    }

    /// The text at the end of a leader.
    fn note_at(&self, end: [f64; 2]) -> Option<usize> {
        let mut best: Option<(f64, usize)> = None;
        self.near_notes.visit(end, 0.0, true, |at| {
            let note = &self.notes[at];
            let apart = note.distance(end);
            if apart <= AT_END * note.height && best.is_none_or(|(least, _)| apart < least) {
                best = Some((apart, at));
            }
            false
        });
        best.map(|(_, at)| at)
    }

    fn tie(&mut self, hole: usize, says: &str, source: usize) {
        self.ties.of_note.insert(hole, source);
        let text = &mut self.ties.texts[hole];
        *text = match text.take() {
            Some((before, _)) if before == says => Some((before, true)),
            // A diameter dimensioned, and words at the end of a leader: both are its own.
            Some((before, _)) if before.len() < LONGEST => {
                Some((format!("{before}, {says}"), true))
            }
            Some(before) => Some(before),
            None => Some((says.to_owned(), true)),
        };
    }

    /// Callouts that stand beside a hole: each goes to the nearest one that it can speak of, and each hole
    /// takes the nearest.
    fn beside(&mut self, still_wanted: &dyn Fn() -> Result<(), DxfError>) -> Result<(), DxfError> {
        let mut claims: BTreeMap<usize, (Rank, usize)> = BTreeMap::new();
        let mut left: Vec<usize> = Vec::new();
        for (at, note) in self.notes.iter().enumerate() {
            if at.is_multiple_of(ASKED) {
                still_wanted()?;
            }
            let says = self.pieces.says[at].as_ref();
            if self.used[at] || self.chart.cells[at] {
                continue;
            }
            if !speaks_of_hole(says) {
                left.extend(speaks_of_holes(says).then_some(at));
                continue;
            }
            let Some((rank, hole)) = self.nearest(note, says, BESIDE) else {
                left.push(at);
                continue;
            };
            let lost = match claims.get(&hole) {
                Some((before, other)) if rank.is_before(before) => {
                    let other = *other;
                    claims.insert(hole, (rank, at));
                    Some(other)
                }
                Some(_) => Some(at),
                None => {
                    claims.insert(hole, (rank, at));
                    None
                }
            };
            left.extend(lost);
        }
        for (hole, (_, at)) in claims {
            self.ties.texts[hole] = Some((self.pieces.says[at].to_string(), false));
            self.ties.of_note.insert(hole, at);
        }
        left.sort_unstable();
        let says = left.iter().map(|at| self.pieces.says[*at].to_string());
        self.ties.loose.extend(says);
        Ok(())
    }

    /// Marks of a chart that stand beside a hole without a callout.
    fn marks(&mut self) {
        for (at, note) in self.notes.iter().enumerate() {
            if self.used[at] || self.chart.cells[at] {
                continue;
            }
            if let Some(line) = self.chart.lines.get(note.says)
                && let Some((_, hole)) = self.nearest(note, note.says, MARK)
            {
                self.ties.texts[hole] = Some((line.clone(), false));
                self.headed(hole, note.says);
            }
        }
    }

    /// Keeps what charts say of marks that stand at no hole.
    fn unmarked(&mut self) {
        let lines = self.chart.lines.iter();
        for (mark, line) in lines.filter(|(mark, _)| !self.marked.contains(*mark)) {
            let headed = self.chart.headed.get(mark).cloned();
            self.ties.unmarked.push((line.clone(), headed));
        }
        self.ties.loose.append(&mut self.chart.doubled);
    }

    /// Keeps the line of a chart with heads that a hole's mark stands in.
    fn headed(&mut self, hole: usize, mark: &str) {
        self.marked.insert(mark.to_owned());
        if let Some(line) = self.chart.headed.get(mark) {
            self.ties.lines.insert(hole, Arc::clone(line));
        }
    }

    /// The nearest hole without a text within so many letter heights: one whose diameter the text names before
    /// all others.
    fn nearest(&self, note: &Note<'_>, says: &str, heights: f64) -> Option<(Rank, usize)> {
        let most = heights * note.height;
        let numbers = numbers(says);
        let mut best: Option<(Rank, usize)> = None;
        self.near
            .visit(note.middle, most + note.reach(), true, |at| {
                let (center, radius) = self.spots[at];
                let hole = self.hole_of[at];
                let apart = (note.distance(center) - radius).max(0.0);
                if apart <= most && self.ties.texts[hole].is_none() {
                    let rank = Rank {
                        unnamed: !named(&numbers, 2.0 * radius),
                        apart,
                    };
                    if best
                        .as_ref()
                        .is_none_or(|(before, _)| rank.is_before(before))
                    {
                        best = Some((rank, hole));
                    }
                }
                false
            });
        best
    }
}

/// How near a hole is to a text.
struct Rank {
    /// True where the text doesn't name its diameter.
    unnamed: bool,
    /// From its rim to the text.
    apart: f64,
}

impl Rank {
    fn is_before(&self, other: &Self) -> bool {
        (self.unnamed, self.apart) < (other.unnamed, other.apart)
    }
}

/// How near a dimension's ends have to be to a circle's, in parts of its diameter.
const MEETS: f64 = 0.01;

/// How far an arrow may end before its circle, in parts of its leader.
const ARROW: f64 = 0.1;

/// How far a text may be from its leader's end, in letter heights.
const AT_END: f64 = 2.0;

/// How far a callout or a mark may stand from its hole, in letter heights; common practice, no source.
const BESIDE: f64 = 6.0;
const MARK: f64 = 4.0;

/// Item numbers have so many signs at most; longer ones at the end of a leader are words.
const LONGEST_ITEM: usize = 3;

/// A hole's text grows no longer, in bytes.
const LONGEST: usize = 400;
