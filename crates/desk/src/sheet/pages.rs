//! The pages of a paper as they are laid out, kept until something that they show changes.

use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::results::Results;
use quillbore_job::{Job, Paper};
use quillbore_office::print::{self, Sitting};
use quillbore_paper::Document;

use super::shared::Shared;

/// The pages of a paper, and what they were laid out of.
pub struct Pages {
    /// The pages.
    pub document: Document,
    /// Which paper it is.
    pub paper: Paper,
    job: Arc<Job>,
    results: Arc<Results>,
    day: NaiveDate,
}

impl Pages {
    /// Lays a paper out.
    pub fn of(paper: Paper, shared: &Shared<'_>) -> Self {
        let sitting = Sitting {
            job: shared.job,
            results: shared.results,
        };
        // Other tables give other results, so that the shop needs no comparison of its own.
        let (shop, day) = (shared.shop, shared.day);
        Self {
            document: print::draft(paper, sitting, shop, day, shared.sheet).0,
            paper,
            job: Arc::clone(shared.job),
            results: Arc::clone(shared.results),
            day,
        }
    }

    /// Whether they are still what the paper would look like.
    pub fn are_of(&self, paper: Paper, shared: &Shared<'_>) -> bool {
        self.paper == paper
            && self.day == shared.day
            && self.document.sheet == shared.sheet
            && Arc::ptr_eq(&self.job, shared.job)
            && Arc::ptr_eq(&self.results, shared.results)
    }
}
