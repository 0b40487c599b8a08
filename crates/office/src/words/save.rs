//! What is said when a job can't be saved.

use std::error::Error;
use std::fmt;

use quillbore_job::words::names;

use crate::differs::Differs;
use crate::save::SaveError;

impl SaveError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::WouldNotOpen { .. } => "undo the last step and save again; nothing was written",
            Self::Name(why) => why.hint(),
            Self::NoNumberLeft { .. } => "save it under a name with save as",
            Self::Commit(why) => why.hint(),
        }
    }
}

impl Error for SaveError {
    fn source(&self) -> Option<&(dyn Error + 'static)> {
        match self {
            Self::WouldNotOpen { source, .. } => source.as_ref().map(|why| why as &dyn Error),
            Self::Name(why) => Some(why),
            Self::Commit(why) => Some(why),
            Self::NoNumberLeft { .. } => None,
        }
    }
}

impl fmt::Display for SaveError {
    /// One sentence: why a job could not be saved.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::WouldNotOpen { source, differs } => {
                f.write_str("This job would not open again as it is")?;
                match (source, differs) {
                    (Some(why), _) => write!(f, " ({why})"),
                    (None, Some(part)) => {
                        write!(f, ": {} would come back as something else", in_words(*part))
                    }
                    (None, None) => Ok(()),
                }
            }
            Self::Name(why) => why.fmt(f),
            Self::NoNumberLeft { year } => {
                write!(
                    f,
                    "Every number of the year {year:02} is taken on this shelf"
                )
            }
            Self::Commit(why) => why.fmt(f),
        }
    }
}

/// A part of a job, inside a sentence.
fn in_words(part: Differs) -> String {
    match part {
        Differs::Number => "its number".to_owned(),
        Differs::Opened => "the day it was opened".to_owned(),
        Differs::Unit => "its unit".to_owned(),
        Differs::Field(field) => format!("\u{201c}{}\u{201d}", names::field(field)),
        Differs::Row(row) => format!("row {} of the hole table", row + 1),
        Differs::Overrules => "an overruled figure".to_owned(),
        Differs::Answers => "an answer to a check".to_owned(),
        Differs::Slip(slip) => format!("slip {}", slip + 1),
        Differs::Issued(issued) => format!("issued paper {}", issued + 1),
        Differs::Reports => "what became of a pasted table".to_owned(),
        Differs::Identities => "the count of its rows and slips".to_owned(),
    }
}

/// Where a job is that is on a server.
pub(crate) fn on_server(job: &str, place: &str) -> String {
    format!("{job} on {place}")
}
