//! What is said while a shelf is made or copied.

use std::path::Path;

use crate::copy_shelf::{Copied, NotCopied, SoFar};
use crate::failure::Failure;
use crate::names::{AttachmentName, JobKey};
use crate::shelf::{Doc, ShelfError, Unusable};

/// How far it is.
pub(crate) fn so_far(so_far: SoFar) -> String {
    format!("{} of {}", so_far.done, so_far.of)
}

/// What it came to.
pub(crate) fn copied(copied: &Copied, to: &str) -> String {
    let count = |number: usize, one: &str, many: &str| match number {
        1 => format!("1 {one}"),
        number => format!("{number} {many}"),
    };
    format!(
        "Copied and compared: {} with {}; {} there already. Work at one of the two from now on, since \
         both give the same numbers; open this one with --shelf {to}",
        count(copied.documents.len(), "document", "documents"),
        count(copied.files, "file beside jobs", "files beside jobs"),
        count(copied.there.len(), "document was", "documents were"),
    )
}

/// A document that is another one at the second shelf.
pub(crate) fn other(doc: &Doc) -> String {
    format!(
        "Not copied: {} is another one there, and stays. Open both, and save by hand what counts.",
        super::shelf::doc(doc)
    )
}

/// A file that is another one at the second shelf.
pub(crate) fn other_file(job: &JobKey, name: &AttachmentName) -> String {
    format!(
        "Not copied: {name} beside {job} is another one there, and stays. Bring this one under another name."
    )
}

/// Something of the first shelf that can't be read.
pub(crate) fn not_read(doc: &Doc, name: Option<&AttachmentName>, why: &ShelfError) -> String {
    let doc = super::shelf::doc(doc);
    let what = name.map_or_else(|| doc.clone(), |name| format!("{name} beside {doc}"));
    format!(
        "Not copied: {what}. {why}: {}",
        super::shown::name(why.place().as_ref())
    )
}

/// A file that the first shelf names and doesn't have.
pub(crate) fn lost(job: &JobKey, name: &AttachmentName) -> String {
    format!("Not copied: {name} beside {job} is named, and its content is not there.")
}

/// Something that lies at the first shelf and is none of its own.
pub(crate) fn stray(name: &str) -> String {
    format!(
        "Left where it is: {}, which is nothing that a shelf keeps. Bring it along by hand if it is needed.",
        super::shown::name(name.as_ref())
    )
}

/// That a shelf is not copied into itself.
pub(crate) fn within(place: &Path) -> Failure {
    Failure::new(
        "This is the shelf itself, or a place in it",
        "name a folder beside it; nothing was written",
    )
    .at(place)
}

/// Something among the jobs that can't be one.
pub(crate) fn unusable(unusable: &Unusable) -> String {
    format!(
        "Not copied: {}. {}",
        super::shown::name(unusable.name.as_ref()),
        super::shelf::why(&unusable.why)
    )
}

/// That it stopped before its end.
const NOT_ALL: &str =
    "Not all was copied; what is there by now is whole, and the same command goes on from there.";

/// Why it stopped.
pub(crate) fn not_copied(why: NotCopied) -> Failure {
    match why {
        NotCopied::NoShelf { place } => Failure::new(
            "Nobody said that this is a shelf, so there is nothing to copy",
            "name the folder or the server that the window opens",
        )
        .at(Path::new(&place)),
        NotCopied::AnotherShelf { place } => Failure::new(
            "Another shelf is there already",
            "name an empty folder or database; nothing was written",
        )
        .at(Path::new(&place)),
        NotCopied::NotTheSame { doc, place } => Failure::new(
            format!(
                "What was read back of {} is not what was written",
                super::shelf::doc(&doc)
            ),
            "have that disk or server checked; the first shelf is as it was",
        )
        .at(Path::new(&place)),
        NotCopied::Shelf(error) => Failure::from(error).behind(NOT_ALL),
        NotCopied::Commit(error) => Failure::from(error).behind(NOT_ALL),
    }
}

/// That a folder could not be made.
pub(crate) fn not_made(error: &std::io::Error, folder: &Path) -> Failure {
    Failure::new(
        format!("The folder of the shelf could not be made: {error}"),
        "check where it is to be, and whether you may write there",
    )
    .at(folder)
}

/// That a folder needs no making.
pub(crate) fn no_server(place: &Path) -> Failure {
    Failure::new(
        "Only a shelf on a server is made by a command",
        "name its address, as in postgresql://user@host/database; a folder is made by the window",
    )
    .at(place)
}

/// That a shelf was made.
#[cfg(feature = "server")]
pub(crate) fn made(is_new: bool, place: &str) -> String {
    match is_new {
        true => format!("A shelf was made; open it with --shelf {place}"),
        false => format!("The shelf is as this program knows it: {place}"),
    }
}

/// That nobody else may use it yet.
#[cfg(feature = "server")]
pub(crate) const NO_ROLES: &str = "This user may not make roles, so nobody else may use the shelf yet: have the server's superuser \
     CREATE ROLE quillbore_reader, quillbore_desk and quillbore_owner, each NOLOGIN, and run this again.";
