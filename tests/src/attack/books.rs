//! Workbooks of spreadsheet programs.

use std::collections::BTreeSet;

use quillbore_intake::{Foreign, IntakeError};
use quillbore_job::{Job, RowsAt};

use super::tables::{say_all, taken};

/// Whatever the bytes: one sentence, or sheets of which each is taken or says why not, twice the same.
pub(super) fn workbook(bytes: &[u8]) {
    let book = match Foreign::of_file(bytes, "holes.xlsx") {
        Ok(book) => book,
        Err(error) => return is_sentence(&error),
    };
    let again = Foreign::of_file(bytes, "holes.xlsx");
    assert!(again.as_ref() == Ok(&book), "not the same twice");
    let sheets = book.sheets();
    if !sheets.is_empty() {
        let taken = sheets.iter().filter(|sheet| sheet.is_taken).count();
        assert!(taken == 1, "{taken} sheets are taken");
    }
    for sheet in &sheets {
        match book.on_sheet(sheet.name) {
            Ok(table) => is_table(table, bytes),
            Err(error) => is_sentence(&error),
        }
    }
    is_table(book, bytes);
}

fn is_table(mut table: Foreign, bytes: &[u8]) {
    say_all(&mut table, bytes);
    let taken = taken(&table, &Job::default(), RowsAt::Append);
    let mut told = BTreeSet::new();
    for line in &taken.report.lines {
        assert!(
            told.insert(line.number),
            "line {} is told twice",
            line.number
        );
    }
    // The head's first line is told of the whole, its others each by itself.
    for (at, head) in table.head_lines().into_iter().enumerate() {
        let is_told = told.iter().any(|line| *line as usize == head);
        assert!(
            is_told == (at > 0),
            "line {head} of the head, told: {is_told}"
        );
    }
}

fn is_sentence(error: &IntakeError) {
    let (says, hint) = (error.to_string(), error.hint());
    assert!(!says.is_empty() && !hint.is_empty(), "{error:?}");
    assert!(!says.contains(char::is_control), "{says:?}");
}
