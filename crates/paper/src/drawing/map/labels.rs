//! Marks and numbers on a map, the way from hole to hole, and where an electrode begins.

use std::collections::BTreeMap;

use super::NAME_ABOVE;
use super::room::{Dots, Lines, Segment, Taken};
use super::view::{TICK, View};
use crate::page::{Ink, Page, Stroke, Style};
use crate::typeset::look::CAPTION;
use crate::words::drawing as words;

/// Numbers that are named where not all have room.
const EVERY: [u32; 5] = [5, 10, 20, 50, 100];
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
        (reserved, frames): (&[Reserved], &[Segment]),
    ) -> usize {
        let which: Vec<usize> = which.into_iter().collect();
        let places = self.places();
        let way = way(&which, &places);
        self.draw_way(page, &which, &places, &way);
        let spots = self.at_one(&which, &places);
        // What the view is called stands there already.
        let named = CAPTION.measure(&self.named());
        let mut taken = Taken::default();
        taken.put((left_edge, self.corner.1 - NAME_ABOVE), named);
        for &(at, wide) in reserved {
            taken.put(at, wide);
        }
        let room = Room {
            edges: (left_edge, right_edge),
            dots: Dots::of(which.iter().map(|index| places[*index])),
            lines: Lines::of([self.edges(), frames.to_vec()].concat(), &way),
        };
        let mut laid = room.laid(taken.clone(), &spots, &places, 1);
        if laid.missing > 0 {
            let mut fewer = EVERY
                .iter()
                .map(|every| room.laid(taken.clone(), &spots, &places, *every));
            laid = fewer.find(Laid::is_nearly_whole).unwrap_or(laid);
        }
        let mut unlabeled: usize = spots.iter().map(|(_, label)| label.count).sum();
        for (at, (left, base)) in laid.stands {
            let label = &spots[at].1;
            page.text(left, base, label.style(), &label.said);
            unlabeled -= label.count;
        }
        unlabeled
    }

    /// Draws the way from hole to hole; a ring stands around the first.
    fn draw_way(&self, page: &mut Page, which: &[usize], places: &[(f64, f64)], way: &[Segment]) {
        for [from, to] in way {
            page.line(*from, *to, Stroke::new(0.35, Ink::Accent));
        }
        if which.len() <= MOST_JOINED && which.first() == Some(&0) {
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
        let labels = found.into_iter().enumerate().map(|(at, (first, all))| {
            let (names, is_new) = self.names(&all, &mut last);
            let begun = all
                .iter()
                .find_map(|index| self.map.spots[*index].electrode);
            let begun = begun.filter(|number| *number > 1);
            let label = Label {
                said: begun.map_or_else(|| names.clone(), |number| words::begins(&names, number)),
                is_new: is_new || begun.is_some() || at == 0,
                number: self.map.spots[first].number,
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
    /// The number of its first hole.
    number: u32,
    /// Holes that it names.
    count: usize,
}

impl Label {
    fn style(&self) -> Style {
        if self.is_new {
            CAPTION.ink(Ink::Text).bold()
        } else {
            CAPTION
        }
    }
}

/// The way from hole to hole; of a detail only what follows each other is joined.
fn way(which: &[usize], places: &[(f64, f64)]) -> Vec<Segment> {
    if which.len() > MOST_JOINED {
        return Vec::new();
    }
    let pairs = which.windows(2).filter(|pair| pair[1] == pair[0] + 1);
    pairs
        .map(|pair| [places[pair[0]], places[pair[1]]])
        .collect()
}

/// What labels have around them.
struct Room {
    edges: (f64, f64),
    dots: Dots,
    lines: Lines,
}

/// Labels as they found room.
struct Laid {
    /// Of each that stands its place in the list, and where on the page.
    stands: Vec<(usize, (f64, f64))>,
    /// How many found none.
    missing: usize,
}

impl Laid {
    /// Whether so few are missing that a reader counts on from their neighbors: a fifth.
    fn is_nearly_whole(&self) -> bool {
        self.missing * 4 <= self.stands.len()
    }
}

impl Room {
    /// Finds room for what begins, and for each number that is a multiple of `every`.
    fn laid(
        &self,
        mut taken: Taken,
        spots: &[(usize, Label)],
        places: &[(f64, f64)],
        every: u32,
    ) -> Laid {
        let wanted = spots.iter().enumerate();
        let wanted = wanted.filter(|(_, (_, label))| label.is_new || label.number % every == 0);
        let mut laid = Laid {
            stands: Vec::new(),
            missing: 0,
        };
        for (at, (index, label)) in wanted {
            let stands = (laid.stands.len() < MOST_LABELS)
                .then(|| self.beside(&mut taken, places[*index], label, every > 1))
                .flatten();
            match stands {
                Some(stands) => laid.stands.push((at, stands)),
                None => laid.missing += 1,
            }
        }
        laid
    }

    /// Where a label stands at its hole, if there is room; best where no line runs through it.
    fn beside(
        &self,
        taken: &mut Taken,
        (x, y): (f64, f64),
        label: &Label,
        only_clear: bool,
    ) -> Option<(f64, f64)> {
        let wide = label.style().measure(&label.said);
        // Right of the hole and above it, then around it.
        let right = x + TICK + 1.0;
        let left = x - TICK - 1.0 - wide;
        let (above, below) = (y - TICK, y + TICK + CAPTION.size * 0.8);
        let middle = x - wide / 2.0;
        let (higher, lower) = (above - TICK, below + TICK);
        let around = [
            (right, above),
            (right, below),
            (left, above),
            (left, below),
            (middle, higher),
            (middle, lower),
        ];
        let free = around.into_iter().filter(|&(left, base)| {
            left >= self.edges.0
                && left + wide <= self.edges.1
                && taken.is_free((left, base), wide)
                && !self.dots.any_under((left, base), wide)
        });
        let free: Vec<_> = free.collect();
        let clear = |at: &&(f64, f64)| !self.lines.any_under(**at, wide);
        // What begins is named in any case.
        let other = free.first().filter(|_| label.is_new || !only_clear);
        let at = *free.iter().find(clear).or(other)?;
        taken.put(at, wide);
        Some(at)
    }
}
