//! What was taken, guessed and refused, line by line.

/// The report of one intake.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Report {
    /// What holds for the whole: separator, head, units.
    pub whole: Vec<String>,
    /// Line by line, in the text's order.
    pub lines: Vec<Line>,
}

/// What became of one line of the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// Its number in the text, from 1.
    pub number: usize,
    /// What became of it.
    pub outcome: Outcome,
    /// In words.
    pub says: String,
}

/// What became of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// Taken as it stands.
    Taken,
    /// Taken, with something guessed that is worth a look.
    Guessed,
    /// Taken as text that can't be read yet; it is marked in the table.
    Unread,
}

impl Report {
    /// How many lines ended so.
    #[must_use]
    pub fn count(&self, outcome: Outcome) -> usize {
        self.lines
            .iter()
            .filter(|line| line.outcome == outcome)
            .count()
    }
}
