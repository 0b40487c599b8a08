//! The words of a command line, one after the other: options with what stands behind them, and names.

use std::collections::BTreeSet;
use std::ffi::{OsStr, OsString};
use std::path::PathBuf;

use chrono::NaiveDate;

use crate::failure::Failure;
use crate::words::commands as words;

/// Options that may be given more than once; of any other a second one would be a slip of the hand.
const REPEATED: [&str; 2] = ["--column", "--with"];

/// What ends the options: names alone stand behind it.
const NO_MORE_OPTIONS: &str = "--";

/// A word of a command line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Word<'a> {
    /// An option, without what may stand behind its equals sign.
    Option(&'a str),
    /// The name of something; it need not be text.
    Name(&'a OsStr),
}

impl Word<'_> {
    /// That it means nothing where it stands.
    #[must_use]
    pub(super) fn unknown(&self) -> Failure {
        match self {
            Self::Option(option) => words::unknown(OsStr::new(option)),
            Self::Name(name) => words::unknown(name),
        }
    }
}

/// What is left of a command line.
#[derive(Clone, Debug)]
pub(super) struct Words<'a> {
    left: std::slice::Iter<'a, OsString>,
    /// The option read last with what stands behind its equals sign, until that is asked for.
    attached: Option<(&'a str, &'a OsStr)>,
    given: BTreeSet<&'a str>,
    only_names: bool,
}

impl<'a> Words<'a> {
    /// All of them.
    #[must_use]
    pub(super) fn new(words: &'a [OsString]) -> Self {
        Self {
            left: words.iter(),
            attached: None,
            given: BTreeSet::new(),
            only_names: false,
        }
    }

    /// The next word, left where it is.
    #[must_use]
    pub(super) fn peek(&self) -> Option<&'a str> {
        self.left.as_slice().first().and_then(|word| word.to_str())
    }

    /// All but the first.
    #[must_use]
    pub(super) fn past_first(mut self) -> Self {
        self.left.next();
        self
    }

    /// The next word.
    ///
    /// # Errors
    /// Where the option before it takes no value and has one, where an option is given twice, or a
    /// name is empty.
    pub(super) fn take(&mut self) -> Result<Option<Word<'a>>, Failure> {
        if let Some((option, _)) = self.attached {
            return Err(words::takes_no_value(option));
        }
        let Some(word) = self.left.next() else {
            return Ok(None);
        };
        if word.is_empty() {
            return Err(words::empty_word());
        }
        if self.only_names || !begins_with_dash(word) {
            return Ok(Some(Word::Name(word)));
        }
        if word == NO_MORE_OPTIONS {
            self.only_names = true;
            return self.take();
        }
        let (option, value) = split_at_equals(word);
        let option = option.to_str().ok_or_else(|| words::unknown(word))?;
        if !self.given.insert(option) && !REPEATED.contains(&option) {
            return Err(words::twice(option));
        }
        self.attached = value.map(|value| (option, value));
        Ok(Some(Word::Option(option)))
    }

    /// What stands behind an option: after its equals sign, or as the next word, which then must not
    /// look like an option.
    fn value(&mut self, option: &str) -> Result<&'a OsStr, Failure> {
        let value = match self.attached.take() {
            Some((_, value)) => value,
            None => match self.left.as_slice().first() {
                Some(next) if !looks_like_option(next) => {
                    self.left.next();
                    next.as_os_str()
                }
                next => return Err(words::no_value(option, next.map(OsString::as_os_str))),
            },
        };
        if value.is_empty() {
            return Err(words::empty_value(option));
        }
        Ok(value)
    }

    /// A text behind an option.
    pub(super) fn text(&mut self, option: &str) -> Result<String, Failure> {
        let value = self.value(option)?;
        let text = value
            .to_str()
            .ok_or_else(|| words::no_text(option, value))?;
        if text.trim().is_empty() {
            return Err(words::empty_value(option));
        }
        Ok(text.to_owned())
    }

    /// A path behind an option, which need not be text.
    pub(super) fn path(&mut self, option: &str) -> Result<PathBuf, Failure> {
        self.value(option).map(PathBuf::from)
    }

    /// A day behind an option.
    pub(super) fn date(&mut self, option: &str) -> Result<NaiveDate, Failure> {
        let text = self.text(option)?;
        NaiveDate::parse_from_str(&text, "%Y-%m-%d").map_err(|_| words::no_day(&text))
    }
}

fn begins_with_dash(word: &OsStr) -> bool {
    word.as_encoded_bytes().starts_with(b"-")
}

/// Whether a word begins as options do; a number with its sign, or a part's dash number, does not.
fn looks_like_option(word: &OsStr) -> bool {
    let number = |second: &u8| second.is_ascii_digit() || matches!(second, b'.' | b',');
    begins_with_dash(word) && !word.as_encoded_bytes().get(1).is_some_and(number)
}

/// An option, and what stands behind its equals sign.
#[cfg(unix)]
fn split_at_equals(word: &OsStr) -> (&OsStr, Option<&OsStr>) {
    use std::os::unix::ffi::OsStrExt as _;
    let bytes = word.as_bytes();
    match bytes.iter().position(|byte| *byte == b'=') {
        Some(at) => {
            let (option, value) = (&bytes[..at], &bytes[at + 1..]);
            (OsStr::from_bytes(option), Some(OsStr::from_bytes(value)))
        }
        None => (word, None),
    }
}

/// An option, and what stands behind its equals sign; what is no text is one word.
#[cfg(not(unix))]
fn split_at_equals(word: &OsStr) -> (&OsStr, Option<&OsStr>) {
    match word.to_str().and_then(|word| word.split_once('=')) {
        Some((option, value)) => (OsStr::new(option), Some(OsStr::new(value))),
        None => (word, None),
    }
}
