//! What papers are called.

use quillbore_job::Paper;
use quillbore_job::words::speaker::capital;

/// What papers are called.
#[derive(Clone, Copy, Debug)]
pub struct Papers {
    /// A paper's name within a sentence.
    pub name: fn(Paper) -> &'static str,
}

impl Papers {
    /// A paper's name with its number.
    #[must_use]
    pub fn numbered(&self, paper: Paper, number: &str) -> String {
        format!("{} {number}", (self.name)(paper))
    }

    /// What a paper is called in the list of a viewer.
    #[must_use]
    pub fn title(&self, paper: Paper, number: &str, part: &str) -> String {
        titled((self.name)(paper), number, part)
    }
}

/// What is called like this in the list of a viewer: "Traveler 26-0107, NZ-33".
#[must_use]
pub fn titled(called: &str, number: &str, part: &str) -> String {
    let name = capital(called);
    match part.trim() {
        "" => format!("{name} {number}"),
        part => format!("{name} {number}, {part}"),
    }
}
