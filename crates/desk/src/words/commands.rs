//! The words that do something.

use crate::actions::Action;
use crate::all_words::Group;

/// The word that an action stands under.
#[must_use]
pub const fn action(action: Action) -> &'static str {
    match action {
        Action::New => "new job",
        Action::Open => "open",
        Action::Save => "save",
        Action::SaveAs => "save as",
        Action::NextStep => "next step",
        Action::NextNote => "next stop or check",
        Action::Preview => "preview",
        Action::Print => "print previews",
        Action::TakeHoles => "holes from a file",
        Action::Undo => "undo",
        Action::Redo => "redo",
        Action::Again => "reorder",
        Action::CopyFoot => "copy the sentence in the foot",
        Action::Picture => "section of the hole",
        Action::Find => "find",
        Action::NextJob => "next job",
        Action::CloseJob => "close",
        Action::Commands => "commands",
        Action::Today => "today",
        Action::Shop => "shop",
        Action::Learned => "what was learned",
        Action::Help => "help where I am",
        Action::Settings => "settings",
        Action::OtherUnit => "mm or inch",
        Action::OtherPaper => "light or dark",
        Action::Shelf => "shelf",
        Action::Quit => "quit",
        Action::Larger => "larger",
        Action::Smaller => "smaller",
        Action::UsualSize => "usual size",
    }
}

/// What a slip is called whose kind nobody knows.
pub const SLIP: &str = "slip";

/// Adds a run record for each mark that has none.
pub const RUNS_OF_MARKS: &str = "add a run record for each mark";

/// Adds a run record for each planned electrode that none covers.
pub const RUNS_OF_PLAN: &str = "add a run record for each electrode";

/// A word that settles something by a slip.
#[must_use]
pub fn settle(word: &str, slip: &str) -> String {
    format!("{word}: {slip}")
}

/// A row by its mark, else by its place in the table.
#[must_use]
pub fn row(mark: &str, place: usize) -> String {
    match mark {
        "" => format!("row {place}"),
        mark => format!("hole {mark}"),
    }
}

/// Several rows that are answered together.
#[must_use]
pub fn all_rows(count: usize) -> String {
    format!("all {count} rows")
}

/// The word that answers what is asked of rows.
#[must_use]
pub fn answer(concern: &str, about: &str, how: &str) -> String {
    format!("answer {concern} of {about}: {how}")
}

/// The word that pins a slip.
#[must_use]
pub fn add(slip: &str) -> String {
    format!("add {slip}")
}

/// The word that lays a paper out.
#[must_use]
pub fn preview(paper: &str) -> String {
    format!("preview {paper}")
}

/// The word that issues a paper.
#[must_use]
pub fn issue(paper: &str) -> String {
    format!("issue {paper}")
}

/// What commands that stand together are about.
#[must_use]
pub const fn group(group: Group) -> &'static str {
    match group {
        Group::Job => "job",
        Group::Window => "window",
        Group::Add => "add",
        Group::Preview => "preview",
        Group::Issue => "issue",
        Group::Answer => "answer",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_action_has_its_own_word() {
        for (i, a) in Action::ALL.iter().enumerate() {
            for b in &Action::ALL[i + 1..] {
                assert_ne!(action(*a), action(*b));
            }
        }
    }
}
