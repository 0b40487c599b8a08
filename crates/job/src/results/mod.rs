//! Everything computed of a job, recomputed on each edit and never stored.

mod agreed_notes;
mod by_runs;
mod count_notes;
mod currency_notes;
mod days_notes;
mod depth_notes;
mod due_notes;
mod end_notes;
mod exchange_notes;
pub mod foot;
mod found;
mod hour_notes;
mod kind;
mod margin_note;
mod marks;
mod next;
mod note;
mod notes;
mod paper_notes;
mod part_notes;
pub mod promise;
mod questions;
mod records_behind;
pub mod remedy;
mod run_fault;
mod run_notes;
mod seals;
mod slip_notes;
mod telling;
mod whole;

use quillbore_calc::assemble::{self, Answers, Question as Search};
use quillbore_calc::{JobFigures, JobInput, Tables};

pub use by_runs::ByRuns;
pub use kind::{Missing, NoteKind};
pub use next::{NextStep, next_call};
pub use note::{Beside, SideNote};
pub use run_fault::RunFault;

pub use telling::Telling;
pub use whole::Results;

use crate::asked::to_input::{Asked, to_input};
use crate::issued::seal::SealState;
use crate::job::Job;
use crate::shop::rows::Shop;
use notes::notes;
use seals::KeptSeals;

/// What was worked out for a job, and what its searches and draws found: the next edit takes from it
/// what still holds.
#[derive(Default)]
pub struct Kept {
    rows: assemble::Kept,
    answers: Answers,
    seals: KeptSeals,
}

impl Kept {
    /// The job's results, and the searches and draws that are still open, the most urgent first; until
    /// they are answered what rests on them is a first plan or a quick estimate.
    pub fn results(&mut self, job: &Job, shop: &Shop) -> (Results, Vec<Search>) {
        let asked = to_input(job, shop);
        let prepared = self.rows.prepare(&asked.input, &shop.tables);
        self.answers.note(&prepared.questions());
        let open = prepared.open(&self.answers);
        let figures = prepared.figures(&self.answers);
        let seals = self.seals.states(&job.issued);
        (with_notes(job, shop, asked, figures, &seals), open)
    }

    /// Keeps what a search or draw found.
    pub fn put(&mut self, asked: Search, answer: assemble::Answer) {
        self.answers.put(asked, answer);
    }
}

/// The job's results; what rests on searches and draws is a quick estimate.
#[must_use]
pub fn results_quick(job: &Job, shop: &Shop) -> Results {
    results_of(job, shop, assemble::quick)
}

/// The job's results with every search and draw done at once.
#[must_use]
pub fn results_now(job: &Job, shop: &Shop) -> Results {
    results_of(job, shop, assemble::figures_now)
}

fn results_of(job: &Job, shop: &Shop, figures: fn(&JobInput, &Tables) -> JobFigures) -> Results {
    let asked = to_input(job, shop);
    let figures = figures(&asked.input, &shop.tables);
    let seals = KeptSeals::default().states(&job.issued);
    with_notes(job, shop, asked, figures, &seals)
}

fn with_notes(
    job: &Job,
    shop: &Shop,
    asked: Asked,
    figures: JobFigures,
    seals: &[SealState],
) -> Results {
    let notes = notes(job, shop, &asked, &figures, seals);
    Results {
        asked,
        figures,
        notes,
        stands_in: shop.stands_in(),
    }
}
