//! Which row is meant.

/// A row's identity in its job; never reused.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct RowId(pub u32);
