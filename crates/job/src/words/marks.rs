//! Marks as sentences name them: whatever was typed as one stays a part of a line.

use quillbore_calc::RowId;

use crate::job::Job;

/// Longest mark that is repeated, in characters: one more can't be read anyway.
const LONGEST: usize = 20;

/// Marks that are named one by one before the rest is counted.
const SHOWN: usize = 6;

/// The mark of a row in one line, or its place in the table where it has none.
pub(super) fn of_row(job: &Job, row: RowId) -> String {
    let typed = mark(job.row(row).map_or("", |row| row.mark.text()));
    if !typed.is_empty() {
        return typed;
    }
    let index = job.row_index(row);
    index.map_or_else(|| "?".to_owned(), |index| format!("in row {}", index + 1))
}

/// A mark as it was typed, in one line and not endless.
pub(super) fn mark(typed: &str) -> String {
    beginning(typed, LONGEST)
}

/// The beginning of a text, in one line of so many letters at most.
pub(super) fn beginning(text: &str, letters: usize) -> String {
    let line = in_one_line(text);
    match line.char_indices().nth(letters) {
        Some((end, _)) => format!("{}\u{2026}", line[..end].trim_end()),
        None => line,
    }
}

/// Marks one after the other, the first by name.
pub(super) fn list<'a>(marks: impl ExactSizeIterator<Item = &'a str>) -> String {
    let more = marks.len().saturating_sub(SHOWN);
    let shown: Vec<String> = marks.take(SHOWN).map(mark).collect();
    let named = shown.join(", ");
    match more {
        0 => named,
        more => format!("{named} and {more} more"),
    }
}

/// A text without line ends and other signs that no line has.
pub(super) fn in_one_line(text: &str) -> String {
    let lines = text.split(|sign: char| sign.is_control() && sign != '\t');
    let lines: Vec<&str> = lines
        .map(str::trim)
        .filter(|line| !line.is_empty())
        .collect();
    lines.join(" / ")
}

#[cfg(test)]
mod tests {
    use super::{list, mark};

    #[test]
    fn whatever_was_typed_stays_a_part_of_a_line() {
        assert_eq!(mark(" A1 "), "A1");
        assert_eq!(mark("A\n\u{1b}[2J\r\nB"), "A / [2J / B");
        assert_eq!(
            mark(&"x".repeat(3_000)),
            format!("{}\u{2026}", "x".repeat(20))
        );
        assert_eq!(mark("\n"), "");
    }

    #[test]
    fn many_marks_are_counted_from_the_seventh_on() {
        let marks = ["A", "B", "C", "D", "E", "F", "G", "H"];
        assert_eq!(list(marks[..6].iter().copied()), "A, B, C, D, E, F");
        assert_eq!(list(marks.into_iter()), "A, B, C, D, E, F and 2 more");
    }
}
