//! All figures of a prepared job.

use alloc::vec::Vec;

use super::answer;
use super::answers::Answers;
use super::checks::checks;
use super::found::Found;
use super::known::Known;
use super::prepare::Prepared;
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
        let setups = self.travelled(&found);
        let mut findings = checks(self);
        findings.extend(material_findings(self.input, self.tables));
        findings.extend(self.clamped.setups.findings.iter().cloned());
        let offered = self.input.quantity.filter(|&quantity| quantity > 0);
        let (lot, price) = match (&self.ready, offered) {
            (Some(ready), Some(quantity)) => {
                let known = Known {
                    prepared: self,
                    ready,
                    found: &found,
                    setups: &setups,
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

    /// Clampings with their travel and order.
    fn travelled(&self, found: &Found<'_>) -> Vec<SetupFigures> {
        let mut setups = self.clamped.setups.figures.clone();
        for (at, (setup, runs)) in setups.iter_mut().zip(&self.clamped.setups.runs).enumerate() {
            for (run_at, run) in runs.iter().enumerate() {
                let searched = found.orders.get(at).and_then(|runs| *runs.get(run_at)?);
                self.travel(setup, run, searched);
            }
        }
        setups
    }

    /// Puts travel and order of one run into its clamping.
    fn travel(&self, setup: &mut SetupFigures, run: &Run, searched: Option<&[u32]>) {
        let swept;
        let order = match searched {
            Some(order) => order,
            None => {
                swept = sweep(&run.points);
                &swept
            }
        };
        if !run.points.is_empty() {
            let travel = setup.travel_mm.unwrap_or(0.0) + length(&run.points, order);
            setup.travel_mm = Some(travel);
        }
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
        let stops = order.iter().filter_map(|&at| placed.get(at as usize));
        setup.order.extend(stops.map(|spot| stop(spot)));
        let unplaced = run.spots.iter().filter(|spot| spot.point.is_none());
        setup.order.extend(unplaced.map(stop));
    }
}
