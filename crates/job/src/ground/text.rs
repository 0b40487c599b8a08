//! What job files and shop files share: size, encoding and format number before anything is parsed, and how
//! a file is written.

use serde::Serialize;
use serde::de::DeserializeOwned;

/// The largest file that is read at all [bytes].
pub const LARGEST_FILE: u64 = LARGEST_FILE_MB * 1024 * 1024;

/// The same as sentences name it [MB of 1024 times 1024 bytes].
pub const LARGEST_FILE_MB: u64 = 64;

/// The format number must stand within this many bytes from the start.
const HEAD: usize = 256;

/// A name longer than this is cut where it is told, in characters.
const LONGEST_KEY: usize = 60;

/// Why a file is not one of ours, before its content is looked at.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TextError {
    /// Nothing in it.
    Empty,
    /// Larger than anything we write.
    TooLarge,
    /// A byte that no text has.
    Binary {
        /// Which byte, from 1.
        at: usize,
    },
    /// Not UTF-8.
    NotUtf8 {
        /// Which line, from 1.
        line: usize,
    },
    /// No format number at the start.
    NoFormat,
    /// Written by a newer program.
    NewerFormat {
        /// The file's format.
        found: u64,
        /// The newest format that is read here.
        newest: u32,
    },
    /// A name that this program doesn't know.
    UnknownKey {
        /// Which line, from 1.
        line: usize,
        /// Which column, from 1.
        column: usize,
        /// The name.
        key: String,
    },
    /// A format that never was.
    UnknownFormat {
        /// The file's format.
        found: u64,
    },
    /// The text stops before it is complete.
    Truncated {
        /// Which line, from 1.
        line: usize,
        /// Which column, from 1.
        column: usize,
    },
    /// A part of it lacks something that it has to say.
    MissingKey {
        /// The line on which the part ends.
        line: usize,
        /// The column.
        column: usize,
        /// What it doesn't say.
        key: String,
    },
    /// A part of it says something twice.
    KeyTwice {
        /// The line of the second time.
        line: usize,
        /// The column.
        column: usize,
        /// What it says twice.
        key: String,
    },
    /// Something that doesn't belong there.
    Broken {
        /// Which line, from 1.
        line: usize,
        /// Which column, from 1.
        column: usize,
        /// What is wrong.
        what: String,
    },
}

/// The text of a file, once its size and encoding are in order.
pub(crate) fn decode(bytes: &[u8]) -> Result<&str, TextError> {
    if bytes.len() as u64 > LARGEST_FILE {
        return Err(TextError::TooLarge);
    }
    if bytes.trim_ascii().is_empty() {
        return Err(TextError::Empty);
    }
    if let Some(at) = bytes.iter().position(|byte| *byte == 0) {
        return Err(TextError::Binary { at: at + 1 });
    }
    std::str::from_utf8(bytes).map_err(|error| TextError::NotUtf8 {
        line: 1 + bytes[..error.valid_up_to()]
            .iter()
            .filter(|byte| **byte == b'\n')
            .count(),
    })
}

/// The format number that a text of ours begins with, found without parsing the rest.
pub(crate) fn format_number(text: &str) -> Result<u64, TextError> {
    number_in_head(text).ok_or(TextError::NoFormat)
}

fn number_in_head(text: &str) -> Option<u64> {
    let head = &text.as_bytes()[..text.len().min(HEAD)];
    let rest = skip_space(head).strip_prefix(b"(")?;
    let rest = skip_space(rest).strip_prefix(b"format")?;
    let rest = skip_space(skip_space(rest).strip_prefix(b":")?);
    let digits = rest.iter().take_while(|byte| byte.is_ascii_digit()).count();
    // A number that touches the end of the head could go on behind it.
    if digits == rest.len() {
        return None;
    }
    std::str::from_utf8(&rest[..digits]).ok()?.parse().ok()
}

/// Leaves out blanks and line comments; a mark of byte order too.
fn skip_space(bytes: &[u8]) -> &[u8] {
    let mut rest = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    loop {
        rest = rest.trim_ascii_start();
        if !rest.starts_with(b"//") {
            return rest;
        }
        let line = rest.iter().position(|byte| *byte == b'\n');
        rest = line.map_or(&[], |end| &rest[end..]);
    }
}

/// A file of ours as text, in lines; empty where RON can't write it, which saving then refuses.
pub(crate) fn written(file: &impl Serialize) -> String {
    let pretty = ron::ser::PrettyConfig::new()
        .new_line("\n")
        .indentor("  ")
        .extensions(ron::extensions::Extensions::IMPLICIT_SOME);
    let text = options().to_string_pretty(file, pretty);
    text.map(|text| text + "\n").unwrap_or_default()
}

fn options() -> ron::Options {
    ron::Options::default().with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME)
}

/// Parses a text of ours; a fault names line and column.
pub(crate) fn parse<T: DeserializeOwned>(text: &str) -> Result<T, TextError> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    options()
        .from_str(text)
        .map_err(|error| fault(text, &error))
}

fn fault(text: &str, error: &ron::error::SpannedError) -> TextError {
    let ron::error::Position { line, col: column } = error.span.end;
    let unclosed = matches!(
        error.code,
        ron::Error::Eof | ron::Error::ExpectedStringEnd | ron::Error::UnclosedBlockComment
    );
    // Half a word is wrong in itself, but nothing stands behind it any more.
    let rest = rest_from(text, line, column);
    if unclosed || !rest.contains([',', ':', ')', ']', '}', '\n']) {
        return TextError::Truncated { line, column };
    }
    if let ron::Error::NoSuchStructField { found, .. }
    | ron::Error::NoSuchEnumVariant { found, .. } = &error.code
    {
        let key = found.chars().take(LONGEST_KEY).collect();
        return TextError::UnknownKey { line, column, key };
    }
    let key = |field: &&'static str| (*field).to_owned();
    if let ron::Error::MissingStructField { field, .. } = &error.code {
        let key = key(field);
        return TextError::MissingKey { line, column, key };
    }
    if let ron::Error::DuplicateStructField { field, .. } = &error.code {
        let key = key(field);
        return TextError::KeyTwice { line, column, key };
    }
    TextError::Broken {
        line,
        column,
        what: sentence(&error.code.to_string()),
    }
}

/// The text from a place on; nothing where the place lies behind its end.
fn rest_from(text: &str, line: usize, column: usize) -> &str {
    let start = match line.checked_sub(2) {
        None => Some(0),
        Some(breaks) => text.match_indices('\n').nth(breaks).map(|(at, _)| at + 1),
    };
    let rest = start.map_or("", |start| &text[start..]);
    let skipped = rest.char_indices().nth(column.saturating_sub(1));
    skipped.map_or("", |(at, _)| &rest[at..])
}

/// The parser's words without a capital and a full stop, so that they fit into our sentence.
fn sentence(what: &str) -> String {
    let what = what.trim().trim_end_matches('.');
    let mut letters = what.chars();
    let first = letters.next().map(|letter| letter.to_ascii_lowercase());
    first.into_iter().chain(letters).collect()
}
