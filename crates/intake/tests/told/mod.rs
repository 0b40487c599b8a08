//! A table of text, and what is told of it.

use quillbore_intake::{Foreign, Taken};

/// A delimited text as a file.
pub(crate) fn read(text: &str) -> Foreign {
    Foreign::of_file(text.as_bytes(), "holes.csv").expect("a table")
}

/// Looks that a report has these words.
#[track_caller]
pub(crate) fn tells(taken: &Taken, words: &str) {
    let lines = taken.report.lines.iter().map(|line| line.says.as_str());
    let whole = taken.report.whole.iter().map(String::as_str);
    let all: Vec<&str> = whole.chain(lines).collect();
    assert!(
        all.iter().any(|said| said.contains(words)),
        "{words}: {all:#?}"
    );
}
