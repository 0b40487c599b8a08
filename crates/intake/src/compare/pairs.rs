//! Which row of a newer file is which row of the hole table.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use quillbore_job::{Column, Row};

use super::differ::{cell, differs, differs_in, shared};
use super::most::most;

/// Rows of one size or mark that are looked at as the same one, nearest first; a table with more rows alike
/// tells them apart by their order.
const MOST_ALIKE: usize = 64;

/// How sure it is that two rows are one; the earlier the surer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Rank {
    /// Nothing differs.
    Same,
    /// The file's mark, and all that is specified.
    MarkAndAll,
    /// All that is specified: rows may have been lettered anew.
    All,
    /// The file's mark.
    Mark,
    /// A location.
    Place,
    /// The size.
    Size,
}

/// Which row of the newer table each row is, by their places in the two.
pub(super) fn pairs(
    rows: &[Arc<Row>],
    newer: &[Arc<Row>],
    is_drawn: bool,
) -> BTreeMap<usize, usize> {
    let mut ranked = Vec::new();
    for ((at, to), apart) in candidates(rows, newer, is_drawn) {
        let (Some(row), Some(other)) = (rows.get(at), newer.get(to)) else {
            continue;
        };
        let shared = shared(&row.places, &other.places);
        if let Some(rank) = rank(row, other, shared, is_drawn) {
            // Of rows that are the same, the one that says as much: another may be silent about the rest.
            let silent = match rank {
                Rank::Same => silent(row, other),
                _ => 0,
            };
            ranked.push((rank, silent, Reverse(shared), apart, at, to));
        }
    }
    ranked.sort_unstable();
    let (same, others) = ranked.split_at(ranked.partition_point(|(rank, ..)| *rank == Rank::Same));
    // Rows of which nothing is said that differs: as many as can be, so that a table is the same as one made
    // after it.
    let same: Vec<(usize, usize)> = same.iter().map(|(.., at, to)| (*at, *to)).collect();
    let mut pairs = most(&same);
    let mut given: BTreeSet<usize> = pairs.values().copied().collect();
    for (.., at, to) in others {
        if !pairs.contains_key(at) && given.insert(*to) {
            pairs.insert(*at, *to);
        }
    }
    pairs
}

fn rank(row: &Row, other: &Row, shared: usize, is_drawn: bool) -> Option<Rank> {
    let specified = Column::ALL
        .iter()
        .filter(|column| !matches!(column, Column::Mark | Column::Count | Column::Note));
    let mut differing = specified.filter(|column| differs_in(row, other, **column, is_drawn));
    let is_alike = differing.next().is_none() && !other.size.is_empty();
    let is_marked = !is_drawn && !mark(row).is_empty() && mark(row) == mark(other);
    if differs(row, other, is_drawn).is_none() {
        return Some(Rank::Same);
    }
    match (is_marked, is_alike) {
        (true, true) => Some(Rank::MarkAndAll),
        (true, false) => Some(Rank::Mark),
        (false, true) => Some(Rank::All),
        (false, false) if shared > 0 => Some(Rank::Place),
        (false, false) if !differs_in(row, other, Column::Size, is_drawn) => Some(Rank::Size),
        (false, false) => None,
    }
}

/// How many things a row says that the other is silent about; locations that only one of them has count
/// either way, since those of the other would come along.
fn silent(row: &Row, other: &Row) -> usize {
    let says = |row: &Row, column: &Column| !row.cell(*column).text.is_empty();
    let columns = Column::ALL.iter();
    let cells = columns.filter(|column| says(row, column) && !says(other, column));
    cells.count() + usize::from(row.places.is_empty() != other.places.is_empty())
}

/// Rows that have a mark, a size or a location in common, and how far they are apart in order among those that
/// have it; the nearest.
fn candidates(
    rows: &[Arc<Row>],
    newer: &[Arc<Row>],
    is_drawn: bool,
) -> BTreeMap<(usize, usize), usize> {
    let mut by: BTreeMap<Key, Vec<usize>> = BTreeMap::new();
    for (at, row) in rows.iter().enumerate() {
        for key in keys(row, is_drawn) {
            by.entry(key).or_default().push(at);
        }
    }
    let mut found: BTreeMap<(usize, usize), usize> = BTreeMap::new();
    let mut seen: BTreeMap<Key, usize> = BTreeMap::new();
    for (to, row) in newer.iter().enumerate() {
        for key in keys(row, is_drawn) {
            let Some(there) = by.get(&key) else { continue };
            let nth = seen.entry(key).or_default();
            let from = nth.saturating_sub(MOST_ALIKE / 2);
            for (place, at) in there.iter().enumerate().skip(from).take(MOST_ALIKE) {
                let apart = place.abs_diff(*nth);
                let least = found.entry((*at, to)).or_insert(apart);
                *least = apart.min(*least);
            }
            *nth += 1;
        }
    }
    found
}

#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Key {
    Mark(String),
    /// A diameter, to a tenth of a millimeter: limits of one row may lie about the size of another.
    Size(i64),
    /// What stands there for a size, also nothing.
    NoSize(String),
    Place([i64; 3]),
}

fn keys(row: &Row, is_drawn: bool) -> Vec<Key> {
    let mark = Some(mark(row)).filter(|mark| !is_drawn && !mark.is_empty());
    let mut keys: Vec<Key> = mark.map(Key::Mark).into_iter().collect();
    if let Some(size) = row.size.value() {
        #[expect(clippy::cast_possible_truncation, reason = "a diameter is small")]
        let tenth = libm::floor((size.lower.mm() + size.upper.mm()) * 5.0) as i64;
        keys.extend((tenth - 1..=tenth + 1).map(Key::Size));
    } else {
        keys.push(Key::NoSize(row.size.text().to_owned()));
    }
    keys.extend(
        row.places
            .iter()
            .take(MOST_ALIKE)
            .map(|place| Key::Place(cell(place))),
    );
    keys
}

fn mark(row: &Row) -> String {
    row.mark.text().trim().to_uppercase()
}
