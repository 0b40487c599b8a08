//! What is said of drafts.

use std::io;
use std::path::Path;

/// That no draft can be kept.
pub(crate) fn not_kept(error: &io::Error, folder: &Path) -> String {
    format!(
        "No draft can be kept, so save often: {error}: {}",
        folder.display()
    )
}

/// That no draft is kept, since there is no place for them.
pub const NO_PLACE: &str =
    "No draft is kept here, so save often: no folder of the user's own is known (HOME is not set).";

/// That a draft of an earlier run can't be read.
#[must_use]
pub fn damaged(draft: &Path) -> String {
    format!(
        "A draft of an earlier run can't be read and was left where it is: {}",
        draft.display()
    )
}
