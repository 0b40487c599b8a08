//! All figures of a prepared job.

use alloc::borrow::Cow;
use alloc::vec::Vec;

use super::answer;
use super::answers::Answers;
use super::checks::checks;
use super::found::Found;
use super::in_work::{LotWork, TubeWork, electrode_by_electrode};
use super::known::Known;
use super::prepare::{Prepared, Ready};
use super::pricing::price_figures;
use crate::hole::material_findings;
use crate::job_figures::{JobFigures, SetupFigures, Stop};
use crate::setup::{Run, Spot};
use crate::travel::{length, sweep};

impl Prepared<'_> {
    /// All figures, with the answers to the job's questions as far as they are at hand.
    ///
    /// - `answers`: those at hand; answers to other questions are left out.
    ///
    /// Result: figures and findings, `settled` true where every question has its answer.
    #[must_use]
    pub fn figures(&self, answers: &Answers) -> JobFigures {
        let found = Found::of(self, answers);
        let mut setups = self.travelled(&found);
        let mut findings = checks(self);
        findings.extend(material_findings(self.input, self.tables));
        findings.extend(self.clamped.setups.findings.iter().cloned());
        self.hold(&mut setups, &mut findings);
        let offered = self.input.quantity.filter(|&quantity| quantity > 0);
        let (lot, price) = match (&self.ready, offered) {
            (Some(ready), Some(quantity)) => {
                let work = self.work(ready, &found, &setups, quantity);
                let known = Known {
                    prepared: self,
                    ready,
                    found: &found,
                    setups: &setups,
                    work: &work,
                };
                let lot = known.lot(quantity, &mut findings);
                let price = price_figures(&known, &lot, &mut findings);
                (
                    Some(lot.figures),
                    price.filter(|_| !self.input.price_unread),
                )
            }
            _ => (None, None),
        };
        JobFigures {
            holes: self.holes.clone(),
            setups,
            lot,
            price,
            findings,
            settled: found.settled,
        }
    }

    /// All figures, with every search and draw done at once.
    ///
    /// Result: figures and findings, `settled` always.
    #[must_use]
    pub fn figures_now(&self) -> JobFigures {
        self.figures(&answer(&self.questions()))
    }

    /// What each tube takes in the order of the work.
    fn work(
        &self,
        ready: &Ready,
        found: &Found<'_>,
        setups: &[SetupFigures],
        parts: u32,
    ) -> Vec<TubeWork> {
        let lot = LotWork {
            setups,
            runs: &self.clamped.setups.runs,
            parts,
            times: &ready.times,
        };
        let tubes = ready.tubes.iter().zip(&found.tubes);
        tubes
            .map(|(tube, of)| {
                let fewest = of.shared.first().copied().unwrap_or_default();
                lot.of(tube, fewest, |row| self.input.rows[row].id)
            })
            .collect()
    }

    /// Clampings with their travel and order.
    fn travelled(&self, found: &Found<'_>) -> Vec<SetupFigures> {
        let mut setups = self.clamped.setups.figures.clone();
        for (at, (setup, runs)) in setups.iter_mut().zip(&self.clamped.setups.runs).enumerate() {
            for (run_at, run) in runs.iter().enumerate() {
                let searched = found.orders.get(at).and_then(|runs| *runs.get(run_at)?);
                self.travel(setup, run, searched, found);
            }
        }
        setups
    }

    /// Puts travel and order of one run into its clamping.
    fn travel(
        &self,
        setup: &mut SetupFigures,
        run: &Run,
        searched: Option<&[u32]>,
        found: &Found<'_>,
    ) {
        let mut order = match searched {
            Some(order) => Cow::Borrowed(order),
            None => Cow::Owned(sweep(&run.points)),
        };
        let placed: Vec<_> = run
            .spots
            .iter()
            .filter(|spot| spot.point.is_some())
            .collect();
        let stop = |spot: &Spot| Stop {
            row: self.input.rows[spot.row as usize].id,
            place: spot.point.map(|_| spot.place as usize),
            far: spot.far,
        };
        let stops = |order: &[u32]| -> Vec<Stop> {
            let spots = order.iter().filter_map(|&at| placed.get(at as usize));
            spots.map(|spot| stop(spot)).collect()
        };
        // In a lot the parts are loaded one after another, whatever the order in one of them.
        if self.input.quantity == Some(1)
            && let Some(regrouped) = self.by_electrode(run, &stops(&order), found)
        {
            order = regrouped.into_iter().map(|at| order[at]).collect();
        }
        if !run.points.is_empty() {
            let travel = setup.travel_mm.unwrap_or(0.0) + length(&run.points, &order);
            setup.travel_mm = Some(travel);
        }
        setup.order.extend(stops(&order));
        let unplaced = run.spots.iter().filter(|spot| spot.point.is_none());
        setup.order.extend(unplaced.map(stop));
    }

    /// The order of a run in which one part takes fewer electrodes than as its stops come: where all that a
    /// tube drills is in this run, it costs no more than the way.
    fn by_electrode(&self, run: &Run, stops: &[Stop], found: &Found<'_>) -> Option<Vec<usize>> {
        let row = run.rows().next()?;
        let mut tubes = self.ready.as_ref()?.tubes.iter().zip(&found.tubes);
        let (tube, of) = tubes.find(|(tube, _)| tube.places.binary_search(&row).is_ok())?;
        let all = tube.lot.median.used(1, 0).ends;
        if stops.len() as u64 != all {
            return None;
        }
        let plan = tube.quantities.first()?.packing.plan(of.plan?);
        electrode_by_electrode(tube, &plan, stops, |row| self.input.rows[row].id)
    }
}
