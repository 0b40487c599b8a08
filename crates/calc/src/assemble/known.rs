//! A job whose lot can be computed, with what was found of its searches and draws.

use alloc::vec::Vec;

use super::by_whom::ByWhom;
use super::found::Found;
use super::in_work::TubeWork;
use super::overruled::Overruled;
use super::prepare::{Prepared, Ready};
use super::tube::TubeDrawn;
use super::tubes::LotTube;
use crate::figure::Figure;
use crate::finding::Finding;
use crate::job_figures::SetupFigures;
use crate::rollup::{Counts, Times, part_by_part, roll_up, setup_counts};
use crate::standards::sampling::plan;

/// A job whose lot can be computed.
#[derive(Clone, Copy)]
pub(super) struct Known<'a> {
    pub(super) prepared: &'a Prepared<'a>,
    pub(super) ready: &'a Ready,
    pub(super) found: &'a Found<'a>,
    /// Clampings with their travel.
    pub(super) setups: &'a [SetupFigures],
    /// What each tube takes in the order of the work.
    pub(super) work: &'a [TubeWork],
}

/// A lot at drawn factors, or on average.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct LotDrawn {
    /// Machine and labor minutes, travel not in them.
    pub(super) minutes: ByWhom<f64>,
    /// Electrodes by tube.
    pub(super) electrodes: Vec<f64>,
    /// Electrodes broken by tube.
    pub(super) broken: Vec<f64>,
}

impl Known<'_> {
    /// The overrule of a figure, told as a finding.
    pub(super) fn overruled(
        &self,
        figure: Figure,
        computed: f64,
        findings: &mut Vec<Finding>,
    ) -> Option<Overruled> {
        Overruled::of(self.prepared.input, figure, computed, findings)
    }

    /// Counts of clamping, with an overruled number of setups.
    ///
    /// More or fewer setups than were found are set up and loaded as the others are on average.
    pub(super) fn setup_counts(&self, quantity: u32) -> Counts {
        let mut counts = setup_counts(self.setups, quantity, &self.ready.times);
        counts.masking_min = f64::from(quantity) * self.prepared.input.masking_min;
        let mut unsaid = Vec::new();
        let computed = self.setups.len() as f64;
        if let Some(overruled) = self.overruled(Figure::Setups, computed, &mut unsaid) {
            let stands = libm::round(overruled.stands) as u64;
            counts.turn_overs = counts.turn_overs.min(stands.saturating_sub(1));
            counts.set_ups = stands - counts.turn_overs.min(stands);
            counts.loads = libm::round(counts.loads as f64 * overruled.ratio()) as u64;
        }
        counts
    }

    /// Leaves of the checks of all parts those of a sample, where one is asked for and the table has a plan
    /// for it.
    pub(super) fn put_inspected(&self, counts: &mut Counts) {
        let lot = u32::try_from(counts.parts).unwrap_or(u32::MAX);
        let asked = self.prepared.input.sampling;
        let Some(plan) = asked.and_then(|(level, limit)| plan(lot, level, limit)) else {
            return;
        };
        let share = f64::from(plan.sample) / f64::from(lot);
        counts.ends = of_sample(counts.ends, share);
        counts.proved = counts.proved.map(|holes| of_sample(holes, share));
    }

    /// Of each clamping whether each part gets all of it before the next one is loaded.
    pub(super) fn part_by_part(&self, parts: u32) -> Vec<bool> {
        let setups = self.setups.iter();
        setups
            .map(|setup| part_by_part(setup, parts, &self.ready.times))
            .collect()
    }

    /// A lot of what its tubes' rows come to.
    ///
    /// - `clamped`: counts of clamping; what goes with electrodes and minutes in holes is added, travel
    ///   is not in it.
    /// - `at`: the quantity's place among those that are priced.
    /// - `times`: times of handling.
    /// - `tubes`: what each tube's rows come to.
    pub(super) fn together<'b>(
        &self,
        clamped: &Counts,
        at: usize,
        times: &Times,
        tubes: impl Iterator<Item = &'b TubeDrawn>,
    ) -> LotDrawn {
        let mut counts = Counts {
            travel_mm: 0.0,
            ..*clamped
        };
        let number = self.ready.tubes.len();
        let mut lot = LotDrawn {
            minutes: ByWhom::default(),
            electrodes: Vec::with_capacity(number),
            broken: Vec::with_capacity(number),
        };
        let known = self.ready.tubes.iter().zip(&self.found.tubes);
        for (((tube, of), work), drawn) in known.zip(self.work).zip(tubes) {
            let bound = tube.quantities.get(at).map_or(0, |of| of.packing.bound);
            let packed = of.shared.get(at).copied().unwrap_or(bound);
            let used = work.in_order(drawn.used(packed, bound));
            counts.hole_minutes += drawn.hole_minutes;
            counts.add_checks(drawn.checks);
            counts.broken_hole_min += drawn.broken_hole_min;
            counts.broken.add(drawn.broken, tube.lot.thin);
            used.add_to(&mut counts, tube.lot.thin);
            lot.electrodes.push(used.electrodes() as f64);
            lot.broken.push(drawn.broken);
        }
        self.put_inspected(&mut counts);
        let (machine, labor) = roll_up(&counts, times);
        lot.minutes = ByWhom {
            machine: machine.sum(),
            labor: labor.sum(),
        };
        lot
    }

    /// The offered lot draw by draw.
    pub(super) fn drawn(&self, clamped: &Counts) -> Vec<LotDrawn> {
        let draws = self.found.draws.iter();
        draws
            .map(|draw| self.together(clamped, 0, &draw.times, draw.tubes.iter()))
            .collect()
    }

    /// What one tube of the lot costs [currency].
    pub(super) fn tube_price(&self, tube: &LotTube) -> f64 {
        let tubes = &self.prepared.tables.tubes;
        tube.lot.tube.of(tubes).map_or(0.0, |tube| tube.price)
    }
}

/// What of so many checks a sample of this share takes.
fn of_sample(checks: u64, share: f64) -> u64 {
    libm::round(checks as f64 * share) as u64
}
