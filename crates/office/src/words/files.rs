//! What is said of files that somebody names by a path.

use std::io;
use std::path::Path;

use quillbore_job::file::LARGEST_FILE_MB;

use super::system::by_system;
use crate::failure::Failure;

/// That a file can't be read.
pub(crate) fn not_read(error: &io::Error, path: &Path) -> Failure {
    by_system("The file can't be read", error, path)
}

/// That a job was named where a shop's file belongs.
pub(crate) fn job_as_shop(path: &Path) -> Failure {
    Failure::new(
        "The file is a job, and no data of a shop",
        "name the shop's own file there",
    )
    .at(path)
}

/// That a file is larger than any of ours.
pub(crate) fn too_large(path: &Path) -> Failure {
    Failure::new(
        format!("The file is larger than {LARGEST_FILE_MB} MB"),
        "no job and no hole table is that large; name another file",
    )
    .at(path)
}

/// That it can't be seen what stands where something is to be written.
pub(crate) fn not_looked_at(error: &io::Error, path: &Path) -> Failure {
    by_system("The file can't be looked at", error, path)
}

/// That something that is no plain file stands where something is to be written.
pub(crate) fn no_plain_file(path: &Path) -> Failure {
    Failure::new(
        "Something that is not a plain file has this name, and nothing is written through a link",
        "name another folder, or remove it",
    )
    .at(path)
}
