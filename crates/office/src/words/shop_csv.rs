//! What is said of lists of the shop that are written as tables and taken in.

use std::io;

use quillbore_job::shop::sheet::{ShopColumn, ShopList};
use quillbore_job::words::shop_sheet as names;

use crate::failure::Failure;
use crate::shop_csv::Counts;

/// That bytes are no text.
pub(crate) fn no_text() -> Failure {
    Failure::new(
        "The file is no text",
        "save it as CSV in the spreadsheet first",
    )
}

/// That a text is no table.
pub(crate) fn no_table(list: ShopList) -> Failure {
    Failure::new(
        format!("The file is no table of {}", names::list(list)),
        "save it as CSV in the spreadsheet first",
    )
}

/// That a table has more lines than are taken in at once.
pub(crate) fn too_many_lines(most: usize) -> Failure {
    Failure::new(
        format!("The table has more than {most} lines"),
        "take it in in parts: lines of a known name are taken for the same row",
    )
}

/// That a quotation mark is never closed.
pub(crate) fn open_quote(line: usize) -> Failure {
    Failure::new(
        format!(
            "A quotation mark in line {line} is never closed, so that the rest of the file would be one cell"
        ),
        "close it, or write the mark in a cell twice; nothing was taken in",
    )
}

/// That two heads name the same column.
pub(crate) fn column_twice(column: ShopColumn) -> Failure {
    Failure::new(
        format!("Two columns of the table are {}", names::column(column)),
        "leave one of them out; nothing was taken in",
    )
}

/// That a table has no column with names.
pub(crate) fn no_name_column(list: ShopList) -> Failure {
    Failure::new(
        format!(
            "The table has no column that names its {}",
            names::list(list)
        ),
        "its first line must have the heads of the list, such as name: write the list to a file to see them",
    )
}

/// That a file has that name already.
pub(crate) fn stands_already() -> Failure {
    Failure::new(
        "A file of that name is there already",
        "choose another name",
    )
}

/// That a file could not be written.
pub(crate) fn not_written(error: &io::Error) -> Failure {
    Failure::new(
        format!("The list could not be written ({error})"),
        "choose another folder",
    )
}

/// What came of a table.
pub(crate) fn taken_in(list: ShopList, counts: &Counts, unknown: &[String]) -> String {
    let Counts {
        new,
        changed,
        same,
        nameless,
        twice,
        beyond,
        unread,
    } = counts;
    let mut said = format!(
        "{}: {new} new, {changed} changed, {same} the same.",
        names::list(list)
    );
    if !unknown.is_empty() {
        said += &format!(" Left out: the columns {}.", unknown.join(", "));
    }
    if !nameless.is_empty() {
        said += &format!(" Left out, without a name: {}.", lines(nameless));
    }
    if !twice.is_empty() {
        said += &format!(
            " Left out, as the name stood above already: {}.",
            lines(twice)
        );
    }
    if !beyond.is_empty() {
        said += &format!(
            " Left out, the cells behind the last head: {}.",
            lines(beyond)
        );
    }
    if !unread.is_empty() {
        let cells = unread
            .iter()
            .map(|(line, column)| format!("line {line}, {}", names::column(*column)));
        said += &format!(" Can't be read and not used: {}.", some_of(cells, "; "));
    }
    said
}

fn lines(lines: &[usize]) -> String {
    some_of(lines.iter().map(|line| format!("line {line}")), ", ")
}

/// The first of them, and how many more there are.
fn some_of(all: impl ExactSizeIterator<Item = String>, between: &str) -> String {
    const SHOWN: usize = 6;
    let more = all.len().saturating_sub(SHOWN);
    let shown: Vec<String> = all.take(SHOWN).collect();
    match more {
        0 => shown.join(between),
        more => format!("{} and {more} more", shown.join(between)),
    }
}
