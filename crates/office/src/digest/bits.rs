//! Sets of lines of the shelf, one bit each.

/// A set of numbers below a size.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Bits(Vec<u64>);

impl Bits {
    /// An empty set of numbers below `size`.
    pub(super) fn none(size: usize) -> Self {
        Self(vec![0; size.div_ceil(64)])
    }

    /// Takes a number in.
    pub(super) fn put(&mut self, at: usize) {
        self.0[at / 64] |= 1 << (at % 64);
    }

    /// Takes a number out.
    pub(super) fn take_out(&mut self, at: usize) {
        self.0[at / 64] &= !(1 << (at % 64));
    }

    /// Leaves only what the other set has too.
    pub(super) fn keep(&mut self, other: &Self) {
        for (word, other) in self.0.iter_mut().zip(&other.0) {
            *word &= other;
        }
    }

    /// Leaves only the numbers that pass.
    pub(super) fn keep_if(&mut self, mut passes: impl FnMut(usize) -> bool) {
        for (at, word) in self.0.iter_mut().enumerate() {
            let mut left = *word;
            while left != 0 {
                let bit = left.trailing_zeros() as usize;
                left &= left - 1;
                if !passes(at * 64 + bit) {
                    *word &= !(1 << bit);
                }
            }
        }
    }

    /// Those of some numbers that it has, as they stand.
    pub(super) fn picked(&self, of: &[u32]) -> Vec<u32> {
        let mut picked = vec![0; of.len()];
        let mut count = 0;
        for at in of {
            // Written always, and kept where it is one: nothing is guessed by the processor.
            picked[count] = *at;
            count += (self.0[*at as usize / 64] >> (at % 64) & 1) as usize;
        }
        picked.truncate(count);
        picked
    }

    /// Its numbers, rising.
    pub(super) fn numbers(&self) -> Vec<u32> {
        let mut numbers = Vec::new();
        for (at, word) in self.0.iter().enumerate() {
            let mut left = *word;
            while left != 0 {
                let bit = left.trailing_zeros();
                left &= left - 1;
                numbers.push(u32::try_from(at).unwrap_or(u32::MAX / 64) * 64 + bit);
            }
        }
        numbers
    }
}
