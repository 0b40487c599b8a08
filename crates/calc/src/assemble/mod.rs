//! A job's figures from its input: the one way in for desk, commands and papers.
//!
//! - [`Kept::prepare`] computes everything that takes no search and no draw, once an edit: rows that stand
//!   as they stood before, and tubes whose rows do, are taken as they were.
//! - [`Prepared::questions`] tells by value what searches and draws are asked: hole orders, packings of
//!   electrodes, the joint draw. Equal questions have equal answers, so each is the key of its answer;
//!   an edit of a rate or a margin changes none of them, and an edit of a row only those of its tube.
//! - [`Question::answer`] searches or draws: for a worker, a millisecond to some seconds, and it can be
//!   stopped.
//! - [`Prepared::figures`] puts in what [`Answers`] are at hand: a settled plan, else a first one, else
//!   quick bounds; [`JobFigures::settled`] says whether anything is left to search or draw.
//! - [`quick`], [`figures_now`] do it in one go, with no answer and with all of them.
//!
//! The P50 of hours and cost is the figure at the medians of all inputs, which is what the working
//! sums up; P10 and P90 are of the joint draw, and are never sums of other P10s and P90s. The median
//! of the draw itself lies within a few percent of the P50 shown. The price rests on neither but on
//! the expected cost, which is told as a line of its own beyond the cost at the medians.
//!
//! An overruled figure of the lot stands for the offered quantity; further quantities are computed
//! and then take the same ratio of what stands to what was computed.

mod answers;
mod bands;
mod checks;
mod clamped;
mod demand;
mod draws;
mod electrodes;
mod expected;
mod figures;
mod found;
mod known;
mod lengths;
mod lot;
mod mean;
mod overruled;
mod packing;
mod prepare;
mod pricing;
mod rows;
mod travel;
mod tube;
mod tubes;

use alloc::vec::Vec;

pub use answers::{Answer, Answers, Question};
pub use draws::DrawQuestion;
pub use prepare::{Kept, Prepared};
pub use travel::OrderQuestion;

use crate::input::JobInput;
use crate::job_figures::JobFigures;
use crate::stop::never;
use crate::tables::Tables;

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
    figures(input, tables, &Answers::default())
}

/// What searches and draws of a job are asked.
#[must_use]
pub fn questions(input: &JobInput, tables: &Tables) -> Vec<Question> {
    Kept::default().prepare(input, tables).questions()
}

/// Searches and draws; the same questions give the same answers.
#[must_use]
pub fn answer(questions: &[Question]) -> Answers {
    let mut answers = Answers::default();
    for question in questions {
        if let (false, Some(answer)) = (answers.has(question), question.answer(&never)) {
            answers.put(question.clone(), answer);
        }
    }
    answers
}

/// All figures of a job, with the answers to its questions as far as they are at hand.
#[must_use]
pub fn figures(input: &JobInput, tables: &Tables, answers: &Answers) -> JobFigures {
    Kept::default().prepare(input, tables).figures(answers)
}

/// All figures of a job, with every search and draw done at once.
#[must_use]
pub fn figures_now(input: &JobInput, tables: &Tables) -> JobFigures {
    Kept::default().prepare(input, tables).figures_now()
}
