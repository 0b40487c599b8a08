//! What is said of a hole table that a command makes a job of.

use std::path::Path;

use quillbore_job::words::reports::size;

use crate::failure::Failure;
use crate::hole_file::Since;

/// What a job knows already of the file that rows are about to come from; nothing where that is nothing.
#[must_use]
pub fn since(since: &Since) -> Option<String> {
    match since {
        Since::First => None,
        Since::Same(name) => Some(format!(
            "The same file as before: these holes came from {name}, and nothing in it changed."
        )),
        Since::Changed(was) => Some(match was.day {
            Some(day) => format!(
                "The file changed since these holes came from it: it was {} of {day}.",
                size(was.bytes)
            ),
            None => format!(
                "The file changed since these holes came from it: it was {}.",
                size(was.bytes)
            ),
        }),
        Since::Another(name) => Some(format!("The holes that are there came from {name}.")),
    }
}

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
        "mark, count, size, depth, end, angle, note ..., tolerance, lower limit, upper limit, lower deviation, upper deviation, depth tolerance, x, y, z, axis i, axis j, axis k, unit, or leave it out",
    )
}

/// That sizes are chosen of drawings and solids.
pub(crate) fn of_drawings_alone() -> Failure {
    Failure::new(
        "Sizes are chosen of a drawing or a solid, and this is a table",
        "leave out --sizes, or give a DXF or STEP file",
    )
}

/// That sheets and columns are those of tables.
pub(crate) fn of_tables_alone() -> Failure {
    Failure::new(
        "A drawing or a solid has no sheets and columns",
        "leave out --worksheet and --column; --sizes \"0.5-1.2\" chooses its holes",
    )
}

/// That a range of diameters can't be read.
pub(crate) fn no_sizes(text: &str) -> Failure {
    Failure::new(
        format!("\u{201c}{text}\u{201d} is no range of diameters"),
        "--sizes \"0.5-1.2\", or one diameter",
    )
}

/// That what reads such files gave up on this one.
pub(crate) fn gave_up(path: &Path) -> Failure {
    Failure::new(
        "The file can't be read: what reads such files gave up on it",
        "save it anew in the program that made it, or type its holes",
    )
    .at(path)
}

/// That nobody waits for the file any more.
pub(crate) fn stopped() -> Failure {
    Failure::new("The file was not read to its end", "try again")
}

/// That callouts are chosen by their numbers.
pub(crate) fn no_callouts(text: &str) -> Failure {
    Failure::new(
        format!("\u{201c}{text}\u{201d} chooses no callouts"),
        "--callouts \"1,3,5-9\", or --callouts all",
    )
}

/// That callouts are chosen of drawings in PDF.
pub(crate) fn no_pages() -> Failure {
    Failure::new(
        "Callouts are chosen of a drawing in PDF, and this is none",
        "leave out --callouts, or give a PDF file",
    )
}

/// That sheets, columns and sizes are those of other files.
pub(crate) fn of_pages_alone() -> Failure {
    Failure::new(
        "A drawing in PDF has no sheets, columns and circles that are read",
        "leave out --worksheet, --column and --sizes; --callouts \"1,3,5-9\" chooses its callouts",
    )
}

/// That callouts were listed and none was taken.
pub(crate) const fn nothing_taken() -> &'static str {
    "Nothing was taken: choose with --callouts \"1,3,5-9\" or --callouts all."
}

/// How many rows came of a drawing or a solid.
pub(crate) fn rows(rows: usize) -> String {
    match rows {
        1 => "1 row.".to_owned(),
        rows => format!("{rows} rows."),
    }
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
