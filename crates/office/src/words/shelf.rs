//! What is said when the shelf can't be read or written.

use std::error::Error;
use std::fmt;

use quillbore_job::words::speaker::capital;

use crate::shelf::changes::Why;
use crate::shelf::commit::CommitError;
use crate::shelf::doc::Doc;
use crate::shelf::error::{ShelfError, Step};
use crate::shelf::mark::Mark;
use crate::words::office::NO_SERVER;

impl Error for ShelfError {}

impl fmt::Display for ShelfError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&error(self))
    }
}

impl ShelfError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        error_hint(self)
    }
}

impl Error for CommitError {
    fn source(&self) -> Option<&(dyn Error + 'static)> {
        match self {
            Self::Shelf(why) | Self::NotKnown(why) => Some(why),
            Self::Changed(_)
            | Self::Gone(_)
            | Self::Taken(_)
            | Self::AttachmentTaken(..)
            | Self::HalfDone { .. }
            | Self::NotSettled { .. } => None,
        }
    }
}

impl fmt::Display for CommitError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&commit(self))
    }
}

impl CommitError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        commit_hint(self)
    }
}

/// One sentence: why the shelf can't do what it is asked.
fn error(why: &ShelfError) -> String {
    match why {
        ShelfError::Vanished { .. } => {
            "The shelf is not there any more, or another one is in its place".to_owned()
        }
        ShelfError::NotMarked { .. } => {
            "Nobody said yet that this folder is a shelf, so nothing is written to it".to_owned()
        }
        ShelfError::OneFile { .. } => {
            "This job is not on a shelf, so nothing else can be kept with it".to_owned()
        }
        ShelfError::Link { .. } => {
            "A link is where a file of the shelf should be, and no link is followed there"
                .to_owned()
        }
        ShelfError::NoFile { .. } => {
            "Something that is not a plain file is where a file of the shelf should be".to_owned()
        }
        ShelfError::TooLarge { .. } => {
            "The file is larger than any file of this program".to_owned()
        }
        ShelfError::NoServer { says, .. } => format!("{NO_SERVER}: {says}"),
        ShelfError::NoEntry { says, .. } => {
            format!("The shelf's server does not let this user in: {says}")
        }
        ShelfError::MayNot { says, .. } => {
            format!("The shelf's server does not let this user do that: {says}")
        }
        ShelfError::NewerTables { .. } => {
            "The shelf was made by a newer version of Quillbore, whose tables this one does not know"
                .to_owned()
        }
        ShelfError::OlderTables { .. } => {
            "The shelf's tables are those of an older version of Quillbore".to_owned()
        }
        ShelfError::HalfCopied { .. } => {
            "This is a copy of another shelf that is not whole yet, so nobody works in it".to_owned()
        }
        ShelfError::Step { step, says, .. } => format!("{} failed: {says}", doing(*step)),
    }
}

const fn doing(step: Step) -> &'static str {
    match step {
        Step::List => "Listing what is there",
        Step::Read => "Reading what is there",
        Step::Wait => "Waiting until no other desk writes",
        Step::MakeFolder => "Making the folder beside the job",
        Step::KeepPrevious => "Keeping the version before",
        Step::WriteNew => "Writing the new file",
        Step::PutInPlace => "Putting the new file in place",
        Step::Settle => "Getting it onto the disk for good",
        Step::Adopt => "Making it a shelf",
    }
}

/// What to do about it.
const fn error_hint(why: &ShelfError) -> &'static str {
    match why {
        ShelfError::Vanished { .. } => {
            "connect it again, or save elsewhere with save as; nothing was written"
        }
        ShelfError::NotMarked { .. } => {
            "say yes when the window asks whether it is one; nothing was written"
        }
        ShelfError::OneFile { .. } => "save it onto the shelf first",
        ShelfError::Link { .. } | ShelfError::NoFile { .. } => {
            "put the file itself there, or remove this; nothing was written"
        }
        ShelfError::TooLarge { .. } => "choose a file that this program has written",
        ShelfError::NoServer { .. } => {
            "see that the address is right, the server runs and the line to it is there; what is typed in a window stays as a draft"
        }
        ShelfError::NoEntry { .. } => {
            "see that the address names the right user, and give the password when asked, in PGPASSWORD, or in the password file, which nobody else may read"
        }
        ShelfError::MayNot { .. } => {
            "ask whoever looks after the server: this user must be a quillbore_desk, quillbore shelf make must have been run since there are such roles, and the server must be no replica; nothing was written"
        }
        ShelfError::NewerTables { .. } => "install the newer version; nothing was written",
        ShelfError::OlderTables { .. } => {
            "have its owner run: quillbore shelf make ADDRESS; jobs stay as they are"
        }
        ShelfError::HalfCopied { .. } => {
            "run the same quillbore shelf copy again until it says that all is copied; it goes on where it stopped"
        }
        ShelfError::Step { .. } => {
            "check free space and permissions, or save a copy elsewhere; what was there before is untouched"
        }
    }
}

