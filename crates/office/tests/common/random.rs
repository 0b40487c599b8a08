//! A generator of numbers that is the same everywhere.

/// The multiplicative congruential generator of Park and Miller (1988).
pub struct Random(u64);

impl Random {
    pub const fn new(seed: u64) -> Self {
        Self(seed % 2_147_483_646 + 1)
    }

    /// A number below `below`.
    pub fn below(&mut self, below: usize) -> usize {
        self.0 = self.0 * 48_271 % 2_147_483_647;
        usize::try_from(self.0).expect("a small number") % below
    }

    /// Whether one of so many times.
    pub fn one_in(&mut self, times: usize) -> bool {
        self.below(times) == 0
    }

    /// One of several.
    pub fn pick<'a, T>(&mut self, from: &'a [T]) -> &'a T {
        &from[self.below(from.len())]
    }
}
