//! What a row of holes costs the lot, as far as electrodes, lengths and ends decide it.
//!
//! The same counts and rates as in the roll-up, for one row by itself: so the cheapest way of a row
//! is the one that the price will show as cheapest.

use alloc::vec::Vec;

use super::draw::Draw;
use super::drill::Drill;
use super::feed_wear::FeedWear;
use super::setting::Setting;
use crate::quantity::{Pace, ROUNDING_MM, Spread};
use crate::spread::normal_at;
use crate::tables::{Machine, Rates, StartValues};

/// Quantiles of the lot's wear over which electrodes are averaged.
const WEAR_QUANTILES: usize = 15;

/// Rates by the minute, and the times that a way of drilling changes.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Money {
    /// Machine, dielectric and power, redone work included [currency/min].
    machine_min: f64,
    /// Labor, redone work included [currency/min].
    labor_min: f64,
    /// What of an electrode's price is charged, redone work included.
    electrode: f64,
    attended: f64,
    changer: bool,
    parts: f64,
    /// Dressing, pin check, turn-over, first piece, load, index, at their means [min].
    dressing_min: f64,
    pin_check_min: f64,
    turn_over_min: f64,
    first_piece_min: f64,
    load_min: f64,
    index_min: f64,
    indexed: bool,
    dressing_mm: f64,
    wear_z: Vec<f64>,
}

impl Money {
    pub(super) fn new(
        setting: &Setting,
        start: &StartValues,
        rates: &Rates,
        machine: &Machine,
    ) -> Self {
        let widest = start.deviations.handling();
        let mean = |spread: Spread| spread.at_least(widest).mean();
        let redo = 1.0 + rates.redo_share;
        let beside = rates.dielectric_per_hour + rates.power_per_hour;
        Self {
            machine_min: (machine.rate_per_hour * redo + beside) / 60.0,
            labor_min: rates.labor_per_hour * redo / 60.0,
            electrode: redo,
            attended: machine.attended.clamp(0.0, 1.0),
            changer: machine.changer,
            parts: f64::from(setting.parts()),
            dressing_min: mean(start.dressing_min),
            pin_check_min: mean(start.pin_check_min),
            turn_over_min: mean(start.turn_over_min),
            first_piece_min: mean(start.first_piece_min),
            load_min: mean(start.load_min),
            index_min: mean(start.index_min),
            indexed: machine.index_axis && setting.index_about.is_some(),
            dressing_mm: start.dressing_mm,
            wear_z: wear_quantiles(),
        }
    }

    /// Factors on the wear at equally likely parts of it, for a deviation of its logarithm.
    pub(super) fn wears(&self, sigma: f64) -> Vec<f64> {
        self.wear_z.iter().map(|z| libm::exp(sigma * z)).collect()
    }

    /// What a row of so many holes in one part costs the lot with this drill, at these factors on the
    /// wear, checked by pin or not, and with tubes at this price [currency].
    pub(super) fn of(
        &self,
        drill: &Drill,
        wears: &[f64],
        holes: u32,
        by_pin: bool,
        tube_price: f64,
    ) -> f64 {
        let holes = f64::from(holes) * self.parts;
        let FeedWear {
            feed: burn_sigma, ..
        } = drill.sigmas();
        let feed = libm::exp(-burn_sigma * burn_sigma / 2.0);
        let change = drill.change().mean();
        let mut sum = 0.0;
        let mut ends = 0.0;
        for wear in wears {
            let hole = drill.at(&Draw {
                feed,
                wear: *wear,
                pace: Pace::Mean,
            });
            let (mut whole, mut share) = (0.0, 0.0);
            ends = 0.0;
            for stage in hole.stages.iter().flatten() {
                ends += holes;
                whole += f64::from(stage.whole) * holes;
                let dressed = self.dressing_mm * drill.dress_share;
                let consumed = stage.wear_mm + dressed;
                let room = drill.times.usable_mm + dressed - stage.target_mm;
                let each = libm::floor((room + ROUNDING_MM) / consumed.max(ROUNDING_MM)).max(1.0);
                share += holes / each;
            }
            let shared = libm::ceil(share - 1e-9);
            let electrodes = whole + shared;
            let inside = whole * change;
            let dressings = libm::floor((ends - shared).max(0.0) * drill.dress_share);
            let between = (shared - 1.0).max(0.0) * change + dressings * self.dressing_min;
            let drilling = holes * hole.minutes();
            let [by_hand, running] = if self.changer {
                [0.0, drilling + between]
            } else {
                [between + inside, (drilling - inside).max(0.0)]
            };
            let broken = drill.breakage().chance * holes;
            let lost = broken * (change + hole.minutes() / 2.0);
            sum += (drilling + between + lost) * self.machine_min
                + (by_hand + self.attended * (running + lost)) * self.labor_min
                + (electrodes + broken / 2.0) * tube_price * self.electrode;
        }
        // What proves a hole open otherwise takes as long whichever way it was drilled.
        let pinned = if by_pin { ends } else { 0.0 };
        let checked = pinned * self.pin_check_min * self.labor_min;
        sum / wears.len() as f64 + checked
    }

    /// What minutes in holes, minutes of changing electrodes and electrodes bought come to [currency].
    pub(super) fn sum(&self, minutes: f64, changed: f64, bought: f64) -> f64 {
        let by_hand = if self.changer {
            self.attended * changed
        } else {
            changed
        };
        (minutes + changed) * self.machine_min
            + (by_hand + self.attended * minutes) * self.labor_min
            + bought * self.electrode
    }

    /// What drilling from the far end too costs the lot, apart from the drilling [currency].
    pub(super) fn far_end(&self) -> f64 {
        if self.indexed {
            let moved = self.parts * self.index_min;
            moved * (self.machine_min + self.attended * self.labor_min)
        } else {
            let clamped = self.turn_over_min + self.first_piece_min + self.parts * self.load_min;
            clamped * (self.machine_min + self.labor_min)
        }
    }
}

/// Deviates in the middle of equally likely parts of the lot's wear.
pub(crate) fn wear_quantiles() -> Vec<f64> {
    let share = |at: usize| (at as f64 + 0.5) / WEAR_QUANTILES as f64;
    (0..WEAR_QUANTILES).map(|at| normal_at(share(at))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 100 min in holes and 10 of changing at 2 a minute; 10 by hand and 0.4 of 100 attended at 1.5; 50 of
    /// electrodes with 5 %. A changer is attended as holes are.
    #[test]
    fn minutes_changes_and_electrodes_by_hand() {
        let money = Money {
            machine_min: 2.0,
            labor_min: 1.5,
            electrode: 1.05,
            attended: 0.4,
            changer: false,
            parts: 10.0,
            dressing_min: 0.7,
            pin_check_min: 0.2,
            turn_over_min: 20.0,
            first_piece_min: 7.0,
            load_min: 3.0,
            index_min: 0.1,
            indexed: false,
            dressing_mm: 3.0,
            wear_z: Vec::new(),
        };
        let close = |found: f64, by_hand: f64| assert!((found - by_hand).abs() < 1e-9, "{found}");
        close(money.sum(100.0, 10.0, 50.0), 220.0 + 75.0 + 52.5);
        let by_changer = Money {
            changer: true,
            ..money
        };
        close(by_changer.sum(100.0, 10.0, 50.0), 220.0 + 66.0 + 52.5);
    }
}
