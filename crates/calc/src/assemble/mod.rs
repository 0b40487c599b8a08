//! A job's figures from its input: the one way in for desk, commands and papers.
//!
//! - [`quick`] computes everything that takes no search and no draw, in a millisecond or two for
//!   thousands of rows, so that it can run on each edit. Electrodes, travel and spread are quick
//!   estimates in it, and [`JobFigures::settled`] says so.
//! - [`questions`] tells by value what searches and draws would be asked: hole orders, packings of
//!   electrodes, the joint draw. Equal questions have equal answers, so they are the key of a cache;
//!   an edit of a rate or a margin changes none of them.
//! - [`answer`] does the searches and draws: for a worker, 10 ms to some seconds.
//! - [`figures`] is [`quick`] with the answers put in, where they are answers to just this job's
//!   questions; others are left out, never half used.
//! - [`figures_now`] does all of it in one go.
//!
//! The P50 of hours and cost is the figure at the medians of all inputs, which is what the working
//! sums up; P10 and P90 are of the joint draw, and are never sums of other P10s and P90s. The median
//! of the draw itself lies within a few percent of the P50 shown. The price rests on neither but on
//! the expected cost, which is told as a line of its own beyond the cost at the medians.
//!
//! An overruled figure of the lot stands for the offered quantity; further quantities are computed
//! and then take the same ratio of what stands to what was computed.

mod bands;
mod checks;
mod draws;
mod electrodes;
mod expected;
mod lengths;
mod lot;
mod model;
mod packed;
mod prepare;
mod pricing;

use alloc::vec::Vec;

use crate::input::JobInput;
use crate::job_figures::JobFigures;
use crate::order::{Ends, Metric, OrderEffort, hole_order};
use crate::tables::Tables;

use draws::DrawQuestion;
use model::DrawnLot;
use packed::{PackAnswer, PackQuestion};
pub(crate) use prepare::Prepared;

/// What searches and draws of a job are asked; equal questions have equal answers.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Questions {
    /// Points of each run whose order is worth a search [mm].
    orders: Vec<Vec<[f64; 2]>>,
    packings: Vec<PackQuestion>,
    draw: Option<DrawQuestion>,
}

/// What searches and draws found.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Answers {
    asked: Questions,
    orders: Vec<Vec<u32>>,
    packings: Vec<PackAnswer>,
    draws: Vec<DrawnLot>,
}

/// All figures of a job without search or draw.
///
/// Formula: rows by [`crate::hole`], clampings by [`crate::setup`], minutes by [`crate::rollup`],
/// cost by [`crate::cost`], price by [`crate::price`]; electrodes by a lower bound, travel by a
/// sweep, spread to first order.
///
/// - `input`: the job.
/// - `tables`: what the shop knows.
///
/// Result: figures and findings, `settled` false where anything is left to search or draw.
///
/// ```
/// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
/// # let tables = shop::tables();
/// # let input = quillbore_calc::JobInput::default();
/// // An empty job has no figures yet, and says what is missing.
/// let figures = quillbore_calc::assemble::quick(&input, &tables);
/// assert!(figures.price.is_none() && !figures.findings.is_empty());
/// ```
///
/// Source: the modules named above.
#[must_use]
pub fn quick(input: &JobInput, tables: &Tables) -> JobFigures {
    Prepared::new(input, tables).figures(None)
}

/// What searches and draws of a job would be asked.
#[must_use]
pub fn questions(input: &JobInput, tables: &Tables) -> Questions {
    Prepared::new(input, tables).questions()
}

/// Searches and draws; the same questions give the same answers.
#[must_use]
pub fn answer(questions: &Questions) -> Answers {
    let packings: Vec<PackAnswer> = questions
        .packings
        .iter()
        .map(PackQuestion::answer)
        .collect();
    Answers {
        asked: questions.clone(),
        orders: questions
            .orders
            .iter()
            .map(|points| search_order(points))
            .collect(),
        draws: questions
            .draw
            .as_ref()
            .map_or(Vec::new(), |draw| draw.answer(&packings)),
        packings,
    }
}

/// All figures of a job, with the answers to its questions where they are at hand.
///
/// Answers to other questions than this job's are left out.
#[must_use]
pub fn figures(input: &JobInput, tables: &Tables, answers: Option<&Answers>) -> JobFigures {
    let prepared = Prepared::new(input, tables);
    let answers = answers.filter(|answers| answers.asked == prepared.questions());
    prepared.figures(answers)
}

/// All figures of a job, with every search and draw done at once.
#[must_use]
pub fn figures_now(input: &JobInput, tables: &Tables) -> JobFigures {
    let prepared = Prepared::new(input, tables);
    let answers = answer(&prepared.questions());
    prepared.figures(Some(&answers))
}

/// Kicks by the number of points: a ring has a thousand runs of a few points each, so the floor is
/// low.
fn search_order(points: &[[f64; 2]]) -> Vec<u32> {
    let effort = OrderEffort {
        kicks: (points.len() as u64 * 30).clamp(100, 600_000),
        seed: 1,
    };
    hole_order(points, Metric::Straight, Ends::Open, &effort)
        .order
        .into_iter()
        .filter_map(|index| u32::try_from(index).ok())
        .collect()
}
