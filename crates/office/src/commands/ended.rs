//! How a command ended.

use std::path::PathBuf;

/// How a command ended well.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ended {
    /// Done.
    Done,
    /// Done, with something that says the job can't be done, or the paper can't be used, as it stands.
    DoneWithStop,
}

impl Ended {
    /// Done, or with something that stops it.
    pub(super) const fn with_stop(stop: bool) -> Self {
        if stop { Self::DoneWithStop } else { Self::Done }
    }
}

/// What a command came to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Came {
    pub(super) ended: Ended,
    pub(super) made: Made,
}

/// What stands on the disk now that did not stand there before.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Made {
    /// Nothing.
    Nothing,
    /// Papers in this folder.
    Papers(PathBuf),
    /// A job, here.
    Job(PathBuf),
    /// A paper that left the house, here.
    Issued(PathBuf),
}
