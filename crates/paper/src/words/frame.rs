//! Words in head and foot of every page.

/// The mark across a sheet that isn't valid yet.
pub const PREVIEW: &str = "PREVIEW";

/// Who issued the paper, and when it was printed.
pub fn printed(issuer: &str, day: &str) -> String {
    format!("{issuer}, printed {day}")
}

/// Which page of how many.
pub fn page(number: usize, of: usize) -> String {
    format!("page {number} of {of}")
}

/// Why the paper isn't valid yet.
pub fn preview(why: &str) -> String {
    format!("{PREVIEW}  {why}")
}
