//! Opening a job for a desk, with what an interrupted issue left half done told or completed.

use std::sync::Arc;

use quillbore_job::{Job, Paper};

use crate::failure::Failure;
use crate::issue::{interrupted, joint};
use crate::names::JobKey;
use crate::office::{Office, Wanted, read, read_or_seen};
use crate::save::Opened;
use crate::shelf::Held;

/// A job that was opened, and what is to be told of it.
#[derive(Debug)]
pub struct OnDesk {
    /// The job.
    pub job: Arc<Job>,
    /// Where it stands.
    pub opened: Opened,
    /// Whether another desk has it open.
    pub held: Held,
    /// What is to be told at opening, sentence by sentence.
    pub told: Vec<String>,
}

impl Office {
    /// Opens a job for a desk that calls itself `by`. What an interrupted issue left half done is
    /// told, and a joint quotation that reached only its keeper is completed; `keepers` are the jobs
    /// that are known to keep such a one of this job.
    ///
    /// # Errors
    /// Where it can't be read or is no job.
    pub fn open(&self, wanted: &Wanted, by: &str, keepers: &[JobKey]) -> Result<OnDesk, Failure> {
        let (shelf, key) = self.find(wanted)?;
        let mut told = Vec::new();
        let (mut opened, is_seen) = read_or_seen(&shelf, &key)?;
        if is_seen {
            return Ok(OnDesk {
                job: Arc::clone(&opened.base),
                opened,
                held: Held::Unknown,
                told: vec![crate::words::office::LAST_SEEN.to_owned()],
            });
        }
        let held = shelf.hold(&key, by);
        if matches!(held, Held::NoLocks) {
            told.push(crate::words::office::NO_LOCKS.to_owned());
        }
        told.extend(renamed(&opened));
        told.extend(interrupted::told(&opened));
        let (completed, said) = joint::complete(self, &opened, keepers);
        told.extend(said);
        if completed {
            opened = read(&shelf, &key)?;
        }
        Ok(OnDesk {
            job: Arc::clone(&opened.base),
            opened,
            held,
            told,
        })
    }
}

/// What is said where a file was renamed or copied by hand, so that its name is not the number in it.
fn renamed(opened: &Opened) -> Option<String> {
    let (key, number) = (opened.key.as_str(), opened.base.number.as_str());
    if number.is_empty() || key == number {
        return None;
    }
    let papers = Paper::ALL
        .iter()
        .any(|paper| opened.base.standing(*paper).next().is_some());
    Some(crate::words::office::renamed(key, number, papers))
}
