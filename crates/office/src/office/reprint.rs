//! The stored PDF of an issued paper: a reprint is this file, to the byte.

use std::path::Path;

use quillbore_job::file::hash;
use quillbore_job::{Form, Job};

use super::beside::to_open;
use crate::failure::Failure;
use crate::names::{AttachmentName, JobKey};
use crate::save::Opened;
use crate::words::reprint as words;

/// The stored PDF of the paper with a number, and its place.
///
/// # Errors
/// Where there is no such paper, its entry was changed, the file is gone, or it is not the one that
/// was issued.
pub fn reprint(
    job: &Job,
    opened: &Opened,
    number: &str,
    form: Form,
) -> Result<(String, Vec<u8>), Failure> {
    let issued = job.issued.iter().find(|paper| paper.number == number);
    let issued = issued.ok_or_else(|| words::not_issued(number))?;
    if !issued.is_trusted() {
        return Err(words::not_trusted(issued));
    }
    let keeper = match &issued.kept_by {
        Some(other) => JobKey::new(other)?,
        None => opened.key.clone(),
    };
    // The name stands in a file that anybody can edit: it never leads out of the job's folder.
    let name = AttachmentName::new(&issued.file)?;
    let place = opened.shelf.place_of(&keeper, &name);
    let bytes = opened.shelf.attachment(&keeper, &name)?;
    let bytes = bytes.ok_or_else(|| words::gone(Path::new(&place)))?;
    if hash(&bytes) == issued.hash {
        let place = to_open(opened.shelf.as_ref(), &keeper, &name, &bytes)?;
        return Ok((place, bytes));
    }
    Err(words::changed(issued, form, Path::new(&place)))
}
