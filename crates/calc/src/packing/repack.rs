//! Improvement of a plan: a few electrodes are emptied and filled anew, over and over.

use alloc::vec::Vec;

use super::{grid::Grid, group::Group, lot::Lot, refill::Refill};
use crate::dice::Dice;
use crate::stop::Stop;

/// Holes up to which electrodes are repacked one by one.
const MOST_HOLES: u64 = 5_000;

/// A kick of more holes than this counts as several.
const HOLES_A_KICK: u64 = 32;

/// Tries `kicks` times to fill two to four electrodes anew; ends early at `enough` new electrodes, and
/// with none where it is stopped.
///
/// Accepted is what takes fewer electrodes, or as many with the sum of squared consumption no
/// smaller: that makes full electrodes fuller and empty ones emptier, until one is not needed.
pub(super) fn repack(
    lot: &Lot,
    groups: Vec<Group>,
    enough: u64,
    kicks: u32,
    dice: &mut Dice,
    stop: Stop<'_>,
) -> Option<Vec<Group>> {
    let holes_in = |group: &Group| -> u64 {
        let each: u64 = group.holes.iter().map(|&(_, number)| number).sum();
        each * group.times
    };
    if groups.iter().map(holes_in).sum::<u64>() > MOST_HOLES {
        return Some(groups);
    }
    let mut packer = Packer {
        lot,
        grid: Grid::new(lot),
        refill: Refill::default(),
        bins: one_by_one(lot, &groups),
    };
    let mut left = u64::from(kicks);
    while left > 0 {
        let new = packer.bins.iter().filter(|bin| !bin.part_used).count();
        if new as u64 <= enough || packer.bins.len() < 2 {
            break;
        }
        if stop() {
            return None;
        }
        let holes = packer.kick(dice) as u64;
        left = left.saturating_sub(1 + holes / HOLES_A_KICK);
    }
    Some(together(lot, packer.bins))
}

/// One electrode with its holes in drilling order.
#[derive(Clone)]
struct Bin {
    part_used: bool,
    usable: i64,
    used: i64,
    holes: Vec<usize>,
}

impl Bin {
    fn new(lot: &Lot, part_used: bool, usable: i64, holes: Vec<usize>) -> Self {
        Bin {
            part_used,
            usable,
            used: holes.iter().map(|&item| lot.items[item].wear).sum(),
            holes,
        }
    }

    /// The measure of a good fill; doubles, since the squares of steps overflow.
    fn squared(&self) -> f64 {
        self.used as f64 * self.used as f64
    }
}

struct Packer<'a> {
    lot: &'a Lot,
    grid: Grid,
    refill: Refill,
    bins: Vec<Bin>,
}

impl Packer<'_> {
    /// Fills a few electrodes anew and keeps that if it is no worse; returns the number of holes in
    /// them.
    fn kick(&mut self, dice: &mut Dice) -> usize {
        let chosen = self.choose(dice);
        let mut pool: Vec<usize> = chosen
            .iter()
            .flat_map(|&at| self.bins[at].holes.iter().copied())
            .collect();
        pool.sort_unstable();
        let holes = pool.len();
        let mut filled: Vec<Bin> = Vec::new();
        let by_wear = dice.below(2) == 0;
        for &at in &chosen {
            if pool.is_empty() {
                break;
            }
            let empty = &self.bins[at];
            // Some electrode must take the hardest hole; the part-used one may be too short for it.
            let forced = (!empty.part_used)
                .then(|| self.hardest(&pool, by_wear))
                .flatten();
            let taken =
                self.refill
                    .fill(self.lot, self.grid, empty.usable, &mut pool, forced, dice);
            filled.push(Bin::new(self.lot, empty.part_used, empty.usable, taken));
        }
        // An empty part-used electrode stays in play.
        filled.retain(|bin| bin.part_used || !bin.holes.is_empty());
        let squared =
            |bins: &mut dyn Iterator<Item = &Bin>| -> f64 { bins.map(Bin::squared).sum() };
        let before = squared(&mut chosen.iter().map(|&at| &self.bins[at]));
        let after = squared(&mut filled.iter());
        let fewer = new_in(filled.iter()) < new_in(chosen.iter().map(|&at| &self.bins[at]));
        if pool.is_empty() && (fewer || after >= before) {
            self.replace(chosen, filled);
        }
        holes
    }

    /// Two to four electrodes, every other time with the emptiest; a part-used one comes first.
    fn choose(&self, dice: &mut Dice) -> Vec<usize> {
        let number = (2 + dice.below(3)).min(self.bins.len());
        let mut chosen = Vec::new();
        if dice.below(2) == 0 {
            let emptiest = (0..self.bins.len())
                .filter(|&at| !self.bins[at].part_used)
                .min_by_key(|&at| self.bins[at].used);
            chosen.extend(emptiest);
        }
        while chosen.len() < number {
            let at = dice.below(self.bins.len());
            if !chosen.contains(&at) {
                chosen.push(at);
            }
        }
        chosen.sort_by_key(|&at| !self.bins[at].part_used);
        chosen
    }

    /// Where in the pool the hole is that is hardest to place.
    fn hardest(&self, pool: &[usize], by_wear: bool) -> Option<usize> {
        (0..pool.len()).max_by_key(|&at| {
            let item = &self.lot.items[pool[at]];
            item.wear + if by_wear { 0 } else { item.reach }
        })
    }

    fn replace(&mut self, mut chosen: Vec<usize>, filled: Vec<Bin>) {
        chosen.sort_unstable();
        for at in chosen.into_iter().rev() {
            self.bins.swap_remove(at);
        }
        self.bins.extend(filled);
    }
}

