//! Words in head and foot of every page.

use quillbore_job::Paper;

/// Head and foot of every page.
#[derive(Clone, Copy, Debug)]
pub struct Frame {
    /// The mark across a sheet that isn't valid yet.
    pub preview: &'static str,
    /// Who issued the paper, and when it was printed.
    pub printed: fn(&str, &str) -> String,
    /// Which page of how many.
    pub page: fn(usize, usize) -> String,
    /// That a paper isn't issued, and whether nothing is in its way.
    pub not_issued: fn(Paper, bool) -> &'static str,
    /// Why the paper isn't valid yet.
    pub preview_of: fn(&str) -> String,
    /// In the place of reasons that are too long for the head.
    pub preview_long: &'static str,
}
