//! What is said of stored papers that can't be shown again.

use std::path::Path;

use quillbore_job::words::issued as words;
use quillbore_job::{Form, Issued};

use crate::failure::Failure;

/// Where else a paper is that is not in its job's folder.
const IN_BACKUP: &str = "take it from a backup; its text and prices are in the job";

/// That no paper has that number.
pub(crate) fn not_issued(number: &str) -> Failure {
    Failure::new(
        format!("No paper {number} was issued of this job"),
        "look at its papers",
    )
}

/// That somebody changed a paper's entry.
pub(crate) fn not_trusted(issued: &Issued) -> Failure {
    let said = words::not_reprinted(&issued.number);
    Failure::new(said, words::NOT_REPRINTED_HINT)
}

/// That a paper's file is gone.
pub(crate) fn gone(place: &Path) -> Failure {
    Failure::new("The paper can't be read: there is no such file", IN_BACKUP).at(place)
}

/// That somebody changed a paper's file.
pub(crate) fn changed(issued: &Issued, form: Form, place: &Path) -> Failure {
    Failure::new(
        format!(
            "The file of {} is not the paper that was issued on {}: somebody changed it",
            issued.number,
            form.day(issued.date)
        ),
        IN_BACKUP,
    )
    .at(place)
}
