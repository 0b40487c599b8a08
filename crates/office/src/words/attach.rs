//! What is said of files that can't be taken into a job's folder.

use std::io;
use std::path::Path;

use super::system::by_system;
use crate::failure::Failure;

/// What can't be done with them.
const NOT_TAKEN_IN: &str = "The file can't be taken in";

/// That a file can't be read.
pub(crate) fn not_read(error: &io::Error, from: &Path) -> Failure {
    by_system(NOT_TAKEN_IN, error, from)
}

/// That a file is larger than so many bytes.
pub(crate) fn too_large(most: u64, from: &Path) -> Failure {
    let why = format!("it is larger than {} MB", most / 1_000_000);
    by_system(NOT_TAKEN_IN, &why, from)
}

/// That no file of that name lies in the job's folder.
pub(crate) fn gone(name: &str) -> Failure {
    Failure::new(
        format!("No file {name} lies in the job's folder"),
        "look into the folder: somebody may have renamed or moved it",
    )
}

/// That no name is left for a file.
pub(crate) fn too_many() -> Failure {
    Failure::new("Too many files have that name", "give it another name")
}

/// That the system says no folder for copies.
pub(crate) fn no_copy() -> Failure {
    Failure::new(
        "There is no folder for a copy of the file",
        "set HOME or XDG_CACHE_HOME; the file itself is on the shelf's server",
    )
}

/// That a copy can't be written.
pub(crate) fn not_copied(error: &io::Error, to: &Path) -> Failure {
    by_system("The copy of the file can't be written", error, to)
}
