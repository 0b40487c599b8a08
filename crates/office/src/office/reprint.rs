//! The stored PDF of an issued paper: a reprint is this file, to the byte.

use quillbore_job::file::hash;
use quillbore_job::words::issued as words;
use quillbore_job::{Issued, Job};

use crate::failure::Failure;
use crate::names::{AttachmentName, JobKey};
use crate::save::Opened;

/// The stored PDF of the paper with a number, and its place.
///
/// # Errors
/// Where there is no such paper, its entry was changed, the file is gone, or it is not the one that
/// was issued.
pub fn reprint(job: &Job, opened: &Opened, number: &str) -> Result<(String, Vec<u8>), Failure> {
    let issued = job.issued.iter().find(|paper| paper.number == number);
    let issued = issued.ok_or_else(|| {
        Failure::new(
            format!("No paper {number} was issued of this job"),
            "look at its papers",
        )
    })?;
    if !issued.is_trusted() {
        let said = words::not_reprinted(&issued.number);
        return Err(Failure::new(said, words::NOT_REPRINTED_HINT));
    }
    let keeper = match &issued.kept_by {
        Some(other) => JobKey::new(other)?,
        None => opened.key.clone(),
    };
    // The name stands in a file that anybody can edit: it never leads out of the job's folder.
    let name = AttachmentName::new(&issued.file)?;
    let place = opened.shelf.place_of(&keeper, &name);
    let bytes = opened.shelf.attachment(&keeper, &name)?;
    let bytes = bytes.ok_or_else(|| {
        Failure::new(
            "The paper can't be read: there is no such file",
            "take it from a backup; its text and prices stand in the job",
        )
        .at(std::path::Path::new(&place))
    })?;
    if hash(&bytes) == issued.hash {
        return Ok((place, bytes));
    }
    Err(changed(issued).at(std::path::Path::new(&place)))
}

fn changed(issued: &Issued) -> Failure {
    Failure::new(
        format!(
            "The file of {} is not the paper that was issued on {}: somebody changed it",
            issued.number, issued.date
        ),
        "take it from a backup; its text and prices stand in the job",
    )
}
