//! Callouts that name several holes: `4x ⌀0.8` at one of them is the text of all four.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use quillbore_job::Column;

use super::notes::{named, numbers};
use super::ties::Ties;
use crate::cell_words::with_signs;
use crate::head::Head;
use crate::meaning::Meaning;
use crate::seen::{ChartLine, Guessed};
use crate::signs::{count_before, count_behind, signs};

/// By what holes are told apart beside their texts.
#[derive(Clone, Copy, Debug)]
pub(super) struct Like {
    pub(super) diameter: f64,
    pub(super) layer: u32,
    pub(super) shown: bool,
    /// The ring of the drawing that it stands in: one view of the part.
    pub(super) ring: Option<usize>,
}

/// Gives callouts that name several holes to as many equal ones: of the whole drawing, or else of one layer or
/// ring. Where there are not as many nothing is given, and that is told of those that have the text.
pub(super) fn spread(ties: &mut Ties, holes: &[Like]) {
    let mut by_text: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (hole, text) in ties.texts.iter().enumerate() {
        if let Some((text, _)) = text {
            by_text.entry(text).or_default().push(hole);
        }
    }
    let mut counted: Vec<(Vec<usize>, usize, String)> = by_text
        .into_iter()
        .filter_map(|(text, of)| Some((of, several(text)?, text.to_owned())))
        .collect();
    // In the order of the drawing.
    counted.sort();
    let loose: Vec<(usize, usize)> = ties
        .loose
        .iter()
        .enumerate()
        .filter_map(|(at, text)| Some((at, several(text)?)))
        .collect();
    let unmarked = std::mem::take(&mut ties.unmarked);
    if counted.is_empty() && loose.is_empty() && unmarked.is_empty() {
        return;
    }
    let mut equals = Equals::of(holes, &ties.texts);
    for (of, said, text) in counted {
        // The same text at several holes speaks of as many more.
        let texts: BTreeSet<usize> = of
            .iter()
            .filter_map(|hole| ties.of_note.get(hole).copied())
            .collect();
        equals.tied(ties, &of, [said, texts.len().max(1)], &text);
    }
    let mut found = Vec::new();
    for (at, said) in loose {
        let text = ties.loose[at].clone();
        if equals.alone(ties, said, &text) {
            found.push(at);
        }
    }
    let mut at = 0;
    ties.loose.retain(|_| {
        at += 1;
        found.binary_search(&(at - 1)).is_err()
    });
    for (text, line) in unmarked {
        let holes = line.as_deref().and_then(size_and_count);
        let holes = holes.map(|(size, count)| equals.of_size(ties, &[size], count, &text));
        let holes = holes.unwrap_or_default();
        if holes.is_empty() {
            ties.loose.push(text);
        }
        let lines = holes.into_iter().zip(line.iter().cycle());
        ties.lines
            .extend(lines.map(|(hole, line)| (hole, Arc::clone(line))));
    }
}

/// The size that a chart's line names, and how many holes.
fn size_and_count(line: &ChartLine) -> Option<(f64, usize)> {
    let below = |column: Column| {
        let meaning = Some(Meaning::Ours(column));
        let mut heads = line.heads.iter().zip(&line.cells);
        let (_, cell) = heads.find(|(head, _)| Head::of(head).says.may_be(meaning))?;
        Some(cell)
    };
    let count = below(Column::Count)?.trim().parse().ok()?;
    let size = numbers(below(Column::Size)?).into_iter().next()?;
    Some((size, count))
}

/// How many holes a callout names, where it names several.
fn several(text: &str) -> Option<usize> {
    if text.len() > LONGEST {
        return None;
    }
    // A dimension and the words of a leader stand in one text.
    text.split(", ").find_map(count).filter(|said| *said > 1)
}

/// No callout is longer, in bytes.
const LONGEST: usize = 500;

fn count(text: &str) -> Option<usize> {
    let text = with_signs(text);
    let signs = signs(&text);
    let mut rest = 0..signs.len();
    let at = count_before(&signs, &mut rest).or_else(|| count_behind(&signs, &mut rest))?;
    let digits = text
        .get(at)?
        .trim_start_matches(|sign: char| !sign.is_ascii_digit());
    let end = digits.find(|sign: char| !sign.is_ascii_digit());
    digits.get(..end.unwrap_or(digits.len()))?.parse().ok()
}

/// Diameters that differ by less are one, in parts of them.
const SAME: f64 = 1e-4;

/// What equal holes have in common; what is `None` may differ.
type Key = (usize, Option<u32>, Option<Option<usize>>, Option<bool>);

/// Equal holes that have no text.
struct Equals<'h> {
    holes: &'h [Like],
    /// The diameters that there are, rising.
    diameters: Vec<f64>,
    /// Which of them each hole has.
    class: Vec<usize>,
    /// How many there are without a text, and all that there were.
    open: BTreeMap<Key, (usize, Vec<usize>)>,
}

