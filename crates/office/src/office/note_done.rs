//! A line of the day's list noted as done in its job, without the job being opened on a desk.

use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::apply;

use super::base::Office;
use super::read::read;
use crate::failure::Failure;
use crate::save::{Opened, save};
use crate::today::{Waiting, done};
use crate::words::office as words;

/// How often somebody else may save the job first before it is given up.
const TRIES: usize = 5;

impl Office {
    /// Notes in a line's job that it is done, and saves the job; what another desk saved meanwhile stays.
    ///
    /// # Errors
    /// Where the line is done in its place alone, or the job can't be read or saved.
    pub fn note_done(&self, line: &Waiting, day: NaiveDate, by: &str) -> Result<Opened, Failure> {
        let key = line
            .matter
            .job
            .as_ref()
            .ok_or_else(words::done_in_its_place)?;
        let form = self.shop().form;
        let mut last = None;
        for _ in 0..TRIES {
            let opened = read(&self.shelf, key)?;
            let edit =
                done(line, &opened.base, day, form, by).ok_or_else(words::done_in_its_place)?;
            let (job, _) = apply(&opened.base, &edit)
                .map_err(|refused| Failure::new(refused.to_string(), refused.hint()))?;
            match save(&self.shelf, key, &Arc::new(job), Some(opened.version)) {
                Ok(saved) => return Ok(saved),
                Err(error) if error.is_changed() => last = Some(error),
                Err(error) => return Err(error.into()),
            }
        }
        Err(last.map_or_else(words::done_in_its_place, Failure::from))
    }
}
