//! Why a shelf can't do what it is asked.

use std::io;

/// Why a shelf can't do what it is asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ShelfError {
    /// Its mark is gone or another one: the share vanished, or another disk stands in its place.
    Vanished {
        /// The shelf.
        place: String,
    },
    /// Nobody said yet that this is a shelf, so nothing is written to it.
    NotMarked {
        /// The folder.
        place: String,
    },
    /// A single file is open: nothing else can be read or written there.
    OneFile {
        /// The file.
        place: String,
    },
    /// Something is a link where a file or folder of the shelf should be: it is not followed.
    Link {
        /// The link.
        place: String,
    },
    /// Something is no plain file.
    NoFile {
        /// What.
        place: String,
    },
    /// A document is larger than any of ours.
    TooLarge {
        /// Which.
        place: String,
    },
    /// The server can't be reached, or the line to it broke.
    NoServer {
        /// What it or the system says.
        says: String,
        /// The server.
        place: String,
    },
    /// The server wants a password, or another one.
    NoEntry {
        /// What it says.
        says: String,
        /// The server.
        place: String,
    },
    /// The server lets this user do less.
    MayNot {
        /// What it says.
        says: String,
        /// The server.
        place: String,
    },
    /// Its tables are those of a newer program, which this one doesn't know.
    NewerTables {
        /// The server.
        place: String,
    },
    /// Its tables are those of an older program.
    OlderTables {
        /// The server.
        place: String,
    },
    /// A copy of another shelf that is not whole yet.
    HalfCopied {
        /// The place.
        place: String,
    },
    /// A step failed.
    Step {
        /// Which.
        step: Step,
        /// The system's kind of error, so that callers can tell them apart.
        kind: io::ErrorKind,
        /// What the system says.
        says: String,
        /// Where.
        place: String,
    },
}

/// A step of reading or writing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// Listing what is there.
    List,
    /// Reading what is there.
    Read,
    /// Waiting until no other desk writes.
    Wait,
    /// Making the folder beside the job.
    MakeFolder,
    /// Keeping the version before.
    KeepPrevious,
    /// Writing the new content beside the old.
    WriteNew,
    /// Giving the new content its name.
    PutInPlace,
    /// Bringing names to the medium.
    Settle,
    /// Writing the mark.
    Adopt,
}

impl ShelfError {
    /// Whether it is of one file alone, so that all else on the shelf can still be read.
    #[must_use]
    pub const fn is_of_one(&self) -> bool {
        match self {
            Self::Link { .. } | Self::NoFile { .. } | Self::TooLarge { .. } | Self::Step { .. } => {
                true
            }
            Self::Vanished { .. }
            | Self::NotMarked { .. }
            | Self::OneFile { .. }
            | Self::NoServer { .. }
            | Self::NoEntry { .. }
            | Self::MayNot { .. }
            | Self::NewerTables { .. }
            | Self::OlderTables { .. }
            | Self::HalfCopied { .. } => false,
        }
    }

    /// Where it happened, as sentences name it.
    #[must_use]
    pub fn place(&self) -> &str {
        match self {
            Self::Vanished { place }
            | Self::NotMarked { place }
            | Self::OneFile { place }
            | Self::Link { place }
            | Self::NoFile { place }
            | Self::TooLarge { place }
            | Self::NoServer { place, .. }
            | Self::NoEntry { place, .. }
            | Self::MayNot { place, .. }
            | Self::NewerTables { place }
            | Self::OlderTables { place }
            | Self::HalfCopied { place }
            | Self::Step { place, .. } => place,
        }
    }
}
