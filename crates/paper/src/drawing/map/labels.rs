//! Marks and numbers on a map, the way from hole to hole, and where an electrode begins.

use std::collections::BTreeMap;

use super::view::{TICK, View};
use crate::page::{Ink, Page, Stroke, Style};
use crate::typeset::look::CAPTION;
use crate::words::drawing as words;

/// Labels stand no closer than this, one above the other.
const APART: f64 = 10.0;
/// Holes whose order is drawn at most: more are a field.
const MOST_JOINED: usize = 2_000;
/// Labels that are placed at most; more would not be read.
const MOST_LABELS: usize = 1_500;
/// Names of holes at one spot; more are counted.
const MOST_NAMES: usize = 3;

/// A place on the page that is written on already: its left end on the line, and how wide it is.
pub(super) type Reserved = ((f64, f64), f64);

impl View<'_> {
    /// Writes marks and numbers between two edges as far as they have room beside each other, and draws the
    /// way from hole to hole; gives how many spots have no label.
    pub(super) fn labels(
        &self,
        page: &mut Page,
        (left_edge, right_edge): (f64, f64),
        which: impl IntoIterator<Item = usize>,
        reserved: &[Reserved],
    ) -> usize {
        let which: Vec<usize> = which.into_iter().collect();
        let places = self.places();
        self.way(page, &which, &places);
        let spots = self.at_one(&which, &places);
        // What the view is called stands there already.
        let named = CAPTION.measure(&self.named());
        let mut taken = Taken::default();
        taken.put((left_edge, self.corner.1 - 3.0), named);
        for &(at, wide) in reserved {
            taken.put(at, wide);
        }
        let dots = Dots::of(which.iter().map(|index| places[*index]));
        let mut unlabeled = 0;
        for (at, (index, label)) in spots.iter().enumerate() {
            let (x, y) = places[*index];
            let begins = label.is_new || at == 0;
            let style: Style = if begins {
                CAPTION.ink(Ink::Text).bold()
            } else {
                CAPTION
            };
            let wide = style.measure(&label.said);
            // Right of the hole and above it, then around it.
            let right = x + TICK + 1.0;
            let left = x - TICK - 1.0 - wide;
            let (above, below) = (y - TICK, y + TICK + CAPTION.size * 0.8);
            let free = [(right, above), (right, below), (left, above), (left, below)]
                .into_iter()
                .find(|&(left, base)| {
                    left >= left_edge
                        && left + wide <= right_edge
                        && taken.is_free((left, base), wide)
                        && !dots.any_under((left, base), wide)
                });
            match free.filter(|_| at < MOST_LABELS) {
                Some((left, base)) => {
                    page.text(left, base, style, &label.said);
                    taken.put((left, base), wide);
                }
                None => unlabeled += label.count,
            }
        }
        unlabeled
    }

    /// The way from hole to hole; a ring stands around the first.
    fn way(&self, page: &mut Page, which: &[usize], places: &[(f64, f64)]) {
        if which.len() > MOST_JOINED {
            return;
        }
        let way = Stroke::new(0.35, Ink::Accent);
        // Of a detail only what follows each other is joined.
        for pair in which.windows(2).filter(|pair| pair[1] == pair[0] + 1) {
            page.line(places[pair[0]], places[pair[1]], way);
        }
        if which.first() == Some(&0) {
            page.circle(
                places[0],
                TICK + 2.2,
                None,
                Some(Stroke::new(0.8, Ink::Accent)),
            );
        }
    }

    /// The spots by where they stand, each with what is written there.
    fn at_one(&self, which: &[usize], places: &[(f64, f64)]) -> Vec<(usize, Label)> {
        let mut found: Vec<(usize, Vec<usize>)> = Vec::new();
        let mut known: BTreeMap<(i64, i64), usize> = BTreeMap::new();
        for &index in which {
            let (x, y) = places[index];
            let key = ((x * 2.0).round() as i64, (y * 2.0).round() as i64);
            match known.get(&key) {
                Some(at) => found[*at].1.push(index),
                None => {
                    known.insert(key, found.len());
                    found.push((index, vec![index]));
                }
            }
        }
        let mut last = LastSaid::default();
        let labels = found.into_iter().map(|(first, all)| {
            let (names, is_new) = self.names(&all, &mut last);
            let begun = all
                .iter()
                .find_map(|index| self.map.spots[*index].electrode);
            let begun = begun.filter(|number| *number > 1);
            let label = Label {
                said: begun.map_or_else(|| names.clone(), |number| words::begins(&names, number)),
                is_new: is_new || begun.is_some(),
                count: all.len(),
            };
            (first, label)
        });
        labels.collect()
    }

    /// The names of holes at one spot, and whether a mark begins with them; one that goes on is not said
    /// again.
    fn names<'a>(&'a self, all: &[usize], last: &mut LastSaid<'a>) -> (String, bool) {
        let spots: Vec<_> = all.iter().map(|index| &self.map.spots[*index]).collect();
        let last_mark = &mut last.mark;
        let is_new = spots.iter().any(|spot| spot.mark != *last_mark);
        let Some(first) = spots.first() else {
            return (String::new(), false);
        };
        let more = spots.len().saturating_sub(MOST_NAMES);
        let shown = &spots[..spots.len().min(MOST_NAMES)];
        if spots.iter().all(|spot| spot.number == first.number) && spots.len() > 1 {
            let marks: Vec<String> = shown.iter().map(|spot| spot.mark.clone()).collect();
            let marks = words::spots(&marks, more);
            *last_mark = spots.last().map_or(*last_mark, |spot| &spot.mark);
            // The same marks at the next number go on.
            if last.together == marks {
                return (first.number.to_string(), false);
            }
            let said = words::spot(&marks, first.number);
            last.together = marks;
            return (said, true);
        }
        let said = {
            let mut before = *last_mark;
            let names: Vec<String> = (shown.iter())
                .map(|spot| {
                    let goes_on = std::mem::replace(&mut before, &spot.mark) == spot.mark;
                    match goes_on {
                        true => spot.number.to_string(),
                        false => words::spot(&spot.mark, spot.number),
                    }
                })
                .collect();
            words::spots(&names, more)
        };
        *last_mark = spots.last().map_or(*last_mark, |spot| &spot.mark);
        (said, is_new)
    }
}

