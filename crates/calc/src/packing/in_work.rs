//! Electrodes in the order of the work: hole after hole as the parts are loaded, and a new one where
//! what is left no longer reaches.

use alloc::vec::Vec;

use super::lot::{millimeters, steps};
use super::terms::HoleKind;

/// Electrodes that are told one by one; what comes after them is counted.
const MOST_TOLD: usize = 400;

/// Holes alike that follow each other in the work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WorkHoles {
    /// Reach and consumption [mm], and how many.
    pub kind: HoleKind,
    /// Electrodes used up whole in each before the one that finishes it.
    pub whole: u32,
}

/// What each of so many parts gets before the next one is loaded.
#[derive(Clone, Debug, PartialEq)]
pub struct WorkStretch {
    /// Holes in the order in which they are drilled in one part.
    pub holes: Vec<WorkHoles>,
    /// Parts that follow each other.
    pub parts: u32,
}

/// One electrode of the work, or several alike that follow each other.
#[derive(Clone, Debug, PartialEq)]
pub struct WorkLoad {
    /// How many follow each other alike.
    pub times: u64,
    /// Stretches of the work with the holes drilled there, by the kinds' names, as they begin.
    pub holes: Vec<(usize, u32, u32)>,
    /// Length left to use after the last hole [mm].
    pub left_mm: f64,
}

/// What the work takes of one size of electrode.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct InWork {
    /// Electrodes that finish holes, and those used up whole before them.
    pub electrodes: u64,
    /// The first of them, as they follow each other.
    pub loads: Vec<WorkLoad>,
    /// Length left to use of the last one [mm]; 0 where none was taken.
    pub last_left_mm: f64,
}

/// Electrodes where holes are drilled in the order of the work.
///
/// Formula: a hole starts if `remaining >= reach + consume`, else a new electrode comes first; then
/// `remaining -= consume`. A hole that takes several electrodes uses up so many new ones whole first; one
/// that still reaches finishes it. What is left at the end of one stretch begins the next.
///
/// - `work`: stretches in their order; lengths [mm], 0 and up. A hole longer than the electrode takes
///   a new one each.
/// - `usable_mm`: usable length of a new electrode [mm], 0 and up.
/// - `most_steps`: how often the work may go on to other holes, 1 and up; where it goes on more often,
///   the number is carried on as it came to that far, rounded up.
///
/// Result: electrodes, what is drilled on each of the first 400 unlike ones, and what is left of the last
/// [mm].
///
/// Two parts of one deep and three shallow holes on 100 mm: 60 + 30 leave 70, three times 10 + 5 leave
/// 55, where the next deep one no longer starts.
///
/// ```
/// use quillbore_calc::packing::{HoleKind, WorkHoles, WorkStretch, in_work_order};
/// let hole = |id, reach_mm, consume_mm, count| WorkHoles {
///     kind: HoleKind { id, reach_mm, consume_mm, count },
///     whole: 0,
/// };
/// let part = vec![hole(1, 60.0, 30.0, 1), hole(2, 10.0, 5.0, 3)];
/// let used = in_work_order(&[WorkStretch { holes: part, parts: 2 }], 100.0, 1_000);
/// assert_eq!(used.electrodes, 2);
/// assert_eq!(used.loads.len(), 1);
/// assert_eq!((used.loads[0].times, used.loads[0].left_mm), (2, 55.0));
/// assert_eq!(used.loads[0].holes, [(0, 1, 1), (0, 2, 3)]);
/// assert_eq!(used.last_left_mm, 55.0);
/// ```
///
/// Source: the rule itself.
#[must_use]
pub fn in_work_order(work: &[WorkStretch], usable_mm: f64, most_steps: u64) -> InWork {
    let full = steps(usable_mm).unwrap_or(0);
    let mut going = Going {
        full,
        remaining: -1,
        on_it: Vec::new(),
        used: InWork::default(),
    };
    let in_part = |stretch: &WorkStretch| -> u64 {
        let counts = stretch
            .holes
            .iter()
            .map(|holes| u64::from(holes.kind.count));
        counts.sum()
    };
    let of_all = |stretch: &WorkStretch| in_part(stretch).saturating_mul(stretch.parts.into());
    let all: u64 = work.iter().map(of_all).fold(0, u64::saturating_add);
    let (mut done, mut gone_on) = (0_u64, 0_u64);
    'work: for (at, stretch) in work.iter().enumerate() {
        // One kind alone goes on from part to part.
        let (parts, times) = match stretch.holes.as_slice() {
            [_] => (1, u64::from(stretch.parts)),
            _ => (stretch.parts, 1),
        };
        for _ in 0..parts {
            for holes in &stretch.holes {
                let count = u64::from(holes.kind.count).saturating_mul(times);
                going.drill(at, holes, count);
                done = done.saturating_add(count);
                gone_on += 1;
            }
            if gone_on >= most_steps && done < all {
                break 'work;
            }
        }
    }
    going.used.last_left_mm = millimeters(going.remaining.max(0));
    going.change();
    if done < all && done > 0 {
        let each = going.used.electrodes as f64 / done as f64;
        going.used.electrodes = libm::ceil(each * all as f64) as u64;
    }
    going.used
}

