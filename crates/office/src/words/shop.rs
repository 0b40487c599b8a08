//! What is said of the shop's sheet on the shelf.

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
