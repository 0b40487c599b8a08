//! By what the list is sorted.

use std::cmp::Ordering;

use super::facts::Facts;
use super::line::ShelfLine;
use super::named::Named;

/// A column that the list is sorted by.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum SortBy {
    /// The job's number.
    #[default]
    Number,
    /// When parts are due, while anything is: [`ShelfLine::due`].
    Due,
    /// What the lot is worth: [`ShelfLine::worth`].
    Price,
    /// How long ago it was opened: the youngest is the least.
    Age,
    /// Hours of the lot by the run records: [`ShelfLine::lot_hours`].
    Hours,
    /// The customer's name.
    Customer,
}

impl SortBy {
    /// Every column.
    pub const ALL: [Self; 6] = [
        Self::Number,
        Self::Due,
        Self::Price,
        Self::Age,
        Self::Hours,
        Self::Customer,
    ];
}

/// How the list is sorted. Lines without what it is sorted by come last either way; of those that are
/// the same there the newest number comes first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Sort {
    /// By what.
    pub by: SortBy,
    /// The greatest first.
    pub falling: bool,
}

impl Default for Sort {
    /// The newest number first.
    fn default() -> Self {
        Self {
            by: SortBy::Number,
            falling: true,
        }
    }
}

impl Sort {
    /// Every way to sort.
    pub(super) fn all() -> impl Iterator<Item = Self> {
        let both = |by| [false, true].map(|falling| Self { by, falling });
        SortBy::ALL.into_iter().flat_map(both)
    }

    /// Its place among all of them.
    pub(super) const fn index(self) -> usize {
        self.by as usize * 2 + self.falling as usize
    }

    /// How two lines are sorted; only a line and itself are equal.
    pub(super) fn compare(self, one: Sorted<'_>, other: Sorted<'_>) -> Ordering {
        let by = match self.by {
            SortBy::Number => self.last(Some(&one.line.name), Some(&other.line.name)),
            SortBy::Customer => self.last(one.customer(), other.customer()),
            by => self.last(one.facts.key(by), other.facts.key(by)),
        };
        by.then_with(|| one.line.order(other.line))
    }

    /// What is there before what isn't, the least or the greatest first.
    fn last<T: Ord>(self, one: Option<T>, other: Option<T>) -> Ordering {
        match (one, other) {
            (Some(one), Some(other)) if self.falling => other.cmp(&one),
            (Some(one), Some(other)) => one.cmp(&other),
            (one, other) => other.is_some().cmp(&one.is_some()),
        }
    }
}

/// A line with what it is sorted by.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sorted<'a> {
    pub(super) line: &'a ShelfLine,
    pub(super) facts: &'a Facts,
    /// The customer in small letters.
    pub(super) customer: &'a [u8],
}

impl<'a> Sorted<'a> {
    fn customer(self) -> Option<&'a [u8]> {
        Some(self.customer).filter(|name| !name.is_empty())
    }
}

/// The places of lines in each order that a list can have.
#[derive(Debug, Default)]
pub(super) struct Orders(Vec<Vec<u32>>);

impl Orders {
    /// The orders of lines that stand with the newest number first.
    pub(super) fn of(lines: &[Sorted<'_>], customers: &Named) -> Self {
        let orders = SortBy::ALL.iter().flat_map(|by| match by {
            SortBy::Number => by_number(lines),
            SortBy::Customer => places((0..lines.len()).map(|at| customers.place(at))),
            by => places(lines.iter().map(|line| line.facts.key(*by))),
        });
        Self(orders.collect())
    }

    /// The places of all lines in an order.
    pub(super) fn get(&self, sort: Sort) -> &[u32] {
        self.0.get(sort.index()).map_or(&[], Vec::as_slice)
    }
}

/// By number: lines of one name stay as they stand.
fn by_number(lines: &[Sorted<'_>]) -> [Vec<u32>; 2] {
    let mut before: Option<&str> = None;
    let mut nth = u64::MAX;
    places(lines.iter().map(|line| {
        let name = line.line.name.as_str();
        nth -= u64::from(before.replace(name) != Some(name));
        Some(nth)
    }))
}

/// The places of keys, rising and falling; those without one last, and equal ones as they stand.
fn places(keys: impl Iterator<Item = Option<u64>>) -> [Vec<u32>; 2] {
    let (mut with, mut without) = (Vec::new(), Vec::new());
    for (at, key) in (0_u32..).zip(keys) {
        match key {
            Some(key) => with.push((key, at)),
            None => without.push(at),
        }
    }
    with.sort_unstable();
    let place = |(_, at): &(u64, u32)| *at;
    let rising = with.iter().map(place);
    let same = with.chunk_by(|one, other| one.0 == other.0);
    let falling = same.rev().flatten().map(place);
    let last = || without.iter().copied();
    [
        rising.chain(last()).collect(),
        falling.chain(last()).collect(),
    ]
}
