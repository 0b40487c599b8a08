//! What is said of a hole table that a command makes a job of.

use crate::failure::Failure;

/// That a word does not say what a column holds.
pub(crate) fn holds_nothing(word: &str) -> Failure {
    Failure::new(
        format!("\u{201c}{word}\u{201d} does not say what the column holds"),
        "--column \"HEAD=depth\"",
    )
}

/// That no column can hold that.
pub(crate) fn not_to_hold(word: &str) -> Failure {
    Failure::new(
        format!("A column can't hold \u{201c}{word}\u{201d}"),
        "mark, count, size, depth, end, angle, note ..., tolerance, lower limit, upper limit, lower deviation, upper deviation, depth tolerance, x, y, z, axis i, axis j, axis k, or leave it out",
    )
}

/// How many rows came of how many lines.
pub(crate) fn became(lines: usize, rows: usize) -> String {
    let count = |count: usize, one: &str, several: &str| match count {
        1 => format!("1 {one}"),
        count => format!("{count} {several}"),
    };
    format!(
        "{} became {}.",
        count(lines, "line", "lines"),
        count(rows, "row", "rows")
    )
}
