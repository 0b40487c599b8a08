//! What the foot says of something that was asked: done, refused, or put off.

use std::fmt::Display;

use quillbore_job::Paper;
use quillbore_job::words::slips;

/// That what was asked is about a job, which is out of sight.
pub const CLOSE_PAGE_FIRST: &str =
    "That is about the job under this page: close the page first (Esc).";

/// That a paper of the kind that is shown stands already, and how another one is issued.
#[must_use]
pub fn stands_already(paper: Paper) -> String {
    let name = slips::paper(paper);
    format!(
        "A {name} stands already: Esc closes the preview, and the next step goes on. Another one is issued by its word in the margin."
    )
}

/// That a question is open, and nothing else is asked before.
pub const ANSWER_FIRST: &str = "Answer the question in the head first.";

/// That a question is open, and nothing is pasted before.
pub const ANSWER_BEFORE_PASTE: &str = "Nothing was pasted: answer the question in the head first.";

/// That a paste was given up.
pub const NOTHING_PASTED: &str = "Nothing was pasted; the table is still on the clipboard.";

/// That the window waits for what is being written.
pub const CLOSES_WHEN_WRITTEN: &str =
    "The window closes once what is being written is written; close it again to leave that undone.";

/// That a job can't be put away yet.
pub const WAIT_FOR_WRITING: &str = "Wait: what is being written of this job is not done yet.";

/// That the sentence in the foot is on the clipboard.
pub const FOOT_COPIED: &str = "The sentence is on the clipboard.";

/// That there is no stop and no check to go to.
pub const NO_NOTE: &str = "No stop and no check waits.";

/// That a folder was made a shelf.
pub const IS_SHELF_NOW: &str = "This folder is a shelf now; it is listed and saved to.";

/// That another shelf is used from the next start on.
pub const SHELF_AT_NEXT_START: &str = "The next start uses that shelf; this one stays until then.";

/// That there is no slip which a file would belong to.
pub const NO_PARTS_RECEIVED: &str =
    "Add parts received first: photos and papers belong to that slip.";

/// That there is no folder by that name.
#[must_use]
pub fn no_such_folder(folder: impl Display) -> String {
    format!("There is no such folder: {folder}")
}

/// That settings could not be written.
#[must_use]
pub fn settings_not_kept(error: impl Display, path: impl Display) -> String {
    format!("The settings can't be kept: {error}: {path}")
}

/// That a file was taken into the job's folder.
#[must_use]
pub fn attached(name: &str) -> String {
    format!("Taken into the job's folder: {name}")
}

/// That a job that is not saved can't be done again.
#[must_use]
pub fn save_before_again(job: &str) -> String {
    format!("{job} is not saved: save it, then do it again.")
}

/// That a column can't hold what was said.
#[must_use]
pub fn column_refused(error: impl Display, hint: &str) -> String {
    format!("{error}: {hint}.")
}

/// How much of a table was taken.
#[must_use]
pub fn pasted(lines: usize, rows: usize) -> String {
    let count = |one: &str, several: &str, count: usize| match count {
        1 => format!("1 {one}"),
        _ => format!("{count} {several}"),
    };
    format!(
        "Pasted: {}, {}.",
        count("line", "lines", lines),
        count("row", "rows", rows)
    )
}

/// A line of a table that is worth a look.
#[must_use]
pub fn line_to_look_at(line: impl Display, says: &str) -> String {
    format!("Line {line}: {}.", says.trim_end_matches('.'))
}

/// That a quick price became the job.
pub const QUICK_MADE: &str =
    "The quick price is the job now, its figures one by one; undo takes it back.";

/// What an answer makes of a job: machine hours and price each, before and after, as far as they moved.
#[must_use]
pub fn answer_moved(before: &[String; 2], after: &[String; 2]) -> String {
    let named = ["machine hours", "price each"]
        .iter()
        .zip(before)
        .zip(after);
    let moved = named.filter(|((_, before), after)| before != after);
    let moved = moved.map(|((name, before), after)| format!("{name} {before} to {after}"));
    let moved = moved.collect::<Vec<_>>().join(", ");
    format!("Put down. It moves the figures: {moved}. A press on them says by what.")
}

/// What run records make of a job now: machine hours and price each, before and after.
#[must_use]
pub fn runs_moved(before: &[String; 2], after: &[String; 2]) -> String {
    let [hours, each] = [0, 1].map(|at| format!("{} to {}", before[at], after[at]));
    format!(
        "What this run teaches holds for the whole shop; of this job it makes: machine hours {hours}, price each {each}. A press on the hours says by what."
    )
}
