//! Everything of a job that is computed before electrodes, lot and price.

use alloc::vec::Vec;

use super::draws::DrawQuestion;
use super::electrodes::{Dressing, Tube, tubes};
use super::lengths::one_length;
use super::packed::pack_questions;
use super::{Answers, Questions, checks};
use crate::hole::{Context, Draw, DrawnHole, Drill, material_findings};
use crate::input::JobInput;
use crate::job_figures::{HoleFigures, JobFigures};
use crate::quantity::Pace;
use crate::rollup::Times;
use crate::setup::{Run, Setups, setups};
use crate::tables::{Machine, StartValues, Tables};
use crate::travel::{length, sweep};

/// Fewest points whose order is worth a search; a sweep orders fewer as well.
const SEARCHED_FROM: usize = 4;

/// A job with its rows and clampings computed.
pub(crate) struct Prepared<'a> {
    pub(crate) input: &'a JobInput,
    pub(crate) tables: &'a Tables,
    pub(crate) machine: Option<&'a Machine>,
    pub(crate) holes: Vec<HoleFigures>,
    pub(crate) setups: Setups,
    /// What lots are made of; `None` until machine and every row are complete.
    pub(super) ready: Option<Ready>,
}

/// Rows and tubes that a lot can be computed from.
pub(super) struct Ready {
    pub(super) rows: Vec<Row>,
    pub(super) tubes: Vec<Tube>,
    pub(super) times: Times,
}

/// A row as the lot needs it.
#[derive(Clone)]
pub(super) struct Row {
    /// Index among the job's rows.
    pub(super) index: usize,
    /// Holes in one part.
    pub(super) holes: u32,
    /// Index of its tube.
    pub(super) tube: usize,
    pub(super) drill: Drill,
    /// One hole at the medians.
    pub(super) at_median: DrawnHole,
    /// Deviation of the logarithm of the lot's feed.
    pub(super) feed_sigma: f64,
    /// Deviation of the logarithm of the lot's wear.
    pub(super) wear_sigma: f64,
}

impl<'a> Prepared<'a> {
    pub(crate) fn new(input: &'a JobInput, tables: &'a Tables) -> Self {
        let machine = input
            .machine
            .and_then(|machine| tables.machines.get(machine));
        let context = Context::new(input, tables);
        let mut holes: Vec<HoleFigures> = Vec::with_capacity(input.rows.len());
        let mut rows = Vec::with_capacity(input.rows.len());
        for (index, row) in input.rows.iter().enumerate() {
            let (figures, drill) = context.figures_and_drill(row);
            rows.extend(drill.and_then(|drill| Row::new(index, drill, &figures)));
            holes.push(figures);
        }
        one_length(&context, &mut rows, &mut holes);
        let setups = setups(input, &holes, machine);
        for (index, finding) in &setups.row_findings {
            holes[*index].findings.push(finding.clone());
        }
        let complete = !rows.is_empty() && rows.len() == holes.len();
        let ready = machine.filter(|_| complete).map(|machine| Ready {
            tubes: tubes(&rows, tables),
            times: Times::new(&tables.start, machine, Pace::Median),
            rows,
        });
        Self {
            input,
            tables,
            machine,
            holes,
            setups,
            ready,
        }
    }

    /// What would be searched and drawn.
    pub(super) fn questions(&self) -> Questions {
        let Some(ready) = &self.ready else {
            return Questions::default();
        };
        Questions {
            orders: self.searched().map(|run| run.points.clone()).collect(),
            packings: pack_questions(self, ready),
            draw: DrawQuestion::new(self, ready),
        }
    }

    fn searched(&self) -> impl Iterator<Item = &Run> {
        let runs = self.setups.runs.iter().flatten();
        runs.filter(|run| run.points.len() >= SEARCHED_FROM)
    }

    /// Puts travel and order into the clampings.
    fn put_orders(&mut self, answers: Option<&Answers>) {
        let mut searched = answers.map(|answers| answers.orders.iter());
        for (setup, runs) in self.setups.figures.iter_mut().zip(&self.setups.runs) {
            for run in runs {
                let found = if run.points.len() >= SEARCHED_FROM {
                    searched.as_mut().and_then(Iterator::next)
                } else {
                    None
                };
                let swept;
                let order = match found {
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
                let id = |row: u32| self.input.rows[row as usize].id;
                let placed: Vec<_> = run
                    .spots
                    .iter()
                    .filter(|spot| spot.point.is_some())
                    .collect();
                let stops = order.iter().filter_map(|&at| placed.get(at as usize));
                setup
                    .order
                    .extend(stops.map(|spot| (id(spot.row), spot.number)));
                let unplaced = run.spots.iter().filter(|spot| spot.point.is_none());
                setup.order.extend(unplaced.map(|spot| (id(spot.row), 0)));
            }
        }
    }

    pub(super) fn figures(mut self, answers: Option<&Answers>) -> JobFigures {
        self.put_orders(answers);
        let mut findings = checks::checks(&self);
        findings.extend(material_findings(self.input, self.tables));
        findings.extend(self.setups.findings.iter().cloned());
        let offered = self.input.quantity.filter(|&quantity| quantity > 0);
        let (lot, price) = match (&self.ready, offered) {
            (Some(ready), Some(quantity)) => {
                let lot = self.lot(ready, quantity, answers, &mut findings);
                let price = self.price_figures(ready, &lot, answers, &mut findings);
                (Some(lot.figures), price)
            }
            _ => (None, None),
        };
        let settled = answers.is_some() || self.ready.is_none();
        JobFigures {
            holes: self.holes,
            setups: self.setups.figures,
            lot,
            price,
            findings,
            settled,
        }
    }
}

impl Row {
    /// Ends drilled in one part.
    pub(super) fn ends(&self) -> f64 {
        let ends = self.at_median.stages.iter().flatten().count();
        f64::from(self.holes) * ends as f64
    }

    /// How its electrodes are dressed.
    pub(super) fn dressing(&self, start: &StartValues) -> Dressing {
        Dressing {
            share: self.drill.dress_share(),
            length_mm: start.dressing_mm,
        }
    }

    pub(super) fn new(index: usize, drill: Drill, figures: &HoleFigures) -> Option<Self> {
        let at_median = drill.at(&Draw::MEDIAN);
        let [feed_sigma, wear_sigma] = drill.sigmas();
        Some(Self {
            index,
            holes: figures.places,
            tube: figures.tube?,
            drill,
            at_median,
            feed_sigma,
            wear_sigma,
        })
    }
}
