//! The joint draw of the offered lot.
//!
//! Burn, wear and handling are shared by the whole lot; each row takes them with its own deviation,
//! in which its material and how far its depth makes the depth law count stand together. Burn and
//! wear go together by half, as they do in a shop's records. The gap moves the hole's size and none
//! of its minutes, so it is not drawn. Holes scatter about the lot's feed, which is averaged over all
//! of them in closed form. How many electrodes break is drawn for rows of one rate together.
//!
//! What is packed at the median scales the drawn electrodes later, so that a better plan asks for no
//! new draw.

use alloc::collections::BTreeMap;
use alloc::sync::Arc;
use alloc::vec::Vec;

use super::demand::Demand;
use super::rows::Drilled;
use super::tube::{Electrodes, TubeDrawn, TubeLot};
use crate::hole::Draw;
use crate::learn::Breakage;
use crate::quantity::Pace;
use crate::rollup::Times;
use crate::spread::{Breakages, DRAWS, Factor, normal_below, scatter_of_sum};
use crate::stop::Stop;
use crate::tables::{Machine, StartValues};

/// All that the draw of a lot depends on.
#[derive(Clone, Debug)]
pub struct DrawQuestion {
    tubes: Vec<Arc<TubeLot>>,
    parts: u32,
    machine: Machine,
    start: StartValues,
}

impl PartialEq for DrawQuestion {
    fn eq(&self, other: &Self) -> bool {
        let same = |(one, two): (&Arc<TubeLot>, &Arc<TubeLot>)| Arc::ptr_eq(one, two) || one == two;
        self.parts == other.parts
            && self.tubes.len() == other.tubes.len()
            && self.tubes.iter().zip(&other.tubes).all(same)
            && self.machine == other.machine
            && self.start == other.start
    }
}

/// One draw: the times of handling at its pace, and each tube's rows.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct DrawnLot {
    pub(super) times: Times,
    pub(super) tubes: Vec<TubeDrawn>,
}

/// The lot factors' deviates, draw by draw.
struct Deviates {
    burn: Vec<f64>,
    wear: Vec<f64>,
    handling: Vec<f64>,
    holes: Vec<f64>,
    breakages: Vec<f64>,
}

/// Rows up to which a lot is drawn as often as any.
const ALL_DRAWS_ROWS: usize = 5_000;

/// How often a lot of so many rows is drawn: the more rows, the fewer draws beyond many thousands, so
/// that it stays a matter of a second.
fn draws_for(rows: usize) -> usize {
    (DRAWS * ALL_DRAWS_ROWS / rows.max(ALL_DRAWS_ROWS)).max(DRAWS / 16)
}

impl DrawQuestion {
    pub(super) fn new(
        tubes: Vec<Arc<TubeLot>>,
        parts: u32,
        machine: &Machine,
        start: &StartValues,
    ) -> Self {
        Self {
            tubes,
            parts,
            // What an hour costs changes no draw.
            machine: Machine {
                rate_per_hour: 0.0,
                ..machine.clone()
            },
            start: start.clone(),
        }
    }

    /// Every draw; none where it was stopped.
    pub(super) fn answer(&self, stop: Stop<'_>) -> Option<Vec<DrawnLot>> {
        let rows = self.tubes.iter().map(|tube| tube.rows.len()).sum();
        let draws = draws_for(rows);
        let burn = Factor::Feed.deviates(draws);
        let own = Factor::Wear.deviates(draws);
        let together = self.start.deviations.burn_and_wear.clamp(-1.0, 1.0);
        let apart = libm::sqrt(1.0 - together * together);
        let deviates = Deviates {
            wear: burn
                .iter()
                .zip(own)
                .map(|(burn, own)| together * burn + apart * own)
                .collect(),
            burn,
            handling: Factor::Handling.deviates(draws),
            holes: Factor::Holes.deviates(draws),
            breakages: Factor::Breakages.deviates(draws),
        };
        let scatter = self.scatter();
        let broken = Broken::new(&self.tubes, self.parts);
        let mut demand = Demand::default();
        (0..draws)
            .map(|draw| {
                (!stop()).then(|| self.draw(draw, &deviates, scatter, &broken, &mut demand))
            })
            .collect()
    }

