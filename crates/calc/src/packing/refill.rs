//! One electrode filled as far as it goes from a pool of holes.

use alloc::vec::Vec;

use super::{grid::Grid, lot::Lot};
use crate::dice::Dice;

/// Reachable lengths, row by row as holes are offered; kept between calls to spare the allocator.
#[derive(Default)]
pub(super) struct Refill {
    rows: Vec<u64>,
}

impl Refill {
    /// Takes holes out of the pool so that the electrode is used up as far as possible.
    ///
    /// `pool` holds items in drilling order; the hole at `forced` is always taken. Which of several
    /// sets as long is taken is left to chance. Bit c of row i says: some of the first i holes
    /// consume just c cells and are all drilled in order within their limits.
    pub(super) fn fill(
        &mut self,
        lot: &Lot,
        grid: Grid,
        usable: i64,
        pool: &mut Vec<usize>,
        forced: Option<usize>,
        dice: &mut Dice,
    ) -> Vec<usize> {
        let words = grid.down(usable) / 64 + 1;
        self.rows.clear();
        self.rows.resize((pool.len() + 1) * words, 0);
        self.rows[0] = 1;
        for (at, &item) in pool.iter().enumerate() {
            let (before, after) = self.rows[at * words..(at + 2) * words].split_at_mut(words);
            if forced != Some(at) {
                after.copy_from_slice(before);
            }
            if let Some(limit) = limit(lot, grid, usable, item) {
                add_shifted(before, after, grid.up(lot.items[item].wear), limit);
            }
        }
        self.trace(lot, grid, words, usable, pool, forced, dice)
    }

    /// The longest reachable length, every other time a little less: a set that is not quite the
    /// longest may leave better company for the rest.
    fn target(last: &[u64], dice: &mut Dice) -> usize {
        let longest = highest(last, usize::MAX).unwrap_or(0);
        let less = if dice.below(2) == 0 {
            0
        } else {
            let share = 2 + dice.below(6);
            dice.below((longest >> share) + 1)
        };
        highest(last, longest - less).unwrap_or(longest)
    }

    /// Walks back from the chosen length.
    #[expect(
        clippy::too_many_arguments,
        reason = "the second half of `fill`, with its arguments"
    )]
    fn trace(
        &self,
        lot: &Lot,
        grid: Grid,
        words: usize,
        usable: i64,
        pool: &mut Vec<usize>,
        forced: Option<usize>,
        dice: &mut Dice,
    ) -> Vec<usize> {
        let mut length = Self::target(&self.rows[pool.len() * words..], dice);
        let reachable = |row: usize, length: usize| {
            self.rows[row * words + length / 64] >> (length % 64) & 1 == 1
        };
        let mut taken = Vec::new();
        for at in (0..pool.len()).rev() {
            let item = pool[at];
            let wear = grid.up(lot.items[item].wear);
            let can_take = limit(lot, grid, usable, item).is_some_and(|limit| length <= limit)
                && wear <= length
                && reachable(at, length - wear);
            let can_skip = forced != Some(at) && reachable(at, length);
            if can_take && (!can_skip || dice.below(2) == 0) {
                taken.push(item);
                pool.remove(at);
                length -= wear;
            }
        }
        taken.reverse();
        taken
    }
}

/// The highest bit set that is no higher than `most`.
fn highest(row: &[u64], most: usize) -> Option<usize> {
    let (top, bits) = ((most / 64).min(row.len() - 1), most % 64);
    let mask = if most / 64 < row.len() {
        u64::MAX >> (63 - bits)
    } else {
        u64::MAX
    };
    let words = (0..=top)
        .rev()
        .map(|at| (at, if at == top { row[at] & mask } else { row[at] }));
    let (at, word) = { words }.find(|&(_, word)| word != 0)?;
    Some(at * 64 + 63 - word.leading_zeros() as usize)
}

/// Cells that may be consumed when the item's hole is done; none if it can't be reached at all.
fn limit(lot: &Lot, grid: Grid, usable: i64, item: usize) -> Option<usize> {
    let spare = usable - lot.items[item].reach;
    (spare >= 0).then(|| grid.down(spare))
}

/// Adds every length of `from`, longer by `shift`, that is no longer than `limit`.
fn add_shifted(from: &[u64], into: &mut [u64], shift: usize, limit: usize) {
    let (words, bits) = (shift / 64, shift % 64);
    let last = limit / 64;
    for at in words..=last {
        let mut word = from[at - words] << bits;
        if bits > 0 && at > words {
            word |= from[at - words - 1] >> (64 - bits);
        }
        if at == last && limit % 64 < 63 {
            word &= (1 << (limit % 64 + 1)) - 1;
        }
        into[at] |= word;
    }
}

#[cfg(test)]
mod tests {
    use super::super::samples::{fits, lot, sets, strewn};
    use super::*;

