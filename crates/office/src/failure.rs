//! Why something the office was asked for could not be done: message, hint, and the path last.

use std::fmt;
use std::path::{Path, PathBuf};

use crate::names::NameRefused;
use crate::save::SaveError;
use crate::shelf::{CommitError, ShelfError};
use crate::words::failure as words;

/// Something that could not be done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Failure {
    message: String,
    hint: String,
    path: Option<PathBuf>,
}

impl Failure {
    /// A failure with what to do about it.
    #[must_use]
    pub fn new(message: impl Into<String>, hint: impl Into<String>) -> Self {
        Self {
            message: message.into(),
            hint: hint.into(),
            path: None,
        }
    }

    /// What could not be done, without what to do about it.
    #[must_use]
    pub fn message(&self) -> &str {
        &self.message
    }

    /// The same, behind a sentence that says what came of it.
    #[must_use]
    pub fn behind(self, sentence: &str) -> Self {
        Self {
            message: format!("{sentence} {}", self.message),
            ..self
        }
    }

    /// The same, about a file or folder.
    #[must_use]
    pub fn at(self, path: &Path) -> Self {
        Self {
            path: Some(path.to_owned()),
            ..self
        }
    }

    /// The same, about a file or folder where it names none yet.
    #[must_use]
    pub fn or_at(self, path: &Path) -> Self {
        match self.path {
            Some(_) => self,
            None => self.at(path),
        }
    }
}

impl From<NameRefused> for Failure {
    fn from(error: NameRefused) -> Self {
        Self::new(error.to_string(), error.hint())
    }
}

impl From<ShelfError> for Failure {
    fn from(error: ShelfError) -> Self {
        Self::new(error.to_string(), error.hint()).at(Path::new(error.place()))
    }
}

impl From<CommitError> for Failure {
    fn from(error: CommitError) -> Self {
        let failure = Self::new(error.to_string(), error.hint());
        match error.place() {
            Some(place) => failure.at(Path::new(place)),
            None => failure,
        }
    }
}

impl From<SaveError> for Failure {
    fn from(error: SaveError) -> Self {
        match error {
            SaveError::Commit(error) => error.into(),
            error => Self::new(error.to_string(), error.hint()),
        }
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let path = self.path.as_deref();
        f.write_str(&words::sentence(&self.message, &self.hint, path))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn message_hint_and_path_are_one_sentence() {
        let failure = Failure::new("No space left.", "Save a copy; nothing is lost.");
        let said = failure.at(Path::new("26-0107.ron")).to_string();
        assert_eq!(
            said,
            "No space left; save a copy; nothing is lost: 26-0107.ron"
        );
        let said = Failure::new("No job is named", "quillbore figures JOB.ron").to_string();
        assert_eq!(said, "No job is named; quillbore figures JOB.ron.");
    }
}
