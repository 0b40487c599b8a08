//! The letter with which a paper goes out.

use quillbore_job::Paper;
use quillbore_job::words::slips;

/// What the letter is about.
#[must_use]
pub fn subject(paper: Paper, number: &str, part: &str) -> String {
    let name = slips::paper(paper);
    let mut letters = name.chars();
    let first = letters.next().map(|first| first.to_uppercase().to_string());
    let name = first.unwrap_or_default() + letters.as_str();
    match part.trim() {
        "" => format!("{name} {number}"),
        part => format!("{name} {number}: {part}"),
    }
}

/// What it says; the user goes on from here in the mail program.
#[must_use]
pub fn text(paper: Paper, number: &str, reference: &str, shop: &str) -> String {
    let reference = match reference.trim() {
        "" => String::new(),
        reference => format!(" to your reference {reference}"),
    };
    format!(
        "Attached is our {} {number}{reference}.\n\n{shop}\n",
        slips::paper(paper)
    )
}

/// That the mail program has the letter, and which file is to be attached to it.
#[must_use]
pub fn attach(file: &str) -> String {
    format!("The letter is in your mail program; attach {file}")
}

/// That no mail program took the letter, and where its text and the file are.
#[must_use]
pub fn no_mail(file: &str) -> String {
    format!("No mail program took the letter: its text is on the clipboard; attach {file}")
}
