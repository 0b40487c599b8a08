//! What papers are called.

use quillbore_job::Paper;

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

    /// What a paper is called in the list of a viewer: "Traveler 26-0107, NZ-33".
    #[must_use]
    pub fn title(&self, paper: Paper, number: &str, part: &str) -> String {
        let mut letters = (self.name)(paper).chars();
        let first = letters.next().map(|letter| letter.to_ascii_uppercase());
        let name: String = first.into_iter().chain(letters).collect();
        match part.trim() {
            "" => format!("{name} {number}"),
            part => format!("{name} {number}, {part}"),
        }
    }
}
