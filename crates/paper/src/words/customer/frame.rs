//! Words in head and foot of every page.

/// Head and foot of every page.
#[derive(Clone, Copy, Debug)]
pub struct Frame {
    /// The mark across a sheet that isn't valid yet.
    pub preview: &'static str,
    /// Who issued the paper, and when it was printed.
    pub printed: fn(&str, &str) -> String,
    /// Which page of how many.
    pub page: fn(usize, usize) -> String,
    /// Why the paper isn't valid yet.
    pub preview_of: fn(&str) -> String,
}