    /// Deviation of the logarithm of all sparking minutes by the holes' own scatter.
    fn scatter(&self) -> f64 {
        let parts = f64::from(self.parts);
        let rows = self.tubes.iter().flat_map(|tube| &tube.rows);
        let minutes = rows.map(|row| (f64::from(row.holes) * parts, row.at_median.sparking_min));
        scatter_of_sum(minutes, self.start.hole_scatter)
    }

    fn draw(
        &self,
        draw: usize,
        deviates: &Deviates,
        scatter: f64,
        broken: &Broken,
        demand: &mut Demand,
    ) -> DrawnLot {
        let pace = Pace::Off(deviates.handling[draw]);
        let (burn, wear) = (deviates.burn[draw], deviates.wear[draw]);
        // Of mean one, so that more holes bring less scatter but not less time.
        let about_lot = libm::exp(scatter * deviates.holes[draw] - scatter * scatter / 2.0);
        let of_row = |_, row: &Drilled| Draw {
            // A burn above the median is a feed below it.
            feed: libm::exp(-row.feed_sigma * burn),
            wear: libm::exp(row.wear_sigma * wear),
            pace,
        };
        let numbers = broken.at(normal_below(deviates.breakages[draw]));
        let tubes = self.tubes.iter().zip(&broken.rows).map(|(tube, rows)| {
            let broken = |at: usize, _: &Drilled| broken.of_row(&rows[at], &numbers);
            let bound = Electrodes::Bound;
            tube.at(self.parts, demand, of_row, about_lot, broken, bound)
        });
        DrawnLot {
            tubes: tubes.collect(),
            times: Times::new(&self.start, &self.machine, pace),
        }
    }
}

/// Breakages of the lot, for rows of one rate together.
struct Broken {
    rates: Vec<(Breakages, f64)>,
    /// By tube: each row's rate among them, and its ends in the lot.
    rows: Vec<Vec<(usize, f64)>>,
}

impl Broken {
    fn new(tubes: &[Arc<TubeLot>], parts: u32) -> Self {
        let parts = f64::from(parts);
        // By rate, and by how much is known of it.
        let key_of = |row: &Drilled| {
            let Breakage {
                chance,
                worth_holes,
            } = row.drill.breakage();
            [chance, worth_holes].map(f64::to_bits)
        };
        let mut ends: BTreeMap<[u64; 2], f64> = BTreeMap::new();
        for row in tubes.iter().flat_map(|tube| &tube.rows) {
            *ends.entry(key_of(row)).or_default() += row.ends() * parts;
        }
        let places: BTreeMap<[u64; 2], usize> = ends.keys().copied().zip(0..).collect();
        let rate_of = |row: &Drilled| places.get(&key_of(row)).copied().unwrap_or(0);
        let of_tube = |tube: &Arc<TubeLot>| {
            let rows = tube.rows.iter();
            rows.map(|row| (rate_of(row), row.ends() * parts)).collect()
        };
        Self {
            rows: tubes.iter().map(of_tube).collect(),
            rates: ends
                .iter()
                .map(|(key, ends)| {
                    let [chance, worth_holes] = key.map(f64::from_bits);
                    (Breakages::new(*ends as u64, chance, worth_holes), *ends)
                })
                .collect(),
        }
    }

    /// Electrodes that break of each rate at this share of all lots.
    fn at(&self, share: f64) -> Vec<f64> {
        self.rates.iter().map(|(rate, _)| rate.at(share)).collect()
    }

    /// Electrodes of them that break in a row.
    fn of_row(&self, (rate, ends): &(usize, f64), numbers: &[f64]) -> f64 {
        match self.rates.get(*rate) {
            Some((_, all)) if *all > 0.0 => numbers[*rate] * ends / all,
            _ => 0.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn very_many_rows_are_drawn_less_often() {
        let draws = [0, 1, 5_000, 10_000, 50_000, 100_000].map(draws_for);
        assert_eq!(draws, [512, 512, 512, 256, 51, 32]);
    }
}
