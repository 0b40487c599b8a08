//! Finding jobs as one types, and their order.
//!
//! Most lines lie in a base that never changes; those that came later are few and looked through one
//! by one, and those of the base that are other ones by now are left out. Once they are no longer few
//! a new base is made of all of them.

use std::sync::Arc;

use super::base::{Base, Compiled};
use super::bits::Bits;
use super::facts::Facts;
use super::line::ShelfLine;
use super::query::Query;
use super::sort::{Sort, Sorted};
use super::text::{Name, Text};

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
    /// How many lines of the base come before it, in each of their orders.
    before: Vec<u32>,
    text: Text,
    facts: Facts,
}

impl Fresh {
    fn before(&self, sort: Sort) -> u32 {
        self.before[sort.index()]
    }

    fn sorted(&self) -> Sorted<'_> {
        Sorted {
            line: &self.line,
            facts: &self.facts,
            customer: self.text.name(Name::Customer),
        }
    }
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
        self.leave_out(&line);
        let mut fresh = Fresh {
            before: Vec::new(),
            text: Text::of(&line),
            facts: Facts::of(&line),
            line,
        };
        let before = |sort| self.base.before(fresh.sorted(), sort);
        fresh.before = Sort::all().map(before).collect();
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

    /// The lines that are what is asked for, as they are sorted, by their place in [`Index::lines`]; all
    /// of them where nothing is asked.
    #[must_use]
    pub fn find(&self, query: &Query, sort: Sort) -> Vec<u32> {
        let names = query.names();
        let asked = Compiled::new(query, &names);
        let mut found = self.base.find(&asked);
        for at in &self.stale {
            found.take_out(*at as usize);
        }
        let beside = self.fresh.iter();
        let beside: Vec<bool> = beside
            .map(|fresh| asked.is(&fresh.text, &fresh.facts))
            .collect();
        let is_settled = self.stale.is_empty() && self.fresh.is_empty();
        match (sort == Sort::default(), is_settled) {
            (true, true) => found.numbers(),
            (false, true) => found.picked(self.base.order(sort)),
            (_, false) => self.merged(&found, &beside, sort),
        }
    }

    /// Places in the list of what was found in the base and beside it, as they are sorted.
    fn merged(&self, found: &Bits, beside: &[bool], sort: Sort) -> Vec<u32> {
        let of_base = self.places_of_base();
        let order = self.base.order(sort);
        let mut places = Vec::with_capacity(order.len() + beside.len());
        let mut done = 0;
        for (before, place) in self.places_beside(beside, sort) {
            let picked = found.picked(&order[done..before]);
            places.extend(picked.iter().map(|at| of_base[*at as usize]));
            places.push(place);
            done = before;
        }
        let picked = found.picked(&order[done..]);
        places.extend(picked.iter().map(|at| of_base[*at as usize]));
        places
    }

    /// The place in the list of each line of the base; that of one that is left out means nothing.
    fn places_of_base(&self) -> Vec<u32> {
        let count = u32::try_from(self.base.lines.len()).unwrap_or(u32::MAX);
        let mut places = Vec::with_capacity(self.base.lines.len());
        let mut fresh = (self.fresh.iter())
            .map(|fresh| fresh.before(Sort::default()))
            .peekable();
        let mut stale = self.stale.iter().map(|gone| gone + 1).peekable();
        // How many lines came in before a place of the base, and how many went.
        let (mut came, mut went, mut at) = (0, 0, 0);
        while at < count {
            while fresh.next_if(|before| *before <= at).is_some() {
                came += 1;
            }
            while stale.next_if(|behind| *behind <= at).is_some() {
                went += 1;
            }
            let next = [fresh.peek(), stale.peek()].into_iter().flatten().min();
            let end = next.map_or(count, |next| *next.min(&count));
            places.extend((at..end).map(|at| at + came - went));
            at = end;
        }
        places
    }

    /// The lines beside the base that were found, sorted: before how many of the base's order each of
    /// them comes, and its place in the list.
    fn places_beside(&self, beside: &[bool], sort: Sort) -> Vec<(usize, u32)> {
        let mut stale = self.stale.iter().peekable();
        let mut went = 0;
        let mut found: Vec<(usize, Sorted<'_>, u32)> = Vec::new();
        for ((fresh, has), came) in self.fresh.iter().zip(beside).zip(0_u32..) {
            let in_list = fresh.before(Sort::default());
            while stale.next_if(|gone| **gone < in_list).is_some() {
                went += 1;
            }
            if *has {
                let before = fresh.before(sort) as usize;
                found.push((before, fresh.sorted(), in_list + came - went));
            }
        }
        found.sort_by(|one, other| {
            let before = one.0.cmp(&other.0);
            before.then_with(|| sort.compare(one.1, other.1))
        });
        let found = found.into_iter();
        found.map(|(before, _, place)| (before, place)).collect()
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

    /// Leaves out the same line of the base, where it has it.
    fn leave_out(&mut self, line: &ShelfLine) {
        let there = (self.base.lines).binary_search_by(|there| there.order(line));
        let place = there.map(|at| u32::try_from(at).unwrap_or(u32::MAX));
        if let Ok(place) = place
            && let Err(to) = self.stale.binary_search(&place)
        {
            self.stale.insert(to, place);
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
