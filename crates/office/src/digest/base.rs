//! The greater part of an index: lines that never change, with their sets.
//!
//! For each pair of neighboring letters there is a set of the lines that have it; the sets of a
//! word's pairs, cut with each other, leave few lines, and only those are read. The days and figures of
//! all lines stand close together, and so do their places in each order of the list.

use std::sync::Arc;

use memchr::memmem::Finder;

use super::bits::Bits;
use super::facts::Facts;
use super::line::ShelfLine;
use super::named::Named;
use super::query::Query;
use super::sort::{Orders, Sort, Sorted};
use super::text::{Name, Text};
use super::wants::Want;

/// Letters, digits, and one class for all else.
const CLASSES: usize = 37;
const OTHER: usize = CLASSES - 1;

/// Lines in their order, ready to be searched.
#[derive(Debug, Default)]
pub(super) struct Base {
    pub(super) lines: Vec<Arc<ShelfLine>>,
    /// What can be found of every line, one after the other.
    hay: Vec<u8>,
    ends: Vec<usize>,
    names: [Named; 3],
    facts: Vec<Facts>,
    orders: Orders,
    all: Bits,
    single: Vec<Bits>,
    pairs: Vec<Bits>,
}

impl Base {
    /// The base of lines in their order.
    pub(super) fn new(lines: Vec<Arc<ShelfLine>>) -> Self {
        let count = lines.len();
        let mut base = Self {
            hay: Vec::with_capacity(count * 120),
            ends: Vec::with_capacity(count),
            names: Default::default(),
            facts: lines.iter().map(|line| Facts::of(line)).collect(),
            orders: Orders::default(),
            all: Bits::none(count),
            single: vec![Bits::none(count); CLASSES],
            pairs: vec![Bits::none(count); CLASSES * CLASSES],
            lines: Vec::new(),
        };
        let mut names = Vec::with_capacity(count);
        for (at, line) in lines.iter().enumerate() {
            let start = base.hay.len();
            let text = Text::of(line);
            base.hay.extend(text.letters.bytes());
            names.push(text.names);
            base.ends.push(base.hay.len());
            base.all.put(at);
            let classes: Vec<usize> = base.hay[start..].iter().map(|b| class(*b)).collect();
            for class in &classes {
                base.single[*class].put(at);
            }
            for pair in classes.windows(2) {
                base.pairs[pair[0] * CLASSES + pair[1]].put(at);
            }
        }
        base.lines = lines;
        base.names = Name::ALL.map(|name| {
            let of_lines = names.iter().enumerate();
            Named::new(of_lines.map(|(at, names)| names.of(name, base.text_of(at))))
        });
        let sorted: Vec<Sorted<'_>> = (0..count).map(|at| base.sorted(at)).collect();
        base.orders = Orders::of(&sorted, &base.names[Name::Customer as usize]);
        base
    }

    /// The lines that are what is asked for, by their place here.
    pub(super) fn find(&self, asked: &Compiled<'_>) -> Bits {
        let mut found = self.all.clone();
        for word in &asked.words {
            let classes: Vec<usize> = word.needle().iter().map(|b| class(*b)).collect();
            if let [one] = classes[..]
                && let Some(set) = self.single.get(one)
            {
                found.keep(set);
            }
            for pair in classes.windows(2) {
                if let Some(set) = self.pairs.get(pair[0] * CLASSES + pair[1]) {
                    found.keep(set);
                }
            }
        }
        for want in asked.wants {
            if !matches!(want, Want::Named { .. }) {
                found.keep_if(|at| want.holds(&self.facts[at]));
            }
        }
        for (name, words) in &asked.names {
            found.keep_if(self.names[*name as usize].with(words));
        }
        for word in &asked.words {
            let needle = word.needle();
            // The sets say exactly which lines have one or two letters or digits.
            if needle.len() > 2 || needle.iter().any(|b| class(*b) == OTHER) {
                found.keep_if(|at| word.find(self.text_of(at)).is_some());
            }
        }
        found
    }

    /// The places of all lines in an order.
    pub(super) fn order(&self, sort: Sort) -> &[u32] {
        self.orders.get(sort)
    }

    /// Before how many of its lines another one comes in an order.
    pub(super) fn before(&self, line: Sorted<'_>, sort: Sort) -> u32 {
        let comes_first = |at: &u32| sort.compare(self.sorted(*at as usize), line).is_lt();
        let before = self.order(sort).partition_point(comes_first);
        u32::try_from(before).unwrap_or(u32::MAX)
    }

    /// A line with what it is sorted by.
    pub(super) fn sorted(&self, at: usize) -> Sorted<'_> {
        Sorted {
            line: &self.lines[at],
            facts: &self.facts[at],
            customer: self.names[Name::Customer as usize].name(at),
        }
    }

    fn text_of(&self, at: usize) -> &[u8] {
        let start = if at == 0 { 0 } else { self.ends[at - 1] };
        &self.hay[start..self.ends[at]]
    }
}

/// What is asked for, ready to be looked for in many texts.
#[derive(Debug)]
pub(super) struct Compiled<'a> {
    wants: &'a [Want],
    words: Vec<Finder<'a>>,
    names: Vec<(Name, Vec<Finder<'a>>)>,
}

impl<'a> Compiled<'a> {
    /// What is asked for; `names` are the letters that it asks of names, in small ones.
    pub(super) fn new(query: &'a Query, names: &'a [(Name, Vec<String>)]) -> Self {
        let names = names.iter();
        Self {
            wants: &query.wants,
            words: query.letters.iter().map(Finder::new).collect(),
            names: names
                .map(|(name, words)| (*name, words.iter().map(Finder::new).collect()))
                .collect(),
        }
    }

    /// Whether a line beside the base is what is asked for.
    pub(super) fn is(&self, text: &Text, facts: &Facts) -> bool {
        let has = |word: &Finder<'_>| word.find(text.letters.as_bytes()).is_some();
        self.wants.iter().all(|want| want.holds(facts))
            && self.words.iter().all(has)
            && (self.names.iter()).all(|(name, words)| {
                let mut words = words.iter();
                words.any(|word| word.find(text.name(*name)).is_some())
            })
    }
}

fn class(byte: u8) -> usize {
    match byte {
        b'a'..=b'z' => usize::from(byte - b'a'),
        b'0'..=b'9' => usize::from(byte - b'0') + 26,
        _ => OTHER,
    }
}
