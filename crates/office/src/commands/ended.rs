//! How a command ended.

/// How a command ended well.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ended {
    /// Done.
    Done,
    /// Done, with something that says the job can't be done, or the paper can't be used, as it stands.
    DoneWithStop,
}
