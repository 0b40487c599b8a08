//! Whether a job could be held for a desk.

/// Whether a job could be held.
#[derive(Debug)]
pub enum Held {
    /// By this desk, until this is dropped.
    Here(Box<dyn crate::disk::Held>),
    /// By another desk, in its own words; empty where it can't be named.
    Elsewhere(String),
    /// By nobody, since the disk knows no locks: no desk hears of another one there.
    NoLocks,
    /// By nobody: the shelf can't be written to.
    Unknown,
}

/// Another desk's name as it is told: on one line, and not longer than a line of the window.
pub(super) fn desk_name(called: &str) -> String {
    const LONGEST: usize = 80;
    let plain = called.trim().chars().filter(|sign| !sign.is_control());
    plain.take(LONGEST).collect()
}
