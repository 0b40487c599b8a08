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
