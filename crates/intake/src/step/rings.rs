//! Pieces of a wall that go all around its axis.

use std::collections::BTreeMap;

use super::wall::{Crossing, LINES, Wall};

/// What share of a turn looks like a hole though it doesn't close.
const LOOKS_LIKE_ONE: f64 = 0.55;

/// A piece of a wall that goes all around, by lines along its axis.
#[derive(Clone, Debug)]
pub(super) struct Ring {
    /// Each line: its angle, where it begins and where it ends.
    pub(super) lines: Vec<(f64, [Crossing; 2])>,
    /// How long its wall is missing on a line between them, at most: another room touches it from the side.
    pub(super) gap: f64,
}

/// What there is of a wall.
pub(super) struct Rings {
    /// The pieces that go all around, by their height.
    pub(super) rings: Vec<Ring>,
    /// True where there is none, and yet more than half a turn.
    pub(super) open: bool,
}

impl Ring {
    /// The mean height of its beginning, or of its end.
    pub(super) fn mean(&self, end: usize) -> f64 {
        let sum: f64 = self.lines.iter().map(|(_, ends)| ends[end].t).sum();
        sum / self.lines.len().max(1) as f64
    }

    /// Least and most height of its beginning, or of its end.
    pub(super) fn range(&self, end: usize) -> [f64; 2] {
        let heights = self.lines.iter().map(|(_, ends)| ends[end].t);
        heights.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], t| {
            [low.min(t), high.max(t)]
        })
    }
}

/// The rings of a wall.
pub(super) fn rings(wall: &Wall<'_>) -> Rings {
    let mut columns: Vec<(f64, Vec<[Crossing; 2]>)> = Vec::new();
    let mut missed = 0;
    for angle in wall.angles() {
        match wall.spans(angle) {
            Some(spans) => columns.push((angle, spans)),
            None => missed += 1,
        }
    }
    if missed > columns.len() / 4 || columns.is_empty() {
        return Rings {
            rings: Vec::new(),
            open: true,
        };
    }
    let piece_of = joined(&columns);
    // Only what every line meets goes all around; of the rest nothing is kept.
    let mut met: Vec<(usize, usize)> = vec![(0, usize::MAX); piece_of.len()];
    let mut roots = piece_of.iter();
    for (column, (_, spans)) in columns.iter().enumerate() {
        for root in roots.by_ref().take(spans.len()) {
            let (count, last) = &mut met[*root];
            *count += usize::from(*last != column);
            *last = column;
        }
    }
    let mut rings: Vec<Ring> = Vec::new();
    let mut number_of: BTreeMap<usize, usize> = BTreeMap::new();
    let mut roots = piece_of.iter();
    for (angle, spans) in &columns {
        for ([from, to], root) in spans.iter().zip(roots.by_ref()) {
            if met[*root].0 < columns.len() {
                continue;
            }
            let number = *number_of.entry(*root).or_insert(rings.len());
            if number == rings.len() {
                rings.push(Ring {
                    lines: Vec::new(),
                    gap: 0.0,
                });
            }
            let Ring { lines, gap } = &mut rings[number];
            match lines.last_mut() {
                Some((last, ends)) if last == angle => {
                    *gap = gap.max(from.t - ends[1].t);
                    ends[1] = *to;
                }
                _ => lines.push((*angle, [*from, *to])),
            }
        }
    }
    rings.sort_by(|a, b| a.mean(0).total_cmp(&b.mean(0)));
    let covered = columns
        .iter()
        .filter(|(_, spans)| !spans.is_empty())
        .count();
    let share = covered as f64 / columns.len() as f64;
    let open = rings.is_empty() && columns.len() >= LINES / 2 && share > LOOKS_LIKE_ONE;
    Rings { rings, open }
}

/// The spans of lines beside each other that overlap belong together: for each of them, in order, one
/// that stands for all of its piece.
fn joined(columns: &[(f64, Vec<[Crossing; 2]>)]) -> Vec<usize> {
    let first: Vec<usize> = columns
        .iter()
        .scan(0, |count, (_, spans)| {
            let from = *count;
            *count += spans.len();
            Some(from)
        })
        .collect();
    let count = columns.iter().map(|(_, spans)| spans.len()).sum();
    let mut parent: Vec<usize> = (0..count).collect();
    for at in 0..columns.len() {
        let next = (at + 1) % columns.len();
        let (mut a, mut b) = (0, 0);
        let (left, right) = (&columns[at].1, &columns[next].1);
        while let (Some(x), Some(y)) = (left.get(a), right.get(b)) {
            if x[0].t < y[1].t && y[0].t < x[1].t {
                let (one, other) = (
                    root(&mut parent, first[at] + a),
                    root(&mut parent, first[next] + b),
                );
                parent[one.max(other)] = one.min(other);
            }
            if x[1].t < y[1].t {
                a += 1;
            } else {
                b += 1;
            }
        }
    }
    (0..count).map(|at| root(&mut parent, at)).collect()
}

fn root(parent: &mut [usize], mut at: usize) -> usize {
    while parent[at] != at {
        parent[at] = parent[parent[at]];
        at = parent[at];
    }
    at
}