impl<'h> Equals<'h> {
    fn of(holes: &'h [Like], texts: &[Option<(String, bool)>]) -> Self {
        let mut order: Vec<usize> = (0..holes.len()).collect();
        order.sort_by(|a, b| holes[*a].diameter.total_cmp(&holes[*b].diameter));
        let mut equals = Self {
            holes,
            diameters: Vec::new(),
            class: vec![0; holes.len()],
            open: BTreeMap::new(),
        };
        for at in order {
            let diameter = holes[at].diameter;
            let last = equals.diameters.last();
            if last.is_none_or(|last| diameter - last > SAME * diameter) {
                equals.diameters.push(diameter);
            }
            equals.class[at] = equals.diameters.len() - 1;
        }
        for (at, text) in texts.iter().enumerate() {
            if text.is_none() {
                for key in equals.keys(at) {
                    let (count, all) = equals.open.entry(key).or_default();
                    *count += 1;
                    all.push(at);
                }
            }
        }
        equals
    }

    /// What a hole has in common with others, the widest first.
    fn keys(&self, at: usize) -> [Key; 5] {
        let Like {
            layer, shown, ring, ..
        } = self.holes[at];
        let class = self.class[at];
        [
            (class, None, None, None),
            (class, None, None, Some(shown)),
            (class, Some(layer), None, Some(shown)),
            (class, None, Some(ring), Some(shown)),
            (class, Some(layer), Some(ring), Some(shown)),
        ]
    }

    fn is_open(&self, key: &Key) -> usize {
        self.open.get(key).map_or(0, |(count, _)| *count)
    }

    /// A text that some holes have, that names so many, and stands in the drawing so often.
    fn tied(&mut self, ties: &mut Ties, of: &[usize], [said, texts]: [usize; 2], text: &str) {
        let Some(first) = of.first().copied() else {
            return;
        };
        let speaks_of_it = ties.texts[first].as_ref().is_some_and(|(_, tied)| *tied)
            || named(&numbers(text), self.holes[first].diameter);
        let is_one = of.iter().all(|at| self.class[*at] == self.class[first]);
        let all = said.saturating_mul(texts);
        if of.len() == all || !is_one || !speaks_of_it {
            return;
        }
        let keys = self.keys(first);
        let fits = keys.iter().enumerate().find(|(level, key)| {
            of.len() + self.is_open(key) == all
                && of.iter().all(|at| self.keys(*at)[*level] == **key)
        });
        match fits {
            Some((_, key)) => drop(self.give(ties, *key, all, text)),
            // As many as it names have it: it may be that it stands at each of them.
            None if of.len() == said => {}
            None => {
                let found = self.class.iter();
                let found = found.filter(|class| **class == self.class[first]).count();
                let differs = of
                    .iter()
                    .map(|at| (*at, Guessed::CountDiffers(said, found)));
                ties.guessed.extend(differs);
            }
        }
    }

    /// A text that stands at no hole and names so many of a size: true where there are as many, of one size alone.
    fn alone(&mut self, ties: &mut Ties, said: usize, text: &str) -> bool {
        !self.of_size(ties, &numbers(text), said, text).is_empty()
    }

    /// Gives a text to so many holes of one of these sizes: to which, where there are as many, of one size alone.
    fn of_size(&mut self, ties: &mut Ties, sizes: &[f64], said: usize, text: &str) -> Vec<usize> {
        let mut fit: Vec<usize> = Vec::new();
        for &number in sizes {
            let from = self
                .diameters
                .partition_point(|diameter| !named(&[number], *diameter) && *diameter < number);
            let near = self.diameters.iter().enumerate().skip(from);
            let near = near.take_while(|(_, diameter)| named(&[number], **diameter));
            let fits = |class: &usize| self.is_open(&(*class, None, None, Some(true))) == said;
            fit.extend(near.map(|(class, _)| class).filter(fits).take(2));
        }
        fit.dedup();
        let [class] = fit.as_slice() else {
            return Vec::new();
        };
        self.give(ties, (*class, None, None, Some(true)), said, text)
    }

    fn give(&mut self, ties: &mut Ties, key: Key, said: usize, text: &str) -> Vec<usize> {
        let all = self.open.get_mut(&key).map(|(_, all)| std::mem::take(all));
        let mut given = Vec::new();
        for at in all.unwrap_or_default() {
            let Some(place) = ties.texts.get_mut(at).filter(|text| text.is_none()) else {
                continue;
            };
            *place = Some((text.to_owned(), true));
            ties.guessed.push((at, Guessed::TextByCount(said)));
            given.push(at);
            for key in self.keys(at) {
                if let Some((count, _)) = self.open.get_mut(&key) {
                    *count = count.saturating_sub(1);
                }
            }
        }
        given
    }
}
