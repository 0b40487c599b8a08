//! A job with everything computed that takes no search and no draw: prepared once an edit, then asked
//! for its questions and for its figures.

use alloc::borrow::Cow;
use alloc::sync::Arc;
use alloc::vec::Vec;

use super::answers::{Answers, Question};
use super::clamped::{Clamped, KeptClamped};
use super::draws::DrawQuestion;
use super::lengths::KeptLengths;
use super::rows::{Drilled, KeptRows, Planner};
use super::tubes::{KeptTubes, LotTube};
use crate::hole::Setting;
use crate::input::JobInput;
use crate::job_figures::HoleFigures;
use crate::price::Terms;
use crate::quantity::Pace;
use crate::rollup::Times;
use crate::setup::Layout;
use crate::tables::{Machine, StartValues, Tables};

/// What was worked out for a job before: it is taken again where it still holds.
///
/// Everything is held against the values that it was worked out from, so that the figures are the same
/// with it and without. One job's is of no use for another, and harmless.
///
/// Formula: none of its own: an equal row in an equal setting, tubes of equal rows and clampings of an
/// equal layout are taken as they were, everything else is computed anew.
///
/// ```
/// use std::sync::Arc;
///
/// use quillbore_calc::RowId;
/// use quillbore_calc::assemble::{Answers, Kept, quick};
/// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
/// # use shop::*;
/// let tables = tables();
/// let mut rows = vec![through(0.8, 20.0), through(1.2, 20.0)];
/// rows[1].id = RowId(8);
/// let mut input = job(rows);
/// let (mut kept, none) = (Kept::default(), Answers::default());
/// let before = kept.prepare(&input, &tables).figures(&none);
/// input.rows[0].depth_mm = Some(25.0);
/// let after = kept.prepare(&input, &tables).figures(&none);
/// // The edited row is another, the row beside it the very same, and the job's figures as if nothing
/// // had been kept.
/// assert_ne!(before.holes[0], after.holes[0]);
/// assert!(Arc::ptr_eq(&before.holes[1], &after.holes[1]));
/// assert_eq!(after, quick(&input, &tables));
/// ```
///
/// Source: ours.
#[derive(Default)]
pub struct Kept {
    setting: Setting,
    tables: Option<Arc<Tables>>,
    rows: KeptRows,
    lengths: KeptLengths,
    tubes: KeptTubes,
    clamped: KeptClamped,
}

/// A job with its rows, clampings and tubes computed.
///
/// Formula: that of [`super::figures`] and [`super::questions`], cut in two where the answers come in.
///
/// ```
/// use quillbore_calc::assemble::{Answers, Kept, figures_now, quick};
/// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
/// # use shop::*;
/// let (input, tables) = (job(vec![through(0.8, 20.0)]), tables());
/// let prepared = Kept::default().prepare(&input, &tables);
/// let mut answers = Answers::default();
/// assert_eq!(prepared.figures(&answers), quick(&input, &tables));
/// // One tube asks its lot and its kit, and there is a draw; before these come first plans of lot and
/// // kit.
/// assert_eq!((prepared.questions().len(), prepared.open(&answers).len()), (3, 5));
/// while let Some(next) = prepared.open(&answers).into_iter().next() {
///     let found = next.answer(&|| false).unwrap();
///     answers.put(next, found);
/// }
/// assert_eq!(prepared.figures(&answers), figures_now(&input, &tables));
/// assert_eq!(prepared.figures(&answers), prepared.figures_now());
/// ```
///
/// Source: ours.
pub struct Prepared<'a> {
    pub(super) input: &'a JobInput,
    pub(super) tables: &'a Tables,
    /// The start values, as the shop's records make those of this machine.
    pub(super) start: Cow<'a, StartValues>,
    pub(super) machine: Option<&'a Machine>,
    /// Quantities that are priced: the offered one first, each once.
    pub(super) quantities: Vec<u32>,
    pub(super) holes: Vec<Arc<HoleFigures>>,
    pub(super) clamped: Arc<Clamped>,
    /// What lots are made of; `None` until machine and every row are complete.
    pub(super) ready: Option<Ready>,
}

/// Rows and tubes that a lot can be computed from.
pub(super) struct Ready {
    /// In the table's order.
    pub(super) rows: Vec<Arc<Drilled>>,
    /// In the order of the shop's tables.
    pub(super) tubes: Arc<[LotTube]>,
    pub(super) times: Times,
    /// Of the offered lot, where there is one.
    pub(super) draw: Option<Arc<DrawQuestion>>,
}

impl Kept {
    /// For a job that is prepared once: what its rows were asked as isn't kept beside them.
    pub(super) fn once() -> Self {
        Self {
            rows: KeptRows::once(),
            ..Self::default()
        }
    }

