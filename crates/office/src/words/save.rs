//! What is said when a job can't be saved.

use std::error::Error;
use std::fmt;

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
            Self::WouldNotOpen { source } => source.as_ref().map(|why| why as &dyn Error),
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
            Self::WouldNotOpen { .. } => f.write_str("This job would not open again as it is"),
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
