//! Kinds of holes that words go by.

/// Kinds of holes in a job: what is proved and measured of them differs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Kinds {
    /// Some go through, or into a cavity.
    pub open: bool,
    /// Some are closed at their end.
    pub blind: bool,
    /// Each is checked by pin.
    pub all_by_pin: bool,
    /// Some are checked by pin.
    pub some_by_pin: bool,
    /// How some are proved open is said of their rows.
    pub proved: bool,
}
