//! What a label on a map keeps clear of: other labels, holes, and as far as it can lines.

use std::collections::BTreeMap;

use crate::typeset::look::CAPTION;

/// Labels stand no closer than this, one above the other.
const APART: f64 = 10.0;
/// Lines of a way that are looked at; of more no label would find a place beside all.
const MOST_WAY: usize = 150;

/// A straight line from one end to the other.
pub(super) type Segment = [(f64, f64); 2];

/// Labels that stand already, by the line that they are on: so that thousands are not compared with all.
#[derive(Clone, Default)]
pub(super) struct Taken {
    lines: BTreeMap<i64, Vec<(f64, f64, f64)>>,
}

impl Taken {
    fn line(y: f64) -> i64 {
        (y / APART).floor() as i64
    }

    /// A label stands here from now on.
    pub(super) fn put(&mut self, (x, y): (f64, f64), wide: f64) {
        self.lines
            .entry(Self::line(y))
            .or_default()
            .push((x, y, wide));
    }

    /// Whether no other label is in the way.
    pub(super) fn is_free(&self, (x, y): (f64, f64), wide: f64) -> bool {
        let line = Self::line(y);
        let near = (line - 1..=line + 1).filter_map(|line| self.lines.get(&line));
        near.flatten().all(|(a, b, width)| {
            x > a + width + 1.0 || x + wide < a - 1.0 || (y - b).abs() >= APART - 2.0
        })
    }
}

/// Where holes are drawn, by squares of the page.
pub(super) struct Dots {
    squares: BTreeMap<(i64, i64), Vec<(f64, f64)>>,
}

impl Dots {
    fn square((x, y): (f64, f64)) -> (i64, i64) {
        ((x / APART).floor() as i64, (y / APART).floor() as i64)
    }

    /// Holes at these places.
    pub(super) fn of(places: impl Iterator<Item = (f64, f64)>) -> Self {
        let mut squares: BTreeMap<_, Vec<_>> = BTreeMap::new();
        for place in places {
            squares.entry(Self::square(place)).or_default().push(place);
        }
        Self { squares }
    }

    /// Whether a hole is drawn where a label would stand.
    pub(super) fn any_under(&self, (left, base): (f64, f64), wide: f64) -> bool {
        let (right, top) = (left + wide, base - CAPTION.size * 0.75);
        let (first, last) = (Self::square((left, top)), Self::square((right, base)));
        let mut squares = (first.0..=last.0).flat_map(|x| (first.1..=last.1).map(move |y| (x, y)));
        squares.any(|square| {
            let here = self.squares.get(&square).map_or(&[][..], Vec::as_slice);
            let mut here = here.iter();
            here.any(|(x, y)| (left..=right).contains(x) && (top..=base).contains(y))
        })
    }
}

/// Lines from each point to the next, and back to the first.
pub(super) fn closed(points: &[(f64, f64)]) -> Vec<Segment> {
    let next = points.iter().cycle().skip(1);
    let pairs = points.iter().zip(next);
    pairs.map(|(from, to)| [*from, *to]).collect()
}

/// Lines that a label had better not stand on.
pub(super) struct Lines {
    segments: Vec<Segment>,
}

impl Lines {
    /// The lines of the part, and of the way from hole to hole where it is short.
    pub(super) fn of(part: Vec<Segment>, way: &[Segment]) -> Self {
        let mut segments = part;
        if way.len() <= MOST_WAY {
            segments.extend(way);
        }
        Self { segments }
    }

    /// Whether a line runs through where a label would stand.
    pub(super) fn any_under(&self, (left, base): (f64, f64), wide: f64) -> bool {
        let low = (left, base - CAPTION.size * 0.75);
        let high = (left + wide, base);
        self.segments
            .iter()
            .any(|line| runs_through(*line, low, high))
    }
}

/// Whether a line has a part within a rectangle: what of it lies between each pair of sides, cut one after the other.
fn runs_through([from, to]: Segment, low: (f64, f64), high: (f64, f64)) -> bool {
    let (mut first, mut last) = (0.0_f64, 1.0_f64);
    for (start, end, low, high) in [(from.0, to.0, low.0, high.0), (from.1, to.1, low.1, high.1)] {
        let way = end - start;
        if way.abs() < 1e-9 {
            if !(low..=high).contains(&start) {
                return false;
            }
            continue;
        }
        let (one, other) = ((low - start) / way, (high - start) / way);
        first = first.max(one.min(other));
        last = last.min(one.max(other));
    }
    first <= last
}

#[cfg(test)]
mod tests {
    use super::runs_through;

    #[test]
    fn a_line_runs_through_a_rectangle_or_past_it() {
        let (low, high) = ((10.0, 10.0), (20.0, 14.0));
        for (line, through) in [
            ([(0.0, 12.0), (30.0, 12.0)], true),
            ([(15.0, 0.0), (15.0, 30.0)], true),
            ([(0.0, 0.0), (30.0, 24.0)], true),
            ([(12.0, 11.0), (13.0, 12.0)], true),
            ([(0.0, 15.0), (30.0, 15.0)], false),
            ([(0.0, 12.0), (9.0, 12.0)], false),
            ([(0.0, 20.0), (14.0, 0.0)], false),
            ([(5.0, 30.0), (5.0, 0.0)], false),
        ] {
            assert_eq!(runs_through(line, low, high), through, "{line:?}");
        }
    }
}
