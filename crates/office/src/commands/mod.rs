//! The commands without a window: for scripts, for tests, for a desk without a screen.

mod ended;
mod figures;
mod in_the_way;
mod intake;
mod issue;
mod line;
mod named;
mod pages;
mod papers;
#[cfg(feature = "server")]
mod password;
mod saying;
mod shelf;

use std::ffi::OsString;
use std::io::Write;
use std::path::PathBuf;

use chrono::NaiveDate;

use crate::failure::Failure;
use crate::words::commands as said;

pub use crate::words::commands::usage;
use ended::Came;
pub use ended::Ended;
pub(crate) use ended::Made;
use line::{Word, Words};
use saying::Saying;
pub use saying::tell_failure;

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
        /// The sample jobs, in place of any shelf.
        samples: bool,
    },
    /// Write papers.
    Papers(papers::Papers),
    /// Print figures.
    Figures(figures::Figures),
    /// Make a job from a hole table.
    Intake(intake::Intake),
    /// Issue a paper, or release a traveler.
    Issue(issue::Issue),
    /// Make or copy a shelf.
    Shelf(shelf::ShelfAsked),
    /// Say how it is used.
    Help,
    /// Say the version.
    Version,
}

/// Reads a command line; `today` is what stands in for a date that is not given.
///
/// # Errors
/// Where a word can't be understood; the sentence names it.
pub fn read(words: &[OsString], today: NaiveDate) -> Result<Asked, Failure> {
    let mut line = Words::new(words);
    match line.peek() {
        Some("papers") => papers::read(line.past_first(), today).map(Asked::Papers),
        Some("figures") => figures::read(line.past_first(), today).map(Asked::Figures),
        Some("issue") => issue::read_issue(line.past_first(), today).map(Asked::Issue),
        Some("release") => issue::read_release(line.past_first(), today).map(Asked::Issue),
        Some("shelf") => shelf::read(line.past_first()).map(Asked::Shelf),
        Some("intake") => intake::read(line.past_first(), today).map(Asked::Intake),
        Some("help" | "--help" | "-h") => Ok(Asked::Help),
        Some("--version" | "-V") => Ok(Asked::Version),
        _ => {
            let (mut job, mut shelf, mut shop, mut samples) = (None, None, None, false);
            while let Some(word) = line.take()? {
                match word {
                    Word::Option("--shelf") => shelf = Some(line.path("--shelf")?),
                    Word::Option("--shop") => shop = Some(line.path("--shop")?),
                    Word::Option("--samples") => samples = true,
                    Word::Name(name) if job.is_none() => job = Some(PathBuf::from(name)),
                    _ => return Err(word.unknown()),
                }
            }
            if samples && shelf.is_some() {
                return Err(said::samples_alone());
            }
            Ok(Asked::Window {
                job,
                shelf,
                shop,
                samples,
            })
        }
    }
}

/// Does what was asked without a window, writing to `out`, and to `told` why what was done can't be
/// used as it stands.
///
/// # Errors
/// Where it could not be done; nothing has been written then that was not there before. Where it was
/// done and `out` can't be written, the sentence says so.
pub fn run(asked: &Asked, out: &mut impl Write, told: &mut impl Write) -> Result<Ended, Failure> {
    let mut saying = Saying::new(out, told);
    let came = match asked {
        Asked::Papers(papers) => papers::run(papers, &mut saying)?,
        Asked::Figures(figures) => figures::run(figures, &mut saying)?,
        Asked::Intake(intake) => intake::run(intake, &mut saying)?,
        Asked::Issue(issue) => issue::run(issue, &mut saying)?,
        Asked::Shelf(shelf) => shelf::run(shelf, &mut saying)?,
        Asked::Help | Asked::Window { .. } => plain(&usage(), &mut saying),
        Asked::Version => plain(said::VERSION, &mut saying),
    };
    match saying.failure() {
        None => Ok(came.ended),
        Some(error) => Err(said::not_written_out(&error, &came.made)),
    }
}

fn plain(text: &str, saying: &mut Saying<'_>) -> Came {
    text.lines().for_each(|line| saying.line(line));
    Came {
        ended: Ended::Done,
        made: Made::Nothing,
    }
}
