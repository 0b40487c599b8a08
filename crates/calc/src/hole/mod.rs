//! One row of the hole table, from its limits and depth to its minutes, wear and electrodes.
//!
//! [`row_figures`] computes one row; [`Context`] does so for many, with what the shop's tables
//! say worked out once. For a lot's joint draw, [`Context::drill`] prepares a row and
//! [`Drill::at`] recomputes it for sampled lot factors in a few nanoseconds:
//!
//! - [`Draw`] holds what a lot's draw turns: two factors, 1 at the median, and a pace. `feed`
//!   multiplies the feed (the sparking minutes are divided by it), `wear` multiplies the wear by
//!   length, `pace` says which values the times of handling take. [`Drill::sigmas`] says how far
//!   feed and wear of a lot scatter.
//! - [`DrawnHole`] holds what comes out. Its target depth is counted from the work's surface, as
//!   the usable length U is; its stages say what electrodes a plan for the lot has to find.
//!
//! What the work material has to say is said once for the job, by [`material_findings`].
//!
//! One end or both, where both are open and nobody has decided, and the length of tube: whichever
//! costs the lot least, turn-over, electrodes and changes counted.

mod aimed;
mod asked;
mod burnt;
mod chances;
mod context;
mod depth;
mod draw;
mod drill;
mod facts;
mod feed_wear;
mod figures;
mod flush;
mod judge;
mod judgements;
mod material;
mod median_sigma;
mod meet;
mod money;
mod own;
mod plan;
mod planned;
mod plans;
mod profile;
mod recorded;
mod remembered;
mod route;
mod say;
mod say_burnt;
mod say_deep;
mod say_flush;
mod say_size;
mod say_start_hole;
mod say_surface;
mod setting;
mod start_hole;
mod stock;
mod stuff;
mod way;

use crate::idx::Idx;
use alloc::vec::Vec;

pub use context::Context;
pub use draw::{Draw, DrawnHole, Stage};
pub use drill::Drill;
pub use feed_wear::FeedWear;
pub use material::material_findings;
pub(crate) use money::wear_quantiles;
pub(crate) use planned::places;
pub(crate) use recorded::{NotPlanned, PlannedFor, SharedByLot};
pub(crate) use setting::{RowOverrules, Setting};

use crate::figure::Alternative;
use crate::finding::Remedy;
use crate::input::{JobInput, RowInput};
use crate::job_figures::{Chance, HoleFigures};
use crate::tables::{Tables, Tube};

/// Least chance of being right that makes a tube an alternative, and how many are told.
const LEAST_ALTERNATIVE: f64 = 0.01;
const MOST_ALTERNATIVES: usize = 6;

/// The figures of one row, with its findings.
///
/// Formula: [`Context::row_figures`] with a context of its own.
///
/// - `input`: the job, for its material, machine and overrules.
/// - `row`: the row.
/// - `tables`: the shop's tables.
///
/// Result: figures; what can't be computed yet is `None`. For many rows make the context once.
///
/// ```
/// use quillbore_calc::hole::row_figures;
/// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
/// # use shop::*;
/// let tables = tables();
/// let input = job(vec![through(0.8, 20.0)]); // 0.7 to 0.9 mm, 20 mm deep, in tool steel
/// let figures = row_figures(&input, &input.rows[0], &tables);
/// assert!((figures.wear_mm.unwrap() - 16.88).abs() < 0.005);
/// assert_eq!(figures.electrodes_per_hole, Some(1));
/// ```
///
/// Source: the modules that compute the figures.
#[must_use]
pub fn row_figures(input: &JobInput, row: &RowInput, tables: &Tables) -> HoleFigures {
    Context::new(input, tables).row_figures(row)
}