    fn numbers(lot: &Lot, holes: &[usize]) -> Vec<u64> {
        let mut numbers = alloc::vec![0; lot.items.len()];
        for &item in holes {
            numbers[item] += 1;
        }
        numbers
    }

    fn worn(lot: &Lot, numbers: &[u64]) -> i64 {
        let pairs = lot.items.iter().zip(numbers);
        pairs.map(|(item, &number)| item.wear * number as i64).sum()
    }

    /// What is taken fits, has the forced hole in it and leaves the pool; it is never longer than the
    /// longest set, often as long, and sometimes shorter where there are shorter ones.
    #[test]
    fn an_electrode_is_filled_as_far_as_it_goes() {
        let mut dice = Dice::new(37);
        let mut refill = Refill::default();
        let (mut longest_times, mut shorter_times) = (0, 0);
        for round in 0..400 {
            let lot = strewn(&mut dice, 1 + round % 5);
            let grid = Grid::new(&lot);
            let all: Vec<usize> = (0..lot.items.len())
                .flat_map(|item| core::iter::repeat_n(item, lot.items[item].count as usize))
                .collect();
            let forced = (dice.below(2) == 0).then(|| dice.below(all.len()));
            let has_forced = |set: &&Vec<u64>| forced.is_none_or(|at| set[all[at]] > 0);
            let of_lot = sets(&lot);
            let possible = of_lot.iter().filter(|set| fits(&lot, lot.full, set));
            let longest = possible.filter(has_forced).map(|set| worn(&lot, set)).max();
            let mut pool = all.clone();
            let taken = refill.fill(&lot, grid, lot.full, &mut pool, forced, &mut dice);
            let numbers = numbers(&lot, &taken);
            assert!(fits(&lot, lot.full, &numbers), "{taken:?} on {lot:?}");
            assert!(has_forced(&&numbers), "{taken:?}, {forced:?}");
            let mut together: Vec<usize> = taken.iter().chain(&pool).copied().collect();
            together.sort_unstable();
            assert_eq!(together, all);
            assert!(taken.is_sorted() && pool.is_sorted());
            let found = worn(&lot, &numbers);
            assert!(Some(found) <= longest, "{found} of {longest:?}");
            longest_times += u32::from(Some(found) == longest);
            shorter_times += u32::from(Some(found) < longest);
        }
        assert!(
            longest_times > 200 && shorter_times > 20,
            "{longest_times}, {shorter_times}"
        );
    }

    /// Of forty holes of a step each every length can be had: every other refill takes all, the others
    /// stay at most a quarter below.
    #[test]
    fn some_are_filled_a_little_less() {
        let lot = lot(40, None, &[(0, 1, 40)]);
        let mut dice = Dice::new(53);
        let filled: Vec<usize> = (0..400)
            .map(|_| {
                let mut pool = alloc::vec![0; 40];
                let grid = Grid::new(&lot);
                Refill::default()
                    .fill(&lot, grid, lot.full, &mut pool, None, &mut dice)
                    .len()
            })
            .collect();
        assert!(filled.iter().all(|&holes| (30..=40).contains(&holes)));
        let whole = filled.iter().filter(|&&holes| holes == 40).count();
        assert!((200..360).contains(&whole), "{whole}");
        assert!(filled.iter().any(|&holes| holes <= 32));
    }

    /// A row of bits by the book: what was reachable, moved on by a hole's wear, up to its limit.
    #[test]
    fn lengths_are_added_up_to_the_limit() {
        let mut dice = Dice::new(41);
        let bit = |row: &[u64], at: usize| row[at / 64] >> (at % 64) & 1 == 1;
        for words in [1, 2, 3] {
            for _ in 0..300 {
                let all = words * 64;
                let from: Vec<u64> = (0..words).map(|_| dice.bits() & dice.bits()).collect();
                let before: Vec<u64> = (0..words)
                    .map(|_| dice.bits() & dice.bits() & dice.bits())
                    .collect();
                let (shift, limit) = (dice.below(all), dice.below(all));
                let mut into = before.clone();
                add_shifted(&from, &mut into, shift, limit);
                for at in 0..all {
                    let moved = at >= shift && at <= limit && bit(&from, at - shift);
                    assert_eq!(
                        bit(&into, at),
                        bit(&before, at) || moved,
                        "{at}, {shift}, {limit}"
                    );
                }
                let most = dice.below(all + 70);
                let by_hand = (0..all.min(most + 1)).rev().find(|&at| bit(&from, at));
                assert_eq!(highest(&from, most), by_hand, "{most}");
            }
            assert_eq!(highest(&alloc::vec![0; words], usize::MAX), None);
            assert_eq!(
                highest(&alloc::vec![u64::MAX; words], usize::MAX),
                Some(words * 64 - 1)
            );
        }
    }
}
