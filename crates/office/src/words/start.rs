//! What is said where there is no shelf at the start of a day.

use std::io;
use std::path::Path;

use super::system::by_system;
use crate::failure::Failure;

/// That a new shelf can't be made.
pub(crate) fn not_made(error: &io::Error, root: &Path) -> Failure {
    by_system("The shelf can't be made", error, root)
}

/// That the sample jobs can't be removed.
pub(crate) fn not_removed(error: &io::Error, root: &Path) -> Failure {
    by_system("The sample jobs can't be removed", error, root)
}

/// That a folder is not that of the sample jobs.
pub(crate) fn not_the_samples(root: &Path) -> Failure {
    Failure::new(
        "This is not the folder of the sample jobs",
        "nothing was removed",
    )
    .at(root)
}

/// That a folder that may be a shelf can't be listed.
pub(crate) fn not_listed(error: &io::Error, root: &Path) -> Failure {
    by_system("The folder can't be listed", error, root)
}

/// That a shelf is gone that was there before.
pub(crate) fn vanished(root: &Path) -> Failure {
    Failure::new(
        "The shelf that was in this folder is not there",
        "connect it again, or name another with --shelf; nothing was written",
    )
    .at(root)
}

/// That a server may answer later.
pub(crate) const NO_ANSWER_YET: &str =
    "no answer came within 3 s, and it is asked on; what was seen of it last is shown meanwhile";

/// That a server's database is no shelf.
pub(crate) fn none_on_server(place: &str) -> Failure {
    Failure::new(
        "Nobody made a shelf in this database yet",
        "its owner makes one: quillbore shelf make ADDRESS, or copies one there: quillbore shelf copy FOLDER ADDRESS",
    )
    .at(Path::new(place))
}
