//! Words of non-conformances.

use quillbore_job::Line;

/// Non-conformances as papers tell them.
#[derive(Clone, Copy, Debug)]
pub struct Nonconformance {
    /// Nobody decided on it.
    pub no_decision: &'static str,
    /// Nobody closed it.
    pub not_closed: &'static str,
    /// A line of it with the word that it needs.
    pub of_line: fn(Line, &str) -> String,
}
