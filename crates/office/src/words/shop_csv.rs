//! What is said of lists of the shop that are written as tables and taken in.

use std::io;

use quillbore_job::shop::sheet::ShopList;
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
    } = counts;
    let mut said = format!(
        "{}: {new} new, {changed} changed, {same} the same.",
        names::list(list)
    );
    if !unknown.is_empty() {
        said += &format!(" Left out: the columns {}.", unknown.join(", "));
    }
    if !nameless.is_empty() {
        said += &format!(" Without a name: {}.", lines(nameless));
    }
    if !twice.is_empty() {
        said += &format!(" A name for the second time: {}.", lines(twice));
    }
    said
}

fn lines(lines: &[usize]) -> String {
    const SHOWN: usize = 6;
    let shown: Vec<String> = lines
        .iter()
        .take(SHOWN)
        .map(|line| format!("line {line}"))
        .collect();
    match lines.len().saturating_sub(SHOWN) {
        0 => shown.join(", "),
        more => format!("{} and {more} more", shown.join(", ")),
    }
}