impl Context<'_> {
    /// A row ready to be drilled under sampled lot factors.
    ///
    /// Formula: that of [`Context::row_figures`], without its findings.
    ///
    /// - `row`: the row.
    ///
    /// Result: the drill, or `None` where no minutes can be computed: size, depth, material, machine or
    /// feed missing, or the bottom out of reach.
    ///
    /// ```
    /// use quillbore_calc::hole::{Context, Draw};
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// # use shop::*;
    /// let tables = tables();
    /// let input = job(vec![through(0.8, 20.0)]);
    /// let context = Context::new(&input, &tables);
    /// let minutes = context.row_figures(&input.rows[0]).minutes.unwrap().p50;
    /// let hole = context.drill(&input.rows[0]).unwrap().at(&Draw::MEDIAN);
    /// assert!((hole.sparking_min + hole.other_min - minutes).abs() < 1e-12);
    /// ```
    ///
    /// Source: ours.
    #[must_use]
    pub fn drill(&self, row: &RowInput) -> Option<Drill> {
        self.plan(row).drill()
    }

    /// Tubes that a row could be begun with, most likely right first; the taken one is among them
    /// unless six others are likelier.
    ///
    /// Formula: [`crate::size::Sized::chance`] of every tube, by falling chance of being right less
    /// that of oversize.
    ///
    /// - `row`: the row.
    ///
    /// Result: up to six tubes with a chance of 1 % or more, each with the length that costs the lot
    /// least; none without limits.
    ///
    /// ```
    /// use quillbore_calc::hole::Context;
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// # use shop::*;
    /// let tables = tables();
    /// let input = job(vec![through(0.8, 20.0)]); // 0.7 to 0.9 mm
    /// let context = Context::new(&input, &tables);
    /// let all = context.alternatives(&input.rows[0]);
    /// let outer_mm: Vec<f64> = all.iter().map(|other| tables.tubes[other.tube.at()].outer_mm).collect();
    /// // Each is there in brass, in copper and with four channels.
    /// assert_eq!(outer_mm, [0.7, 0.7, 0.7, 0.75, 0.75, 0.75]);
    /// let figures = context.row_figures(&input.rows[0]);
    /// assert_eq!(figures.first_choice, Some(all[0].chance));
    /// ```
    ///
    /// Source: ours.
    #[must_use]
    pub fn alternatives(&self, row: &RowInput) -> Vec<Alternative> {
        let plan = self.plan(row);
        let is_chosen_by_size = !row.unread && plan.burnt.is_none() && row.broken.is_none();
        let Some(asked) = plan.asked().filter(|_| is_chosen_by_size) else {
            return Vec::new();
        };
        let choice = self.choice(&asked);
        let mut chances: Vec<_> = choice
            .chances
            .iter()
            .filter(|(_, chance)| chance.inside >= LEAST_ALTERNATIVE)
            .collect();
        let score = |chance: &Chance| chance.inside - chance.over;
        chances.sort_by(|(_, a), (_, b)| score(b).total_cmp(&score(a)));
        chances
            .into_iter()
            .take(MOST_ALTERNATIVES)
            .filter_map(|(place, chance)| {
                let tube = self.cheapest_length(row, *place)?;
                Some(Alternative {
                    tube,
                    chance: *chance,
                    remedy: Remedy::UseTube(row.id, tube),
                })
            })
            .collect()
    }

    /// The figures of one row and its drill, for little more than one of them.
    ///
    /// Formula: [`Context::row_figures`] and [`Context::drill`].
    ///
    /// - `row`: the row.
    ///
    /// Result: both.
    ///
    /// ```
    /// use quillbore_calc::hole::Context;
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// # use shop::*;
    /// let tables = tables();
    /// let input = job(vec![through(0.8, 20.0)]);
    /// let context = Context::new(&input, &tables);
    /// let (figures, drill) = context.figures_and_drill(&input.rows[0]);
    /// assert_eq!(figures, context.row_figures(&input.rows[0]));
    /// assert_eq!(drill, context.drill(&input.rows[0]));
    /// ```
    ///
    /// Source: ours.
    #[must_use]
    pub fn figures_and_drill(&self, row: &RowInput) -> (HoleFigures, Option<Drill>) {
        let plan = self.plan(row);
        (self.figures_of(row, &plan), plan.drill())
    }

    /// The same for a row with this tube.
    pub(crate) fn figures_and_drill_with(
        &self,
        row: &RowInput,
        tube: Idx<Tube>,
    ) -> (HoleFigures, Option<Drill>) {
        let plan = self.plan_with(row, tube);
        (self.figures_of(row, &plan), plan.drill())
    }

    /// The shop's tables.
    pub(crate) const fn tables(&self) -> &Tables {
        self.tables
    }

    /// Parts in the lot, at least one.
    pub(crate) fn parts(&self) -> u32 {
        self.setting.parts()
    }

    /// Usable length of a tube on the chosen machine [mm].
    pub(crate) fn usable_mm(&self, tube: Idx<Tube>) -> Option<f64> {
        tube.beside(&self.tubes)?.usable_mm
    }

    /// What minutes in holes, minutes of changing electrodes and electrodes bought come to [currency];
    /// 0 without a machine.
    pub(crate) fn money_of(&self, minutes: f64, changed: f64, bought: f64) -> f64 {
        let money = self.money.as_ref();
        money.map_or(0.0, |money| money.sum(minutes, changed, bought))
    }
}
