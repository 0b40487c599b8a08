//! Finding jobs as one types: every word must stand somewhere in a job's text.
//!
//! For each pair of neighboring letters there is a set of the jobs that have it; the sets of a
//! word's pairs, cut with each other, leave few jobs, and only those are read.

use std::sync::Arc;

use memchr::memmem::Finder;

use super::bits::Bits;
use super::scan::ShelfLine;
use super::summary::Summary;

/// Letters, digits, and one class for all else.
const CLASSES: usize = 37;
const OTHER: usize = CLASSES - 1;

/// The lines of a shelf, ready to be searched.
#[derive(Clone, Debug, Default)]
pub struct Index {
    /// The lines, the newest number first.
    pub lines: Vec<Arc<ShelfLine>>,
    /// What can be found of every line, one after the other.
    hay: Vec<u8>,
    ends: Vec<usize>,
    all: Bits,
    single: Vec<Bits>,
    pairs: Vec<Bits>,
}

impl Index {
    /// Makes the index of lines in any order.
    #[must_use]
    pub fn new(mut lines: Vec<Arc<ShelfLine>>) -> Self {
        lines.sort_by(|a, b| b.number.cmp(&a.number));
        let count = lines.len();
        let mut index = Self {
            hay: Vec::with_capacity(count * 120),
            ends: Vec::with_capacity(count),
            all: Bits::none(count),
            single: vec![Bits::none(count); CLASSES],
            pairs: vec![Bits::none(count); CLASSES * CLASSES],
            lines: Vec::new(),
        };
        for (at, line) in lines.iter().enumerate() {
            let start = index.hay.len();
            index.hay.extend(text(line).to_lowercase().bytes());
            index.ends.push(index.hay.len());
            index.all.put(at);
            let classes: Vec<usize> = index.hay[start..].iter().map(|b| class(*b)).collect();
            for class in &classes {
                index.single[*class].put(at);
            }
            for pair in classes.windows(2) {
                index.pairs[pair[0] * CLASSES + pair[1]].put(at);
            }
        }
        index.lines = lines;
        index
    }

    /// The lines that have every word of the text, the newest number first, by their place in
    /// [`Index::lines`]; all of them where nothing is typed.
    #[must_use]
    pub fn find(&self, typed: &str) -> Vec<u32> {
        let mut found = self.all.clone();
        let typed = typed.to_lowercase();
        let words: Vec<&[u8]> = typed.split_whitespace().map(str::as_bytes).collect();
        for word in &words {
            let classes: Vec<usize> = word.iter().map(|b| class(*b)).collect();
            if let [one] = classes[..] {
                found.keep(&self.single[one]);
            }
            for pair in classes.windows(2) {
                found.keep(&self.pairs[pair[0] * CLASSES + pair[1]]);
            }
        }
        for word in words {
            // The sets say exactly which jobs have one or two letters or digits.
            if word.len() > 2 || word.iter().any(|b| class(*b) == OTHER) {
                let finder = Finder::new(word);
                found.keep_if(|at| finder.find(self.text_of(at)).is_some());
            }
        }
        found.numbers()
    }

    /// The line of the job whose file has a number.
    #[must_use]
    pub fn by_number(&self, number: &str) -> Option<&Arc<ShelfLine>> {
        // The newest stands first, so the order is a falling one.
        let at = self
            .lines
            .binary_search_by(|line| number.cmp(line.number.as_str()));
        at.ok().map(|at| &self.lines[at])
    }

    fn text_of(&self, at: usize) -> &[u8] {
        let start = if at == 0 { 0 } else { self.ends[at - 1] };
        &self.hay[start..self.ends[at]]
    }
}

fn class(byte: u8) -> usize {
    match byte {
        b'a'..=b'z' => usize::from(byte - b'a'),
        b'0'..=b'9' => usize::from(byte - b'0') + 26,
        _ => OTHER,
    }
}

fn text(line: &ShelfLine) -> String {
    let Ok(Summary {
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
    }) = &line.says
    else {
        return line.number.clone();
    };
    [
        &line.number,
        part,
        customer,
        part_name,
        revision,
        drawing,
        material,
        references,
        state,
        notes,
    ]
    .map(String::as_str)
    .join("\n")
}
