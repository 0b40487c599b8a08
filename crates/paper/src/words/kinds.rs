//! Kinds of holes that words go by.

/// Kinds of holes in a job: what is proved and measured of them differs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Kinds {
    /// Some go through, or into a cavity.
    pub open: bool,
    /// Some are closed at their end.
    pub blind: bool,
}