/// What was named last: it goes on without its name.
#[derive(Default)]
struct LastSaid<'a> {
    /// The mark.
    mark: &'a str,
    /// Several marks at one spot.
    together: String,
}

/// What is written at a spot.
struct Label {
    said: String,
    /// A mark or an electrode begins here.
    is_new: bool,
    /// Holes that it names.
    count: usize,
}

/// Labels that stand already, by the line that they are on: so that thousands are not compared with all.
#[derive(Default)]
struct Taken {
    lines: BTreeMap<i64, Vec<(f64, f64, f64)>>,
}

impl Taken {
    fn line(y: f64) -> i64 {
        (y / APART).floor() as i64
    }

    fn put(&mut self, (x, y): (f64, f64), wide: f64) {
        self.lines
            .entry(Self::line(y))
            .or_default()
            .push((x, y, wide));
    }

    fn is_free(&self, (x, y): (f64, f64), wide: f64) -> bool {
        let line = Self::line(y);
        let near = (line - 1..=line + 1).filter_map(|line| self.lines.get(&line));
        near.flatten().all(|(a, b, width)| {
            x > a + width + 1.0 || x + wide < a - 1.0 || (y - b).abs() >= APART - 2.0
        })
    }
}

/// Where holes are drawn, by squares of the page.
struct Dots {
    squares: BTreeMap<(i64, i64), Vec<(f64, f64)>>,
}

impl Dots {
    fn square((x, y): (f64, f64)) -> (i64, i64) {
        ((x / APART).floor() as i64, (y / APART).floor() as i64)
    }

    fn of(places: impl Iterator<Item = (f64, f64)>) -> Self {
        let mut squares: BTreeMap<_, Vec<_>> = BTreeMap::new();
        for place in places {
            squares.entry(Self::square(place)).or_default().push(place);
        }
        Self { squares }
    }

    /// Whether a hole is drawn where a label would stand.
    fn any_under(&self, (left, base): (f64, f64), wide: f64) -> bool {
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