/// One sentence: why nothing, or not all, was written.
fn commit(why: &CommitError) -> String {
    match why {
        CommitError::Changed(docs) => {
            let docs: Vec<String> = docs.iter().map(doc).collect();
            format!("Somebody saved {} meanwhile", docs.join(" and "))
        }
        CommitError::Gone(gone) => format!("{} is gone from the shelf", capital(&doc(gone))),
        CommitError::Taken(taken) => format!("{} is there already", capital(&doc(taken))),
        CommitError::AttachmentTaken(job, name) => {
            format!("Another file beside {job} has the name {name}")
        }
        CommitError::HalfDone { done, left, error } => {
            let done: Vec<String> = done.iter().map(|(done, _)| doc(done)).collect();
            let (done, left) = (done.join(" and "), doc(left));
            format!(
                "{} written, but not {left}: {}",
                capital(&done),
                self::error(error)
            )
        }
        CommitError::NotSettled { error, .. } => {
            format!(
                "It is written, but the disk did not confirm it: {}",
                self::error(error)
            )
        }
        CommitError::NotKnown(why) => {
            format!("Whether it is saved is not known: {}", error(why))
        }
        CommitError::Shelf(why) => error(why),
    }
}

/// What to do about it.
const fn commit_hint(why: &CommitError) -> &'static str {
    match why {
        CommitError::Changed(_) => "look at what they did; nothing was overwritten",
        CommitError::Gone(_) => "save it under this or another name as a new job",
        CommitError::Taken(_) | CommitError::AttachmentTaken(..) => {
            "choose another name; nothing was overwritten"
        }
        CommitError::HalfDone { .. } => {
            "check free space and permissions, then open the first job again"
        }
        CommitError::NotSettled { .. } => "save a copy on another disk, and have this one checked",
        CommitError::NotKnown(_) => {
            "save again once the server answers: what is there already is not saved twice"
        }
        CommitError::Shelf(why) => error_hint(why),
    }
}

/// A document as sentences call it.
pub(super) fn doc(doc: &Doc) -> String {
    match doc {
        Doc::Job(key) => format!("job {key}"),
        Doc::Shop => "the shop's data".to_owned(),
    }
}

/// Why something on a shelf can't be a job, as one sentence with what to do.
#[must_use]
pub(crate) fn why(why: &Why) -> &'static str {
    match why {
        Why::Link => "This is a link to something else: put the job's file itself there.",
        Why::Folder => "This is a folder with the name of a job: remove it.",
        Why::NoFile => "This is not a file but a pipe or a device: remove it.",
        Why::Ending => "Its name must end in .ron, in small letters: rename it.",
        Why::NoText => "Its name can't be read by every system: rename it.",
        Why::Name => "No job can have this name: rename it, as in 26-0107.ron.",
    }
}

/// What is in the way of a mark.
pub(crate) const NO_MARK: &str = "a file of that name is there, with no mark in it: remove it";

/// What the file says that stands in a folder while a shelf is copied there.
pub(crate) fn copy_file(mark: &Mark) -> String {
    format!(
        "A shelf of Quillbore jobs is being copied here and is not whole yet. Run the same quillbore shelf \
         copy again until it says that all is copied; then this file goes by itself.\n{}\n",
        mark.as_str()
    )
}

/// What stands in the file that marks a folder as a shelf.
pub(crate) fn mark_file(mark: &Mark) -> String {
    format!(
        "This folder is a shelf of Quillbore jobs. Leave this file here: nothing is saved where it \
         is missing.\n{}\n",
        mark.as_str()
    )
}
