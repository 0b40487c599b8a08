//! What is said of papers that can't be written.

use std::io;
use std::path::Path;

use super::system::by_system;
use crate::failure::Failure;

/// That another paper has the name.
pub(crate) fn another_stands(path: &Path) -> Failure {
    Failure::new(
        "Another paper stands there already and nothing was written",
        "print into another folder, or say --replace",
    )
    .at(path)
}

/// That the folder of the papers can't be made.
pub(crate) fn no_folder(error: &io::Error, folder: &Path) -> Failure {
    by_system("The folder can't be made", error, folder)
}
