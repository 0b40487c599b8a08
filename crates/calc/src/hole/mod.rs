//! One row of the hole table, from its limits and depth to its minutes, wear and electrodes.
//!
//! [`row_figures`] computes one row; [`Context`] does so for many, with what the shop's tables
//! say worked out once. For a lot's joint draw, [`Context::drill`] prepares a row and
//! [`Drill::at`] recomputes it for sampled lot factors in a few nanoseconds:
//!
//! - [`Draw`] holds three factors about the median, all 1 at the median. `feed` multiplies the
//!   feed (the sparking minutes are divided by it), `wear` multiplies the wear by length,
//!   `handling` multiplies every minute that does not go with the feed. [`Drill::sigmas`] says how
//!   far feed and wear of a lot scatter.
//! - [`DrawnHole`] holds what comes out. Its target depth is counted from the work's surface, as
//!   the usable length U is; its stages say what electrodes a plan for the lot has to find.
//!
//! What the work material has to say is said once for the job, by [`material_findings`].
//!
//! Both ends, where both are open and nobody has decided: one end is planned where it reaches, and
//! a finding says if both would be faster, the row's share of the turn-over counted; both are
//! planned where only they reach.

mod context;
mod draw;
mod drill;
mod figures;
mod material;
mod meet;
mod plan;
mod profile;
mod route;
mod say;
mod way;

pub use context::Context;
pub use draw::{Draw, DrawnHole, Stage};
pub use drill::Drill;
pub use material::material_findings;

use crate::input::{JobInput, RowInput};
use crate::job_figures::HoleFigures;
use crate::tables::Tables;

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
/// assert!((figures.wear_mm.unwrap() - 16.38).abs() < 0.005);
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
}
