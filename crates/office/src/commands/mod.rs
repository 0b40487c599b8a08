//! The commands without a window: for scripts, for tests, for a desk without a screen.

mod ended;
mod figures;
mod intake;
mod issue;
mod line;
mod named;
mod papers;
mod say;

use std::io::Write;
use std::path::PathBuf;

use chrono::NaiveDate;

use crate::failure::Failure;
use crate::words::commands as said;

pub use crate::words::commands::usage;
pub use ended::Ended;
pub use line::Words;
use say::say;

/// What was asked on the command line.
#[derive(Clone, Debug, PartialEq)]
pub enum Asked {
    /// Open the window, on a job where one is named.
    Window {
        /// The job's file.
        job: Option<PathBuf>,
        /// The folder of jobs.
        shelf: Option<PathBuf>,
        /// The shop's own file.
        shop: Option<PathBuf>,
    },
    /// Write papers.
    Papers(papers::Papers),
    /// Print figures.
    Figures(figures::Figures),
    /// Make a job from a hole table.
    Intake(intake::Intake),
    /// Issue a paper, or release a traveler.
    Issue(issue::Issue),
    /// Say how it is used.
    Help,
    /// Say the version.
    Version,
}

/// Reads a command line; `today` is what stands in for a date that is not given.
///
/// # Errors
/// Where a word can't be understood; the sentence names it.
pub fn read(words: &[String], today: NaiveDate) -> Result<Asked, Failure> {
    let mut line = Words::new(words);
    match line.peek() {
        Some("papers") => papers::read(line.past_first(), today).map(Asked::Papers),
        Some("figures") => figures::read(line.past_first(), today).map(Asked::Figures),
        Some("issue") => issue::read_issue(line.past_first(), today).map(Asked::Issue),
        Some("release") => issue::read_release(line.past_first(), today).map(Asked::Issue),
        Some("intake") => intake::read(line.past_first(), today).map(Asked::Intake),
        Some("help" | "--help" | "-h") => Ok(Asked::Help),
        Some("--version" | "-V") => Ok(Asked::Version),
        _ => {
            let (mut job, mut shelf, mut shop) = (None, None, None);
            while let Some(word) = line.take() {
                match word.as_str() {
                    "--shelf" => shelf = Some(line.path("--shelf")?),
                    "--shop" => shop = Some(line.path("--shop")?),
                    _ if word.starts_with('-') => return Err(said::unknown(&word)),
                    _ if job.is_none() => job = Some(PathBuf::from(word)),
                    _ => return Err(said::unknown(&word)),
                }
            }
            Ok(Asked::Window { job, shelf, shop })
        }
    }
}

/// Does what was asked without a window, writing to `out`, and to `told` why what was done can't be
/// used as it stands.
///
/// # Errors
/// Where it could not be done; nothing has been written then that was not there before.
pub fn run(asked: &Asked, out: &mut impl Write, told: &mut impl Write) -> Result<Ended, Failure> {
    match asked {
        Asked::Papers(papers) => papers::run(papers, out, told),
        Asked::Figures(figures) => figures::run(figures, out),
        Asked::Intake(intake) => intake::run(intake, out),
        Asked::Issue(issue) => issue::run(issue, out, told),
        Asked::Help | Asked::Window { .. } => say(out, usage()).map(|()| Ended::Done),
        Asked::Version => say(out, said::VERSION).map(|()| Ended::Done),
    }
}