/// The work as far as it has come.
struct Going {
    full: i64,
    /// What is left of the electrode in the chuck; below 0 where there is none.
    remaining: i64,
    /// What it has drilled.
    on_it: Vec<(usize, u32, u32)>,
    used: InWork,
}

impl Going {
    /// Drills so many holes of a kind in a stretch.
    fn drill(&mut self, stretch: usize, holes: &WorkHoles, mut count: u64) {
        let length = |mm: f64| steps(mm).unwrap_or(self.full);
        let (reach, wear) = (length(holes.kind.reach_mm), length(holes.kind.consume_mm));
        // Those used up whole go before the one that finishes, which may have drilled before.
        let whole = count.saturating_mul(holes.whole.into());
        self.put(whole, alloc::vec![(stretch, holes.kind.id, 1)], 0);
        while count > 0 {
            if self.remaining < reach + wear {
                self.change();
                self.remaining = self.full;
            }
            let fits = match wear {
                _ if self.remaining < reach + wear => 1,
                0 => count,
                wear => ((self.remaining - reach) / wear) as u64,
            };
            let run = fits.min(count);
            let new = self.on_it.is_empty() && self.remaining == self.full;
            self.note(stretch, holes.kind.id, run);
            self.remaining = (self.remaining - wear.saturating_mul(run as i64)).max(0);
            count -= run;
            // As many more as are filled alike go at once.
            let alike = if new && run == fits {
                count / fits.max(1)
            } else {
                0
            };
            if alike > 0 {
                // The last of them stays in the chuck.
                self.put(alike, self.on_it.clone(), self.remaining);
                count -= alike * fits;
            }
        }
    }

    fn note(&mut self, stretch: usize, id: u32, count: u64) {
        let count = u32::try_from(count).unwrap_or(u32::MAX);
        let mut known = self.on_it.iter_mut();
        match known.find(|(at, of, _)| (*at, *of) == (stretch, id)) {
            Some((.., sum)) => *sum = sum.saturating_add(count),
            None => self.on_it.push((stretch, id, count)),
        }
    }

    /// Takes the electrode out.
    fn change(&mut self) {
        if !self.on_it.is_empty() {
            let drilled = core::mem::take(&mut self.on_it);
            self.put(1, drilled, self.remaining.max(0));
        }
        self.remaining = -1;
    }

    /// Counts electrodes that drilled alike, and tells them where there is room.
    fn put(&mut self, times: u64, holes: Vec<(usize, u32, u32)>, left: i64) {
        if times == 0 {
            return;
        }
        self.used.electrodes = self.used.electrodes.saturating_add(times);
        let left_mm = millimeters(left);
        let room = self.used.loads.len() < MOST_TOLD;
        match self.used.loads.last_mut() {
            Some(last) if last.holes == holes && last.left_mm == left_mm => last.times += times,
            _ if room => self.used.loads.push(WorkLoad {
                times,
                holes,
                left_mm,
            }),
            _ => {}
        }
    }
}