fn new_in<'a>(bins: impl Iterator<Item = &'a Bin>) -> usize {
    bins.filter(|bin| !bin.part_used).count()
}

/// Groups taken apart; an unused part-used electrode is put back in play.
fn one_by_one(lot: &Lot, groups: &[Group]) -> Vec<Bin> {
    let part_used = Group::part_used(lot).filter(|_| !groups.iter().any(|group| group.part_used));
    let mut bins = Vec::new();
    for group in groups.iter().chain(&part_used) {
        let mut holes = Vec::new();
        for &(item, number) in &group.holes {
            holes.extend(core::iter::repeat_n(item, number as usize));
        }
        let bin = Bin::new(lot, group.part_used, group.usable, holes);
        bins.extend(core::iter::repeat_n(bin, group.times as usize));
    }
    bins
}

/// Electrodes with the same holes put together again.
fn together(lot: &Lot, mut bins: Vec<Bin>) -> Vec<Group> {
    bins.retain(|bin| !bin.holes.is_empty());
    bins.sort_by(|left, right| {
        (!left.part_used, &left.holes).cmp(&(!right.part_used, &right.holes))
    });
    let mut groups: Vec<Group> = Vec::new();
    for bin in bins {
        let mut group = Group {
            part_used: bin.part_used,
            usable: bin.usable,
            ..Group::empty(1, lot)
        };
        for item in bin.holes {
            group.add(item, 1, lot);
        }
        match groups.last_mut() {
            Some(last) if last.part_used == group.part_used && last.holes == group.holes => {
                last.times += 1;
            }
            _ => groups.push(group),
        }
    }
    groups
}

#[cfg(test)]
mod tests {
    use super::super::first_fit::{best_of_all, needed};
    use super::super::samples::{fits, lot, strewn};
    use super::*;
    use crate::stop::never;

    /// Holes of a plan by item; on each electrode they fit.
    fn drilled(lot: &Lot, groups: &[Group]) -> Vec<u64> {
        let mut drilled = alloc::vec![0; lot.items.len()];
        for group in groups {
            let mut numbers = alloc::vec![0; lot.items.len()];
            for &(item, number) in &group.holes {
                numbers[item] = number;
                drilled[item] += number * group.times;
            }
            let usable = if group.part_used {
                lot.part
            } else {
                Some(lot.full)
            };
            assert_eq!(Some(group.usable), usable);
            assert!(fits(lot, group.usable, &numbers), "{group:?} on {lot:?}");
        }
        drilled
    }

    /// Whatever was kicked about, every hole is drilled once, and no more electrodes are taken.
    #[test]
    fn no_hole_is_lost_and_no_electrode_is_added() {
        let mut dice = Dice::new(43);
        for round in 0..60 {
            let mut lot = strewn(&mut dice, 3 + round % 6);
            if round % 3 == 0 {
                lot.part = Some(lot.full / 2);
            }
            let asked: Vec<u64> = lot.items.iter().map(|item| item.count).collect();
            let before = best_of_all(&lot);
            assert_eq!(drilled(&lot, &before), asked);
            let Some(after) = repack(&lot, before.clone(), 0, 40, &mut dice, &never) else {
                panic!("nobody stopped it");
            };
            assert_eq!(drilled(&lot, &after), asked);
            assert!(needed(&after) <= needed(&before));
            // Alike ones are told together, the part-used one first.
            let mut sets: Vec<_> = after
                .iter()
                .map(|group| (!group.part_used, &group.holes))
                .collect();
            assert!(sets.iter().skip(1).all(|(new, _)| *new));
            sets.sort_unstable();
            assert!(sets.windows(2).all(|pair| pair[0] != pair[1]), "{sets:?}");
        }
    }

