//! What every panel of the sheet may read, and where its lines stand.

use std::collections::BTreeMap;
use std::sync::Arc;

use egui::Rangef;
use quillbore_calc::RowId;
use quillbore_job::results::promise::Promise;
use quillbore_job::results::{Beside, Results};
use quillbore_job::taught::Taught;
use quillbore_job::words::speaker::Speaker;
use quillbore_job::{Block, Job, Shop};
use quillbore_office::office::Attached;
use quillbore_office::office::queue::Queue;
use quillbore_office::pool::Teaching;
use quillbore_paper::Sheet;

use super::whole::Whole;
use crate::desk::Made;

/// What every panel may read.
#[derive(Clone, Copy)]
pub struct Shared<'a> {
    /// The job.
    pub job: &'a Arc<Job>,
    /// What was computed of it.
    pub results: &'a Arc<Results>,
    /// Nothing of it is still being searched for, and the records of the shelf are known.
    pub is_settled: bool,
    /// What is said of all of it together.
    pub whole: &'a Whole,
    /// The shop.
    pub shop: &'a Shop,
    /// The job's own run records, each held against the start values.
    pub taught: &'a [Taught],
    /// What run records teach, and where they stand.
    pub teaching: &'a Teaching,
    /// Today.
    pub day: chrono::NaiveDate,
    /// The paper that is printed on.
    pub sheet: Sheet,
    /// The job that this one does again, where the shelf has it.
    pub before: Option<&'a Job>,
    /// When its lot is done, as far as that is known.
    pub promise: Option<&'a Promise>,
    /// What comes first on its machine.
    pub queue: &'a Queue,
    /// Numbers of the other open inquiries of the same customer: a quotation may hold them all.
    pub together: &'a [String],
    /// The files beside the job, by name, size and hash.
    pub beside: &'a [Attached],
    /// What the last deed made, while it is told.
    pub made: Option<&'a Made>,
    /// What this desk calls itself: who notes an answer.
    pub by: &'a str,
    /// What tells this state of the job and of what is known from every other.
    pub state: u64,
    /// What tells this sheet from the others on the desk.
    pub sheet_id: u64,
}

impl<'a> Shared<'a> {
    /// Who puts findings and figures into words.
    #[must_use]
    pub fn speaker(&self) -> Speaker<'a> {
        Speaker {
            job: self.job,
            tables: &self.shop.tables,
            unit: self.job.unit,
            form: self.shop.form,
        }
    }
}

/// Where on the screen a line stands that a side note can speak of.
#[derive(Default)]
pub struct Anchors {
    lines: BTreeMap<Beside, Rangef>,
}

impl Anchors {
    /// Notes where a line stands.
    pub fn put(&mut self, beside: Beside, at: Rangef) {
        self.lines.entry(beside).or_insert(at);
    }

    /// Forgets the lines whose middle is out of sight.
    pub fn keep_in_sight(&mut self, sight: Rangef) {
        self.lines.retain(|_, at| sight.contains(at.center()));
    }

    /// The rows of the hole table that are in sight.
    pub(super) fn rows(&self) -> impl Iterator<Item = RowId> {
        self.lines.keys().filter_map(|beside| match beside {
            Beside::Row(row, _) => Some(*row),
            _ => None,
        })
    }

    /// Where a line stands; a cell's row, or its block, where the cell itself is not drawn. None where
    /// it is out of sight.
    #[must_use]
    pub fn find(&self, beside: Beside) -> Option<Rangef> {
        let find = |beside| self.lines.get(&beside).copied();
        find(beside).or_else(|| match beside {
            Beside::Row(row, Some(_)) => find(Beside::Row(row, None)),
            Beside::Field(field) if field.block() == Block::Price => find(Beside::Price),
            Beside::Field(field) if field.block() == Block::Plan => find(Beside::Plan),
            Beside::Slip(slip, Some(_)) => find(Beside::Slip(slip, None)),
            _ => None,
        })
    }
}
