//! What the system says of files and folders.

use std::fmt;
use std::path::Path;

use crate::failure::Failure;

/// That something could not be done with a file or folder, and why, in the system's words.
pub(super) fn by_system(undone: &str, why: &dyn fmt::Display, path: &Path) -> Failure {
    Failure::new(
        format!("{undone}: {why}"),
        "check the path and its permissions",
    )
    .at(path)
}
