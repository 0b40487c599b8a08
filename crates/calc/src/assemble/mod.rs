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
mod by_whom;
mod checks;
mod clamped;
mod demand;
mod draws;
mod electrodes;
mod expected;
mod figures;
mod found;
mod guides;
mod holding;
mod in_work;
mod known;
mod lengths;
mod lot;
mod mean;
mod overruled;
mod packing;
mod prepare;
mod pricing;
mod risk;
mod rows;
mod stubs;
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
/// use quillbore_calc::assemble::quick;
/// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
/// # use shop::*;
/// // 10 parts of 12 holes in one clamping; set up 30 to 60 min, loaded in 2 to 5, pins in 0.1 to 0.25.
/// let figures = quick(&job(vec![through(0.8, 20.0)]), &tables());
/// let lot = figures.lot.unwrap();
/// assert!((lot.machine.set_up - 42.426).abs() < 0.0005); // sqrt(30 x 60)
/// assert!((lot.machine.load - 31.623).abs() < 0.0005); // 10 sqrt(2 x 5)
/// assert!((lot.labor.inspect - 18.974).abs() < 0.0005); // 120 sqrt(0.1 x 0.25)
/// // Ten parts at a margin of 20 % are the expected cost, but for half a cent each.
/// let price = figures.price.unwrap();
/// let each: f64 = price.breaks[0].each.to_string().parse().unwrap();
/// assert!((each * 10.0 * 0.8 - price.expected_cost).abs() < 0.05);
/// // An empty job has no figures yet, and says what is missing.
/// let empty = quick(&quillbore_calc::JobInput::default(), &tables());
/// assert!(empty.price.is_none() && !empty.findings.is_empty());
/// ```
///
/// Source: the modules named above.
#[must_use]
pub fn quick(input: &JobInput, tables: &Tables) -> JobFigures {
    figures(input, tables, &Answers::default())
}

/// What searches and draws of a job are asked.
///
/// Formula: an order for each run of four places and more in a clamping; for each tube a packing of each
/// quantity, and of the offered lot the kit and the table's order; the draw of the offered lot.
///
/// - `input`: the job.
/// - `tables`: what the shop knows.
///
/// Result: questions by value; those of an equal lot are equal.
///
/// ```
/// use quillbore_calc::JobInput;
/// use quillbore_calc::assemble::{Question, questions};
/// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
/// # use shop::*;
/// let (input, tables) = (job(vec![through(0.8, 20.0)]), tables());
/// // One tube: the offered lot, its kit; and the draw.
/// let asked = questions(&input, &tables);
/// let packings = |asked: &[Question]| {
///     asked.iter().filter(|question| matches!(question, Question::Packing(_))).count()
/// };
/// assert_eq!((asked.len(), packings(&asked)), (3, 2));
/// // Two quantities more are two packings more; a margin asks nothing.
/// let more = JobInput { breaks: vec![5, 50], ..input.clone() };
/// let asked_more = questions(&more, &tables);
/// assert_eq!((asked_more.len(), packings(&asked_more)), (5, 4));
/// assert_eq!(questions(&JobInput { margin: Some(0.5), ..input }, &tables), asked);
/// ```
///
/// Source: ours.
#[must_use]
pub fn questions(input: &JobInput, tables: &Tables) -> Vec<Question> {
    Kept::once().prepare(input, tables).questions()
}

/// Searches and draws; the same questions give the same answers.
///
/// Formula: [`crate::order`], [`crate::packing`] and the joint draw of [`crate::spread`], each question
/// once.
///
/// - `questions`: what is asked, of one job or of several.
///
/// Result: the answer to each.
///
/// ```
/// use quillbore_calc::JobInput;
/// use quillbore_calc::assemble::{answer, figures, figures_now, questions};
/// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
/// # use shop::*;
/// let (input, tables) = (job(vec![through(0.8, 20.0)]), tables());
/// let answers = answer(&questions(&input, &tables));
/// assert!(questions(&input, &tables).iter().all(|question| answers.has(question)));
/// // They answer whatever asks the same: here the job at another margin.
/// let dearer = JobInput { margin: Some(0.5), ..input };
/// assert_eq!(figures(&dearer, &tables, &answers), figures_now(&dearer, &tables));
/// ```
///
/// Source: the modules named above.
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
///
/// Formula: that of [`quick`], with the electrodes that were found, the travel of the orders that were
/// found, and the percentiles of the draw in place of bound, sweep and first order.
///
/// - `input`: the job.
/// - `tables`: what the shop knows.
/// - `answers`: those at hand; answers to other questions are left out.
///
/// Result: figures and findings, `settled` true where every question has its answer.
///
/// ```
/// use quillbore_calc::assemble::{Answers, answer, figures, figures_now, questions, quick};
/// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
/// # use shop::*;
/// let (input, tables) = (job(vec![through(0.8, 20.0)]), tables());
/// // Without an answer they are the quick ones, with all of them the settled ones.
/// let none = Answers::default();
/// assert_eq!(figures(&input, &tables, &none), quick(&input, &tables));
/// let all = answer(&questions(&input, &tables));
/// assert_eq!(figures(&input, &tables, &all), figures_now(&input, &tables));
/// // Those to another job's questions change nothing.
/// let other = answer(&questions(&job(vec![through(1.2, 30.0)]), &tables));
/// assert_eq!(figures(&input, &tables, &other), quick(&input, &tables));
/// ```
///
/// Source: the modules that compute the figures.
#[must_use]
pub fn figures(input: &JobInput, tables: &Tables, answers: &Answers) -> JobFigures {
    Kept::once().prepare(input, tables).figures(answers)
}

/// All figures of a job, with every search and draw done at once.
///
/// Formula: that of [`figures`], with the answers to all [`questions`].
///
/// - `input`: the job.
/// - `tables`: what the shop knows.
///
/// Result: figures and findings, `settled` always.
///
/// ```
/// use quillbore_calc::assemble::figures_now;
/// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
/// # use shop::*;
/// // 120 holes alike: an electrode drills until the next hole would not be reached any more.
/// let figures = figures_now(&job(vec![through(0.8, 20.0)]), &tables());
/// let hole = &figures.holes[0];
/// let past_guide = hole.target_depth_mm.unwrap() - 8.0; // the machine's stand-off
/// let each = ((hole.usable_mm.unwrap() - past_guide) / hole.wear_mm.unwrap()).floor();
/// let lot = figures.lot.unwrap();
/// assert_eq!(f64::from(lot.electrodes[0].needed), (120.0 / each).ceil());
/// // The median is the sum that the working shows, and lies within the draw's percentiles.
/// let hours = lot.machine_hours;
/// assert!((hours.p50 - lot.machine.sum() / 60.0).abs() < 1e-9);
/// assert!(figures.settled && hours.p10 < hours.p50 && hours.p50 < hours.p90);
/// ```
///
/// Source: the modules that compute the figures.
#[must_use]
pub fn figures_now(input: &JobInput, tables: &Tables) -> JobFigures {
    Kept::once().prepare(input, tables).figures_now()
}
