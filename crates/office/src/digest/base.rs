//! The greater part of an index: lines that never change, with their sets.
//!
//! For each pair of neighboring letters there is a set of the lines that have it; the sets of a
//! word's pairs, cut with each other, leave few lines, and only those are read.

use std::sync::Arc;

use memchr::memmem::Finder;

use super::bits::Bits;
use super::line::ShelfLine;
use super::summary::Summary;

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
            all: Bits::none(count),
            single: vec![Bits::none(count); CLASSES],
            pairs: vec![Bits::none(count); CLASSES * CLASSES],
            lines: Vec::new(),
        };
        for (at, line) in lines.iter().enumerate() {
            let start = base.hay.len();
            base.hay.extend(text(line).bytes());
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
        base
    }

    /// The lines that have every word, by their place here.
    pub(super) fn find(&self, words: &Words<'_>) -> Bits {
        let mut found = self.all.clone();
        for word in &words.0 {
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
        for word in &words.0 {
            let needle = word.needle();
            // The sets say exactly which lines have one or two letters or digits.
            if needle.len() > 2 || needle.iter().any(|b| class(*b) == OTHER) {
                found.keep_if(|at| word.find(self.text_of(at)).is_some());
            }
        }
        found
    }

    fn text_of(&self, at: usize) -> &[u8] {
        let start = if at == 0 { 0 } else { self.ends[at - 1] };
        &self.hay[start..self.ends[at]]
    }
}

/// The words that somebody typed.
#[derive(Debug)]
pub(super) struct Words<'a>(Vec<Finder<'a>>);

impl<'a> Words<'a> {
    /// The words of a text in small letters.
    pub(super) fn new(lower: &'a str) -> Self {
        Self(lower.split_whitespace().map(Finder::new).collect())
    }

    /// Whether a text has all of them.
    pub(super) fn stand_in(&self, text: &str) -> bool {
        let has = |word: &Finder<'_>| word.find(text.as_bytes()).is_some();
        self.0.iter().all(has)
    }
}

fn class(byte: u8) -> usize {
    match byte {
        b'a'..=b'z' => usize::from(byte - b'a'),
        b'0'..=b'9' => usize::from(byte - b'0') + 26,
        _ => OTHER,
    }
}

/// What can be found of a line, in small letters.
pub(super) fn text(line: &ShelfLine) -> String {
    let Ok(digest) = &line.says else {
        return line.name.to_lowercase();
    };
    let Summary {
        customer,
        part,
        part_name,
        revision,
        drawing,
        material,
        references,
        notes,
        state,
        ..
    } = &digest.summary;
    let all = [
        &line.name, part, customer, part_name, revision, drawing, material, references, state,
        notes,
    ];
    all.map(String::as_str).join("\n").to_lowercase()
}
