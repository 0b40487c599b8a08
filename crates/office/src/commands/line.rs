//! The words of a command line, one after the other.

use std::path::PathBuf;

use chrono::NaiveDate;

use crate::failure::Failure;
use crate::words::commands as words;

/// What is left of a command line.
#[derive(Clone, Debug)]
pub struct Words<'a> {
    left: std::slice::Iter<'a, String>,
}

impl<'a> Words<'a> {
    /// All of them.
    #[must_use]
    pub fn new(words: &'a [String]) -> Self {
        Self { left: words.iter() }
    }

    /// The next word, left where it is.
    #[must_use]
    pub fn peek(&self) -> Option<&'a str> {
        self.left.as_slice().first().map(String::as_str)
    }

    /// All but the first.
    #[must_use]
    pub fn past_first(mut self) -> Self {
        self.left.next();
        self
    }

    /// The next word.
    pub fn take(&mut self) -> Option<String> {
        self.left.next().cloned()
    }

    /// What stands behind an option.
    pub fn value(&mut self, option: &str) -> Result<String, Failure> {
        self.take().ok_or_else(|| words::no_value(option))
    }

    /// A path behind an option.
    pub fn path(&mut self, option: &str) -> Result<PathBuf, Failure> {
        self.value(option).map(PathBuf::from)
    }

    /// A day behind an option.
    pub fn date(&mut self, option: &str) -> Result<NaiveDate, Failure> {
        let text = self.value(option)?;
        NaiveDate::parse_from_str(&text, "%Y-%m-%d").map_err(|_| words::no_day(&text))
    }
}