    /// Computes all of a job that takes no search and no draw, anew where something changed.
    ///
    /// - `input`: the job.
    /// - `tables`: what the shop knows.
    ///
    /// Result: the job, ready to be asked for its questions and its figures.
    pub fn prepare<'a>(&mut self, input: &'a JobInput, tables: &'a Tables) -> Prepared<'a> {
        let planner = Planner::new(input, tables);
        self.forget_unless(planner.setting(), tables);
        let machine = input
            .machine
            .and_then(|machine| machine.of(&tables.machines));
        let start = tables.lessons.start_on(&tables.start, input.machine);
        let quantities = quantities(input);
        let rows = self.rows.plan(&input.rows, &planner);
        let planned = self.lengths.plan(rows, &input.rows, &planner);
        let mut holes: Vec<Arc<HoleFigures>> = planned
            .iter()
            .map(|planned| Arc::clone(&planned.figures))
            .collect();
        let clamped = self.clamped.plan(Layout::new(input, &holes, machine));
        for (index, finding) in &clamped.setups.row_findings {
            let hole = Arc::make_mut(&mut holes[*index]);
            hole.findings.push(finding.clone());
        }
        let drilled: Option<Vec<_>> = planned.iter().map(|row| row.drilled.clone()).collect();
        let drilled = drilled.filter(|rows| !rows.is_empty());
        let ready = machine.zip(drilled).map(|(machine, rows)| {
            let tubes = self.tubes.plan(&planned, &quantities, tables);
            let offered = input.quantity.filter(|&quantity| quantity > 0);
            Ready {
                draw: offered.map(|parts| {
                    let lots = tubes.iter().map(|tube| Arc::clone(&tube.lot)).collect();
                    Arc::new(DrawQuestion::new(lots, parts, machine, &start))
                }),
                rows,
                tubes,
                times: Times::new(&start, machine, Pace::Median),
            }
        });
        Prepared {
            input,
            tables,
            start,
            machine,
            quantities,
            holes,
            clamped,
            ready,
        }
    }

    /// Lets everything go that rests on another setting or on other tables.
    fn forget_unless(&mut self, setting: &Setting, tables: &Tables) {
        let same_tables = self.tables.as_deref() == Some(tables);
        if self.setting == *setting && same_tables {
            return;
        }
        *self = Self {
            setting: setting.clone(),
            tables: match &self.tables {
                Some(kept) if same_tables => Some(Arc::clone(kept)),
                _ => Some(Arc::new(tables.clone())),
            },
            rows: self.rows.emptied(),
            ..Self::default()
        };
    }
}

impl Prepared<'_> {
    /// Margin and the rest of what a cost is priced by.
    pub(super) fn terms(&self) -> Terms {
        let rates = &self.tables.rates;
        Terms {
            margin: self.input.margin.unwrap_or(rates.margin),
            minimum_charge: rates.minimum_charge,
            minor_digits: rates.minor_digits,
            price_step: rates.price_step,
        }
    }

    /// Everything that is to be searched and drawn for this job.
    ///
    /// Result: questions by value, as of [`super::questions`]; none until machine and every row are
    /// complete.
    #[must_use]
    pub fn questions(&self) -> Vec<Question> {
        let Some(ready) = &self.ready else {
            return Vec::new();
        };
        let orders = self.clamped.orders.iter().flatten().flatten();
        let mut questions: Vec<Question> = orders.cloned().map(Question::Order).collect();
        for tube in ready.tubes.iter() {
            let kits = tube.offered.iter().map(|of| &of.kit);
            let plans = tube.quantities.iter().map(|of| &of.packing);
            let packings = plans.chain(kits);
            questions.extend(packings.map(|packing| Question::Packing(packing.settled().clone())));
        }
        questions.extend(ready.draw.clone().map(Question::Draw));
        questions
    }

    /// What is still to be asked where these answers are at hand, in the order in which it is worth
    /// most: a first plan for each tube that has none, then what settles the figures.
    ///
    /// - `answers`: those at hand.
    ///
    /// Result: questions without an answer; none where the figures are settled.
    #[must_use]
    pub fn open(&self, answers: &Answers) -> Vec<Question> {
        let tubes = self.ready.iter().flat_map(|ready| ready.tubes.iter());
        let packings = tubes.flat_map(|tube| {
            let plans = tube.quantities.iter().map(|of| &of.packing);
            plans.chain(tube.offered.iter().map(|of| &of.kit))
        });
        let first = packings
            .filter(|packing| answers.packing(packing.settled()).is_none())
            .map(|packing| Question::Packing(packing.first.clone()));
        let all = first.chain(self.questions());
        all.filter(|question| !answers.has(question)).collect()
    }
}

/// Quantities that are priced: the offered one first, each once.
fn quantities(input: &JobInput) -> Vec<u32> {
    let mut quantities: Vec<u32> = Vec::new();
    let further = input.breaks.iter().copied();
    for quantity in input.quantity.into_iter().chain(further) {
        if quantity > 0 && !quantities.contains(&quantity) {
            quantities.push(quantity);
        }
    }
    quantities
}
