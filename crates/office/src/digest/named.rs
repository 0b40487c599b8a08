//! One name of many lines: each different one is kept once, so that few are looked through where
//! somebody asks for it, and its place tells how lines are sorted by it.

use std::collections::BTreeMap;

use memchr::memmem::Finder;

/// A name of lines, in small letters.
#[derive(Debug, Default)]
pub(super) struct Named {
    /// The different names, rising.
    names: Vec<Box<[u8]>>,
    /// Which of them each line has.
    of: Vec<u32>,
}

impl Named {
    /// The names of lines in their order.
    pub(super) fn new<'a>(of_lines: impl Iterator<Item = &'a [u8]>) -> Self {
        let mut first_seen: BTreeMap<Box<[u8]>, u32> = BTreeMap::new();
        let mut of = Vec::new();
        for name in of_lines {
            let next = u32::try_from(first_seen.len()).unwrap_or(u32::MAX);
            of.push(match first_seen.get(name) {
                Some(at) => *at,
                None => *first_seen.entry(name.into()).or_insert(next),
            });
        }
        let mut risen = vec![0; first_seen.len()];
        for (rising, seen) in (0_u32..).zip(first_seen.values()) {
            risen[*seen as usize] = rising;
        }
        for at in &mut of {
            *at = risen[*at as usize];
        }
        let names = first_seen.into_keys().collect();
        Self { names, of }
    }

    /// The name of a line.
    pub(super) fn name(&self, line: usize) -> &[u8] {
        &self.names[self.of[line] as usize]
    }

    /// The place of a line's name among them all; none where it has no name.
    pub(super) fn place(&self, line: usize) -> Option<u64> {
        let at = self.of[line];
        (!self.names[at as usize].is_empty()).then_some(u64::from(at))
    }

    /// Which lines have any of these letters in their name.
    pub(super) fn with(&self, any: &[Finder<'_>]) -> impl Fn(usize) -> bool {
        let names = self.names.iter();
        let is = |name: &[u8]| any.iter().any(|letters| letters.find(name).is_some());
        let has: Vec<bool> = names.map(|name| is(name)).collect();
        move |line| has[self.of[line] as usize]
    }
}
