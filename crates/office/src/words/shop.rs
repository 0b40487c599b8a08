//! What is said of the shop's sheet on the shelf.

use std::io;
use std::path::Path;

use super::system::by_system;
use crate::failure::Failure;
use crate::shelf::ShelfError;

/// That two desks could overwrite each other.
pub(crate) const NO_LOCKS: &str =
    "This disk doesn't support locks: let one desk change the shop's data at a time.";

/// That a save may not outlive a power cut.
pub(crate) fn not_settled(error: &ShelfError) -> String {
    format!(
        "The shop's data are saved, but the disk did not confirm that they outlive a power cut: {error}."
    )
}

/// That what would be written does not read back.
pub(crate) fn would_not_open() -> Failure {
    Failure::new(
        "The shop's data would not open again as they are, so they were not saved",
        "undo the last change",
    )
}

/// That other desks were faster every time.
pub(crate) fn always_first() -> Failure {
    Failure::new(
        "Other desks saved the shop's data each time before this one could",
        "change something once more to try again",
    )
}

/// That the shop's data are saved, with what another desk changed meanwhile.
#[must_use]
pub fn saved(clashes: usize, told: &[String]) -> String {
    let saved = match clashes {
        0 => "Saved.".to_owned(),
        1 => "Saved; another desk changed 1 of the same things.".to_owned(),
        count => format!("Saved; another desk changed {count} of the same things."),
    };
    let told = std::iter::once(saved.as_str()).chain(told.iter().map(String::as_str));
    told.collect::<Vec<_>>().join(" ")
}

/// What to do where the shop's file is lost.
const TAKE_BEFORE: &str = "on the shop's page (F7) take the version before it, shop.files/previous.ron, or begin anew; no paper is issued until then";

/// That the shop's file was here and is gone.
pub(crate) fn gone(place: &str) -> Failure {
    Failure::new("The shop's file was here and is gone", TAKE_BEFORE)
        .at(&Path::new(place).join("shop.ron"))
}

/// That the shop's file can't be used, where there is a version before it.
pub(crate) fn unread(why: &Failure, place: &Path) -> Failure {
    Failure::new(why.message(), TAKE_BEFORE).at(place)
}

/// That there is no version before.
pub(crate) fn no_version_before(place: &str) -> Failure {
    Failure::new(
        "There is no version of the shop's file before this one",
        "correct the file in a text editor, or begin anew",
    )
    .at(Path::new(place))
}

/// That the version before can't be read either.
pub(crate) fn version_before_unread(why: &str, place: &str) -> Failure {
    Failure::new(
        format!("The version before can't be used either: {why}"),
        "take the file from a backup, or begin anew",
    )
    .at(&Path::new(place).join("shop.files").join("previous.ron"))
}

/// That what can't be read could not be kept.
pub(crate) fn not_kept(error: &io::Error) -> Failure {
    by_system(
        "The shop's file that can't be read could not be kept under another name",
        error,
        Path::new(""),
    )
}

/// That the shop's file was gone when it was saved.
pub(crate) const WAS_GONE: &str = "The shop's file was gone from the shelf and was written anew, with all that this window knew of it.";
