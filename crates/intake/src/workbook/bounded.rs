//! Packed files, unpacked only as far as a hole table goes.

use std::io::{Cursor, Read as _};

use zip::ZipArchive;
use zip::result::ZipError;

use super::looked::{Looked, Seen};
use super::{WorkbookError, trap};

/// Most bytes of a workbook unpacked: forty times the file, and what small files may have beyond that.
const MOST_TIMES: u64 = 40;
const MOST_BESIDE: u64 = 8_000_000;

/// Most parts of a packed file: workbooks have some tens.
const MOST_PARTS: usize = 10_000;

/// A packed file of which it is known how large it is unpacked.
pub(super) struct Packed<'a> {
    bytes: &'a [u8],
    /// What its parts are called, and how large each is unpacked.
    parts: Vec<(String, u64)>,
    /// What was seen in them as they went by.
    pub(super) seen: Seen,
}

impl<'a> Packed<'a> {
    /// Unpacks all of it once without keeping it: what it says of its own size may be wrong.
    pub(super) fn of(bytes: &'a [u8]) -> Result<Self, WorkbookError> {
        let mut archive = open(bytes)?;
        if archive.len() > MOST_PARTS {
            return Err(WorkbookError::TooLarge);
        }
        let size = u64::try_from(bytes.len()).unwrap_or(u64::MAX);
        let mut left = size.saturating_mul(MOST_TIMES).saturating_add(MOST_BESIDE);
        let (mut parts, mut seen) = (Vec::new(), Seen::default());
        for at in 0..archive.len() {
            let part = archive.by_index(at).map_err(failed)?;
            let name = part.name().map_err(failed)?.into_owned();
            if part.size() > left {
                return Err(WorkbookError::TooLarge);
            }
            let mut looked = Looked::of(&name);
            let unpacked = std::io::copy(&mut part.take(left + 1), &mut looked);
            let unpacked = unpacked.map_err(|error| WorkbookError::damaged(&error))?;
            seen = seen.and(looked.seen);
            left = left.checked_sub(unpacked).ok_or(WorkbookError::TooLarge)?;
            parts.push((name, unpacked));
        }
        Ok(Self { bytes, parts, seen })
    }

    /// Whether there is a part of this name.
    pub(super) fn has(&self, name: &str) -> bool {
        self.parts.iter().any(|(there, _)| there == name)
    }

    /// Looks for what the library that reads sheets would lay out before it counts.
    pub(super) fn is_no_trap(&self) -> Result<(), WorkbookError> {
        let mut archive = open(self.bytes)?;
        for (at, (name, size)) in self.parts.iter().enumerate() {
            let name = name.to_lowercase();
            if name.ends_with("sharedstrings.xml") {
                let part = archive.by_index(at).map_err(failed)?;
                trap::strings(part, *size, self.bytes.len())?;
            } else if name.ends_with("styles.xml") {
                trap::styles(archive.by_index(at).map_err(failed)?)?;
            }
        }
        Ok(())
    }

    /// The part of this name as text; `None` where there is none.
    pub(super) fn text(&self, name: &str) -> Result<Option<String>, WorkbookError> {
        if !self.has(name) {
            return Ok(None);
        }
        let mut text = Vec::new();
        let mut archive = open(self.bytes)?;
        let mut part = archive.by_name(name).map_err(failed)?;
        part.read_to_end(&mut text)
            .map_err(|error| WorkbookError::damaged(&error))?;
        // Text that is none is rare; other text is not kept twice.
        let text = String::from_utf8(text)
            .unwrap_or_else(|error| String::from_utf8_lossy(error.as_bytes()).into_owned());
        Ok(Some(text))
    }
}

fn open(bytes: &[u8]) -> Result<ZipArchive<Cursor<&[u8]>>, WorkbookError> {
    ZipArchive::new(Cursor::new(bytes)).map_err(failed)
}

fn failed(error: ZipError) -> WorkbookError {
    match error {
        ZipError::UnsupportedArchive(ZipError::PASSWORD_REQUIRED) => WorkbookError::Locked,
        error => WorkbookError::damaged(&error),
    }
}
