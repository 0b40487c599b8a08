//! A job with all that its papers are made of.

use chrono::NaiveDate;
use quillbore_calc::{JobFigures, JobInput, Tables};
use quillbore_job::answer::Answer;
use quillbore_job::{Edit, Job, apply};
use quillbore_paper::{Issuer, Matter, Remark, Sheet};

pub struct Sample {
    pub job: Job,
    pub input: JobInput,
    pub figures: JobFigures,
    pub tables: Tables,
    pub remarks: Vec<Remark>,
    pub answers: Vec<Answer>,
    pub issuer: Issuer,
}

impl Sample {
    pub fn matter(&self, sheet: Sheet) -> Matter<'_> {
        Matter {
            job: &self.job,
            input: &self.input,
            figures: &self.figures,
            tables: &self.tables,
            unknown: &[],
            remarks: &self.remarks,
            issuer: &self.issuer,
            language: self.job.language(),
            sheet: sheet.into(),
            date: day(),
            number: None,
            valid_until: None,
            answers: &self.answers,
            quotation: None,
            preview: None,
            annex: true,
        }
    }
}

pub fn day() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 11, 7).unwrap()
}

pub(super) fn set(job: &mut Job, edit: &Edit) {
    *job = apply(job, edit).unwrap().0;
}
