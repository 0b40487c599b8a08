//! Names of jobs and of the files beside them: types, never paths, so that no name that stands in a
//! job's file leads out of the shelf.

use std::fmt;

/// Longest name, in bytes: with what is put before and behind it, every disk takes it.
pub const LONGEST_NAME: usize = 160;

/// What the shelf keeps under names of its own.
const OURS: &[&str] = &["shop", "quillbore-shelf"];

/// What the shelf keeps beside a job under names of its own.
pub(crate) const OURS_BESIDE: &[&str] =
    &["previous.ron", "saving.lock", "open.lock", "open-at.txt"];

/// Names that mean a device on some systems, whatever their ending.
const DEVICES: &[&str] = &["con", "conin$", "conout$", "prn", "aux", "nul"];

/// Names that mean a device with one digit behind them, which may be a raised one.
const NUMBERED_DEVICES: &[&str] = &["com", "lpt"];

/// What a job is known by on its shelf: the name of its file without the ending.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct JobKey(String);

/// What a file beside a job is called: an issued paper, a photo.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct AttachmentName(String);

/// Why a text is no such name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NameRefused {
    /// Nothing in it.
    Empty,
    /// Longer than a disk may take.
    TooLong {
        /// Most bytes.
        most: usize,
    },
    /// A sign that leads elsewhere, or that some system takes in no name.
    Sign {
        /// The name.
        name: String,
        /// The sign.
        sign: char,
    },
    /// It begins with a dot, or ends with a dot or a blank, or begins with one.
    Edge {
        /// The name.
        name: String,
    },
    /// Kept for something else.
    Kept {
        /// The name.
        name: String,
    },
}

impl JobKey {
    /// A job's name out of a text.
    ///
    /// # Errors
    /// Where it could lead out of the shelf, or some system takes no file of that name.
    pub fn new(text: &str) -> Result<Self, NameRefused> {
        check(text)?;
        if is_one_of(text, OURS) {
            return Err(NameRefused::Kept {
                name: text.to_owned(),
            });
        }
        Ok(Self(text.to_owned()))
    }

    /// The name.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Its running number, where it is one of a year (of two digits) up to [`HIGHEST_NUMBER`]: `26-0107` is the 107th of 26.
    #[must_use]
    pub fn number_of(&self, year: u32) -> Option<u32> {
        number_of(&self.0, year)
    }
}

/// The highest running number: no shop has a million jobs a year, and a name with more digits, such as
/// a part number that begins like a year, must not carry the count off.
pub const HIGHEST_NUMBER: u32 = 999_999;

/// The running number that a name has in a year of two digits.
pub(crate) fn number_of(name: &str, year: u32) -> Option<u32> {
    let number = name.strip_prefix(&format!("{year:02}-"))?;
    let digits = !number.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit());
    let number = digits.then(|| number.parse().ok()).flatten();
    number.filter(|number| *number <= HIGHEST_NUMBER)
}

impl AttachmentName {
    /// The name of a file beside a job out of a text.
    ///
    /// # Errors
    /// Where it could lead out of the job's folder, some system takes no file of that name, or the
    /// shelf keeps something of its own under it.
    pub fn new(text: &str) -> Result<Self, NameRefused> {
        check(text)?;
        // No lock of another version of the program may ever be taken for a paper.
        if is_one_of(text, OURS_BESIDE) || text.to_lowercase().ends_with(".lock") {
            return Err(NameRefused::Kept {
                name: text.to_owned(),
            });
        }
        Ok(Self(text.to_owned()))
    }

    /// The name.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for JobKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl fmt::Display for AttachmentName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

fn is_one_of(text: &str, kept: &[&str]) -> bool {
    kept.iter().any(|kept| text.eq_ignore_ascii_case(kept))
}

fn is_device(stem: &str) -> bool {
    let digits = ['\u{b9}', '\u{b2}', '\u{b3}'];
    let numbered = stem.strip_suffix(|sign: char| sign.is_ascii_digit() || digits.contains(&sign));
    is_one_of(stem, DEVICES) || numbered.is_some_and(|device| is_one_of(device, NUMBERED_DEVICES))
}

fn check(text: &str) -> Result<(), NameRefused> {
    if text.trim().is_empty() {
        return Err(NameRefused::Empty);
    }
    if text.len() > LONGEST_NAME {
        return Err(NameRefused::TooLong { most: LONGEST_NAME });
    }
    let name = || text.to_owned();
    let bad = |sign: &char| sign.is_control() || "/\\:*?\"<>|".contains(*sign);
    if let Some(sign) = text.chars().find(bad) {
        return Err(NameRefused::Sign { name: name(), sign });
    }
    let edge = |sign: char| sign == '.' || sign.is_whitespace();
    if text.starts_with(edge) || text.ends_with(edge) {
        return Err(NameRefused::Edge { name: name() });
    }
    let stem = text.split('.').next().unwrap_or_default().trim_end();
    if is_device(stem) {
        return Err(NameRefused::Kept { name: name() });
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_and_names_of_files_are_taken_as_they_stand() {
        for name in [
            "26-0107",
            "26-0107-ours",
            "ring 4-118",
            "S\u{f6}hne",
            "a.b",
            "contra",
            "com",
            "com12",
            "complete 3",
        ] {
            assert_eq!(JobKey::new(name).map(|key| key.0), Ok(name.to_owned()));
        }
        for name in ["26-0107-Q1.pdf", "flange.jpg", "shop.ron"] {
            assert_eq!(
                AttachmentName::new(name).map(|name| name.0),
                Ok(name.to_owned())
            );
        }
    }

    #[test]
    fn no_name_leads_elsewhere_or_means_something_else() {
        for name in [
            "",
            " ",
            "..",
            ".",
            ".hidden",
            "../26-0107",
            "a/b",
            "a\\b",
            "/etc/passwd",
            "C:",
            "a\0b",
            "a\nb",
            "26-0107 ",
            " 26-0107",
            "26-0107.",
            "con",
            "NUL.pdf",
            "Com1.x.y",
            "lpt9 .pdf",
            "com\u{b9}",
            "LPT\u{b3}.pdf",
            "conin$",
            "what?",
            &"x".repeat(161),
        ] {
            assert!(JobKey::new(name).is_err(), "{name:?}");
            assert!(AttachmentName::new(name).is_err(), "{name:?}");
        }
        for name in ["shop", "SHOP", "Quillbore-Shelf"] {
            assert!(JobKey::new(name).is_err(), "{name:?}");
        }
        for name in ["previous.ron", "Open.LOCK", "other.lock", "open-at.txt"] {
            assert!(AttachmentName::new(name).is_err(), "{name:?}");
        }
    }

    #[test]
    fn a_number_is_one_of_its_year_alone() {
        let key = |name| JobKey::new(name).expect("a name");
        assert_eq!(key("26-0107").number_of(26), Some(107));
        assert_eq!(key("26-0107").number_of(25), None);
        assert_eq!(key("26-0107-ours").number_of(26), None);
        assert_eq!(key("26-+107").number_of(26), None);
        assert_eq!(key("26-99999999999").number_of(26), None);
        assert_eq!(key("05-1").number_of(5), Some(1));
    }
}
