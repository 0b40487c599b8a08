//! What is said of a shelf's list: of jobs that can't be read, of a shelf that can't be reached, of a
//! clock that is behind.

use chrono::NaiveDate;
use quillbore_job::Form;
use quillbore_job::file::ReadError;

use crate::shelf::ShelfError;

/// Why a document is no job that can be opened.
pub(crate) fn no_job(why: &ReadError) -> String {
    format!("{why}. {}", why.hint())
}

/// That a document is larger than any job.
pub(crate) fn too_large() -> String {
    "The file is larger than any job. Remove it, or take the version before the last save."
        .to_owned()
}

/// Why a job could not be read this time.
pub(crate) fn not_read(why: &ShelfError) -> String {
    match why {
        ShelfError::Step { says, .. } => format!(
            "This job can't be read now ({says}). It is tried again at each look; check its \
             permissions, and whether the disk is all right."
        ),
        _ => "This is not a plain file any more. Put the job's file itself there.".to_owned(),
    }
}

/// Why the list is from before.
pub(crate) fn unreachable(why: &ShelfError, place: &str) -> String {
    let why = match why {
        ShelfError::Step { says, .. } => says.as_str(),
        ShelfError::Vanished { .. } => "it is gone, or another one is in its place",
        ShelfError::NoServer { says, .. } | ShelfError::MayNot { says, .. } => says.as_str(),
        ShelfError::NoEntry { .. } => "its server wants a password, or another one",
        ShelfError::NewerTables { .. } => "a newer version of Quillbore made it",
        ShelfError::OlderTables { .. } => "its tables are those of an older version of Quillbore",
        ShelfError::HalfCopied { .. } => "it is a copy that is not whole yet",
        ShelfError::NotMarked { .. }
        | ShelfError::OneFile { .. }
        | ShelfError::Link { .. }
        | ShelfError::NoFile { .. }
        | ShelfError::TooLarge { .. } => "something else is in its place",
    };
    format!(
        "The shelf can't be read ({why}); what is listed is from before. Connect it again; until then \
         open jobs can be saved elsewhere by save as: {place}"
    )
}

/// What is said where the clock is behind the jobs.
pub(crate) fn clock_behind(today: NaiveDate, newest: NaiveDate, form: Form) -> String {
    let [today, newest] = [today, newest].map(|day| form.day(day));
    format!(
        "This machine's clock says {today}, but a job was opened on {newest}: correct the clock \
         before anything is dated."
    )
}
