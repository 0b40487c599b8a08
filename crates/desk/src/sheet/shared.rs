//! What every panel of the sheet may read, and where its lines stand.

use std::collections::BTreeMap;
use std::sync::Arc;

use quillbore_job::results::promise::Promise;
use quillbore_job::results::{Beside, Results};
use quillbore_job::taught::Taught;
use quillbore_job::words::speaker::Speaker;
use quillbore_job::{Block, Job, Shop};
use quillbore_office::office::queue::Queue;
use quillbore_office::pool::Teaching;
use quillbore_paper::Sheet;

/// What every panel may read.
#[derive(Clone, Copy)]
pub struct Shared<'a> {
    /// The job.
    pub job: &'a Arc<Job>,
    /// What was computed of it.
    pub results: &'a Arc<Results>,
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
    /// What this desk calls itself: who notes an answer.
    pub by: &'a str,
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
        }
    }
}

/// Where on the screen a line stands that a side note can speak of.
#[derive(Default)]
pub struct Anchors {
    lines: BTreeMap<Beside, f32>,
    /// Where the figure stands whose working is open.
    pub opened: Option<f32>,
    /// Where the hole table stands, for rows of it that are out of sight.
    pub table: Option<f32>,
}

impl Anchors {
    /// Notes where a line stands.
    pub fn put(&mut self, beside: Beside, y: f32) {
        self.lines.entry(beside).or_insert(y);
    }

    /// Where a line stands; a cell's row, or its block, where the cell itself is not drawn.
    #[must_use]
    pub fn find(&self, beside: Beside) -> Option<f32> {
        let direct = self.lines.get(&beside).copied();
        direct.or_else(|| match beside {
            Beside::Row(row, _) => {
                let row = self.lines.get(&Beside::Row(row, None)).copied();
                row.or(self.table)
            }
            Beside::Field(field) if field.block() == Block::Price => {
                self.lines.get(&Beside::Price).copied()
            }
            Beside::Field(field) if field.block() == Block::Plan => {
                self.lines.get(&Beside::Plan).copied()
            }
            Beside::Field(_) => self.lines.values().copied().reduce(f32::min),
            Beside::Slip(slip, Some(_)) => self.lines.get(&Beside::Slip(slip, None)).copied(),
            Beside::Plan | Beside::Price | Beside::Papers | Beside::Slip(..) => None,
        })
    }
}