    /// Two of 6 with two of 3, and two of 5 with two of 4: packed badly on three electrodes of 18, which
    /// two take exactly. Enough kicks find it, and once they are enough nobody is kicked any more.
    #[test]
    fn kicks_find_the_fewer() {
        let lot = lot(18, None, &[(0, 6, 2), (0, 5, 2), (0, 4, 2), (0, 3, 2)]);
        let bad = |holes: &[(usize, u64)]| {
            let mut group = Group::empty(1, &lot);
            for &(item, number) in holes {
                group.add(item, number, &lot);
            }
            group
        };
        let before = alloc::vec![
            bad(&[(0, 2), (2, 1)]),
            bad(&[(1, 2), (3, 2)]),
            bad(&[(2, 1)])
        ];
        let kicked = |enough, kicks| {
            let mut dice = Dice::new(1);
            repack(&lot, before.clone(), enough, kicks, &mut dice, &never)
                .map(|after| needed(&after))
        };
        assert_eq!(kicked(2, 200), Some(2));
        assert_eq!(kicked(3, 200), Some(3));
        assert_eq!(kicked(2, 0), Some(3));
    }

    /// A kick of few holes is one of those that may be taken; one of 64 and more counts three.
    #[test]
    fn kicks_are_counted_by_their_holes() {
        let asked = |holes: u64, kicks: u32| {
            // Two electrodes of half the holes each; one could hold a hole less than all of them.
            let lot = lot(holes as i64 - 1, None, &[(0, 1, holes)]);
            let mut half = Group::empty(2, &lot);
            half.add(0, holes / 2, &lot);
            let times = core::cell::Cell::new(0);
            let stop = || {
                times.set(times.get() + 1);
                false
            };
            let found = repack(&lot, alloc::vec![half], 1, kicks, &mut Dice::new(1), &stop);
            assert!(found.is_some());
            times.get()
        };
        assert_eq!(asked(10, 60), 60);
        assert_eq!(asked(70, 60), 20);
        assert_eq!(asked(70, 61), 21);
    }

    /// 5,000 holes are repacked, two more are not.
    #[test]
    fn large_lots_are_left_as_they_are() {
        let asked = |electrodes: u64| {
            let lot = lot(3, None, &[(0, 1, 2 * electrodes)]);
            let mut plan = Group::empty(electrodes, &lot);
            plan.add(0, 2, &lot);
            let times = core::cell::Cell::new(0);
            let stop = || {
                times.set(times.get() + 1);
                false
            };
            let found = repack(&lot, alloc::vec![plan], 1, 3, &mut Dice::new(1), &stop);
            assert!(found.is_some());
            times.get()
        };
        assert_eq!([asked(2500), asked(2501)], [3, 0]);
    }

    /// The emptiest electrode among those chosen every other time, two to four of them, none twice, the
    /// part-used one first.
    #[test]
    fn two_to_four_are_chosen() {
        let lot = lot(18, Some(9), &[(0, 6, 9)]);
        let mut bins: Vec<Bin> = (0..8)
            .map(|at| Bin::new(&lot, false, 18, alloc::vec![0; 1 + (at != 5) as usize]))
            .collect();
        bins.insert(3, Bin::new(&lot, true, 9, Vec::new()));
        let packer = Packer {
            lot: &lot,
            grid: Grid::new(&lot),
            refill: Refill::default(),
            bins,
        };
        let mut dice = Dice::new(47);
        let (mut numbers, mut emptiest) = ([0; 5], 0);
        for _ in 0..600 {
            let chosen = packer.choose(&mut dice);
            numbers[chosen.len()] += 1;
            emptiest += u32::from(chosen.contains(&6));
            let mut once = chosen.clone();
            once.sort_unstable();
            once.dedup();
            assert_eq!(once.len(), chosen.len());
            assert!(!chosen[1..].contains(&3), "{chosen:?}");
        }
        assert_eq!(numbers[..2], [0, 0]);
        assert!(numbers[2..].iter().all(|&times| times > 150), "{numbers:?}");
        // Half of 600, and a third of the other half.
        assert!((350..450).contains(&emptiest), "{emptiest}");
    }

    /// Of 4 beyond 9, 6 beyond 2 and 5: the 6 by wear alone, the 4 with its reach.
    #[test]
    fn the_hardest_by_wear_or_with_its_reach() {
        let lot = lot(18, None, &[(9, 4, 1), (2, 6, 1), (0, 5, 1)]);
        let packer = Packer {
            lot: &lot,
            grid: Grid::new(&lot),
            refill: Refill::default(),
            bins: Vec::new(),
        };
        assert_eq!(packer.hardest(&[0, 1, 2], true), Some(1));
        assert_eq!(packer.hardest(&[0, 1, 2], false), Some(0));
        assert_eq!(packer.hardest(&[1, 2], false), Some(0));
        assert_eq!(packer.hardest(&[], true), None);
    }
}
