//! Finding jobs as one types: every word must stand somewhere in a job's text.
//!
//! Most lines lie in a base that never changes; those that came later are few and looked through one
//! by one, and those of the base that are other ones by now are left out. Once they are no longer few
//! a new base is made of all of them.

use std::sync::Arc;

use super::base::{Base, Words, text};
use super::line::ShelfLine;

/// Lines beside the base, and of the base that are left out, before a new one pays.
const FEW: usize = 400;

/// The lines of a shelf, ready to be searched.
#[derive(Clone, Debug, Default)]
pub struct Index {
    /// The lines, the newest number first; they are changed by [`Index::put`] and its like alone.
    pub lines: Vec<Arc<ShelfLine>>,
    base: Arc<Base>,
    /// Places in the base whose lines are gone or other ones by now, rising.
    stale: Vec<u32>,
    /// Lines beside the base, in the list's order.
    fresh: Vec<Fresh>,
}

/// A line beside the base.
#[derive(Clone, Debug)]
struct Fresh {
    line: Arc<ShelfLine>,
    /// How many lines of the base come before it.
    before: u32,
    /// What can be found of it.
    text: String,
}

impl Index {
    /// Makes the index of lines in any order; of two that are the same line the later one counts.
    #[must_use]
    pub fn new(lines: Vec<Arc<ShelfLine>>) -> Self {
        Self::of_sorted(sorted(lines))
    }

    fn of_sorted(lines: Vec<Arc<ShelfLine>>) -> Self {
        Self {
            base: Arc::new(Base::new(lines.clone())),
            lines,
            stale: Vec::new(),
            fresh: Vec::new(),
        }
    }

    /// Puts a line in, in place of the same line as it was before. It takes far less than a new index;
    /// [`Index::settle`] keeps it so.
    pub fn put(&mut self, line: Arc<ShelfLine>) {
        match self.place(&line) {
            Ok(at) => self.lines[at] = Arc::clone(&line),
            Err(at) => self.lines.insert(at, Arc::clone(&line)),
        }
        let before = self.leave_out(&line);
        let text = text(&line);
        let fresh = Fresh { line, before, text };
        match self.fresh_place(&fresh.line) {
            Ok(at) => self.fresh[at] = fresh,
            Err(at) => self.fresh.insert(at, fresh),
        }
    }

    /// Takes a line away.
    pub fn take_away(&mut self, line: &ShelfLine) {
        let Ok(at) = self.place(line) else { return };
        self.lines.remove(at);
        self.leave_out(line);
        if let Ok(at) = self.fresh_place(line) {
            self.fresh.remove(at);
        }
    }

    /// Makes it the index of these lines; what stayed the same line costs next to nothing.
    pub fn follow(&mut self, lines: Vec<Arc<ShelfLine>>) {
        let lines = sorted(lines);
        let (came, went) = differences(&self.lines, &lines);
        if came.len() + went.len() > FEW {
            *self = Self::of_sorted(lines);
            return;
        }
        for line in went {
            self.take_away(&line);
        }
        for line in came {
            self.put(line);
        }
        self.settle();
    }

    /// Makes a new base where too much lies beside the old one; says whether it did. This takes as
    /// long as a new index, so it is nothing for the window's thread.
    pub fn settle(&mut self) -> bool {
        let many = self.fresh.len() + self.stale.len() > FEW;
        if many {
            *self = Self::of_sorted(std::mem::take(&mut self.lines));
        }
        many
    }

    /// The lines that have every word of the text, the newest number first, by their place in
    /// [`Index::lines`]; all of them where nothing is typed.
    #[must_use]
    pub fn find(&self, typed: &str) -> Vec<u32> {
        let typed = typed.to_lowercase();
        let words = Words::new(&typed);
        let mut found = self.base.find(&words);
        for at in &self.stale {
            found.take_out(*at as usize);
        }
        let found = found.numbers();
        if self.stale.is_empty() && self.fresh.is_empty() {
            return found;
        }
        let has = |fresh: &Fresh| words.stand_in(&fresh.text);
        self.places(&found, &self.fresh.iter().map(has).collect::<Vec<_>>())
    }

    /// Places in the list of what was found in the base and beside it.
    fn places(&self, found: &[u32], beside: &[bool]) -> Vec<u32> {
        let mut places = Vec::with_capacity(found.len());
        let mut fresh = self.fresh.iter().zip(beside).peekable();
        let mut stale = self.stale.iter().peekable();
        // How many lines came in before a place of the base, and how many went.
        let (mut came, mut went) = (0, 0);
        for at in found.iter().copied().chain([u32::MAX]) {
            while let Some((line, has)) = fresh.next_if(|(line, _)| line.before <= at) {
                while stale.next_if(|gone| **gone < line.before).is_some() {
                    went += 1;
                }
                if *has {
                    places.push(line.before + came - went);
                }
                came += 1;
            }
            while stale.next_if(|gone| **gone < at).is_some() {
                went += 1;
            }
            if at != u32::MAX {
                places.push(at + came - went);
            }
        }
        places
    }

    /// The line of the job that has a number.
    #[must_use]
    pub fn by_number(&self, number: &str) -> Option<&Arc<ShelfLine>> {
        // The newest stands first, so the order is a falling one; what only has a job's name comes
        // right behind the job.
        let at = self
            .lines
            .partition_point(|line| line.name.as_str() > number);
        let line = self.lines.get(at)?;
        (line.name == number && line.job.is_some()).then_some(line)
    }

    fn place(&self, line: &ShelfLine) -> Result<usize, usize> {
        self.lines.binary_search_by(|there| there.order(line))
    }

    fn fresh_place(&self, line: &ShelfLine) -> Result<usize, usize> {
        self.fresh.binary_search_by(|there| there.line.order(line))
    }

    /// Leaves out the same line of the base, where it has it; how many of the base come before.
    fn leave_out(&mut self, line: &ShelfLine) -> u32 {
        let at = self.base.lines.binary_search_by(|there| there.order(line));
        let place = |at: usize| u32::try_from(at).unwrap_or(u32::MAX);
        match at {
            Ok(at) => {
                if let Err(to) = self.stale.binary_search(&place(at)) {
                    self.stale.insert(to, place(at));
                }
                place(at)
            }
            Err(at) => place(at),
        }
    }
}

/// Lines in the list's order, each once.
fn sorted(mut lines: Vec<Arc<ShelfLine>>) -> Vec<Arc<ShelfLine>> {
    // Of equal ones the later stands behind after a stable sort; the first of the reversed is kept.
    lines.reverse();
    lines.sort_by(|a, b| a.order(b));
    lines.dedup_by(|a, b| a.order(b).is_eq());
    lines
}

/// What has to be put into the first list, and what has to be taken away, to get the second one.
fn differences(
    before: &[Arc<ShelfLine>],
    now: &[Arc<ShelfLine>],
) -> (Vec<Arc<ShelfLine>>, Vec<Arc<ShelfLine>>) {
    let (mut came, mut went) = (Vec::new(), Vec::new());
    let mut before = before.iter().peekable();
    for line in now {
        // Nearly all lines are the very same, and of those nothing need be read.
        if before.next_if(|there| Arc::ptr_eq(there, line)).is_some() {
            continue;
        }
        while let Some(gone) = before.next_if(|there| there.order(line).is_lt()) {
            went.push(Arc::clone(gone));
        }
        let there = before.next_if(|there| there.order(line).is_eq());
        if there.is_none_or(|there| !Arc::ptr_eq(there, line)) {
            came.push(Arc::clone(line));
        }
    }
    went.extend(before.cloned());
    (came, went)
}
