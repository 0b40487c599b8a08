//! What the customer is asked about checks, and what was answered.

use quillbore_job::answer::Answer;
use quillbore_job::concern::Concern;

/// Checks as the customer reads of them.
#[derive(Clone, Copy, Debug)]
pub struct Answers {
    /// What is asked of the customer as long as nobody has answered.
    pub please_confirm: fn(Concern) -> &'static str,
    /// An answered check as the quotation states it: its facts as papers show them, and its day.
    pub offered: fn(&Answer, &Lengths, &str) -> String,
}

/// Facts of an answer as papers show them.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Lengths {
    /// What drawing and sheet say.
    pub given: String,
    /// How far it may go wrong.
    pub by: String,
    /// No limits are given for a depth: what is given is the general tolerance.
    pub is_general: bool,
}
