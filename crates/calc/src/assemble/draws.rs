//! The joint draw of the offered lot.
//!
//! Burn, wear and handling are shared by the whole lot; each row takes them with its own deviation,
//! in which its material and how far its depth makes the depth law count stand together. Burn and
//! wear go together by half, as they do in a shop's records. The gap moves the hole's size and none
//! of its minutes, so it is not drawn. Holes scatter about the lot's feed, which is averaged over all
//! of them in closed form. How many electrodes break is drawn for rows of one rate together.

use alloc::collections::BTreeMap;
use alloc::vec::Vec;

use super::model::{DrawnLot, LotModel, ModelRow, Planned};
use super::packed::PackAnswer;
use super::prepare::{Prepared, Ready};
use crate::hole::Draw;
use crate::quantity::Pace;
use crate::rollup::Times;
use crate::spread::{Breakages, DRAWS, Factor, normal_below, scatter_of_sum};
use crate::tables::{Machine, StartValues};

/// All that the draw of a lot depends on.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct DrawQuestion {
    model: LotModel,
    machine: Machine,
    start: StartValues,
}

/// The lot factors' deviates, draw by draw.
struct Deviates {
    burn: Vec<f64>,
    wear: Vec<f64>,
    handling: Vec<f64>,
    holes: Vec<f64>,
    breakages: Vec<f64>,
}

impl DrawQuestion {
    pub(super) fn new(prepared: &Prepared<'_>, ready: &Ready) -> Option<Self> {
        let parts = prepared.input.quantity.filter(|&quantity| quantity > 0)?;
        Some(Self {
            model: LotModel::new(prepared, ready, 0, parts),
            // What an hour costs changes no draw.
            machine: Machine {
                rate_per_hour: 0.0,
                ..prepared.machine?.clone()
            },
            start: prepared.tables.start.clone(),
        })
    }

    pub(super) fn answer(&self, packings: &[PackAnswer]) -> Vec<DrawnLot> {
        let burn = Factor::Feed.deviates(DRAWS);
        let own = Factor::Wear.deviates(DRAWS);
        let together = self.start.deviations.burn_and_wear.clamp(-1.0, 1.0);
        let apart = libm::sqrt(1.0 - together * together);
        let deviates = Deviates {
            wear: burn
                .iter()
                .zip(own)
                .map(|(burn, own)| together * burn + apart * own)
                .collect(),
            burn,
            handling: Factor::Handling.deviates(DRAWS),
            holes: Factor::Holes.deviates(DRAWS),
            breakages: Factor::Breakages.deviates(DRAWS),
        };
        let scatter = self.scatter();
        let broken = Broken::new(&self.model, self.start.breakage_worth_holes);
        (0..DRAWS)
            .map(|draw| self.draw(draw, &deviates, scatter, &broken, packings))
            .collect()
    }

    /// Deviation of the logarithm of all sparking minutes by the holes' own scatter.
    fn scatter(&self) -> f64 {
        let parts = f64::from(self.model.parts);
        let rows = self.model.rows.iter().map(|row| {
            let each = row.drill.at(&Draw::MEDIAN).sparking_min;
            (f64::from(row.holes) * parts, each)
        });
        scatter_of_sum(rows, self.start.hole_scatter)
    }

    fn draw(
        &self,
        draw: usize,
        deviates: &Deviates,
        scatter: f64,
        broken: &Broken,
        packings: &[PackAnswer],
    ) -> DrawnLot {
        let pace = Pace::Off(deviates.handling[draw]);
        let times = Times::new(&self.start, &self.machine, pace);
        let (burn, wear) = (deviates.burn[draw], deviates.wear[draw]);
        // Of mean one, so that more holes bring less scatter but not less time.
        let about_lot = libm::exp(scatter * deviates.holes[draw] - scatter * scatter / 2.0);
        let of_row = |row: &ModelRow| Draw {
            // A burn above the median is a feed below it.
            feed: libm::exp(-row.feed_sigma * burn),
            wear: libm::exp(row.wear_sigma * wear),
            pace,
        };
        let broken = broken.at(normal_below(deviates.breakages[draw]));
        let planned = Planned::Scaled(packings);
        self.model.at(&times, of_row, about_lot, &broken, planned)
    }
}

/// Breakages of the lot, for rows of one rate together.
struct Broken {
    rates: Vec<(Breakages, f64)>,
    /// Each row's rate among them, and its ends in the lot.
    rows: Vec<(usize, f64)>,
}

impl Broken {
    fn new(model: &LotModel, worth_holes: f64) -> Self {
        let parts = f64::from(model.parts);
        let mut ends: BTreeMap<u64, f64> = BTreeMap::new();
        for row in &model.rows {
            *ends.entry(row.drill.breakage().to_bits()).or_default() += row.ends * parts;
        }
        let rate_of = |row: &ModelRow| {
            let bits = row.drill.breakage().to_bits();
            ends.keys().position(|other| *other == bits).unwrap_or(0)
        };
        Self {
            rows: model
                .rows
                .iter()
                .map(|row| (rate_of(row), row.ends * parts))
                .collect(),
            rates: ends
                .iter()
                .map(|(bits, ends)| {
                    let chance = f64::from_bits(*bits);
                    (Breakages::new(*ends as u64, chance, worth_holes), *ends)
                })
                .collect(),
        }
    }

    /// Electrodes that break in each row at this share of all lots.
    fn at(&self, share: f64) -> Vec<f64> {
        let numbers: Vec<f64> = self.rates.iter().map(|(rate, _)| rate.at(share)).collect();
        let of_row = |(rate, ends): &(usize, f64)| match self.rates.get(*rate) {
            Some((_, all)) if *all > 0.0 => numbers[*rate] * ends / all,
            _ => 0.0,
        };
        self.rows.iter().map(of_row).collect()
    }
}
