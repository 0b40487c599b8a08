//! Packed files, unpacked only as far as a hole table goes.

use std::io::{Cursor, Read as _, Write};

use memchr::memmem::Finder;
use zip::ZipArchive;
use zip::result::ZipError;

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
    may_merge: bool,
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
        let (mut parts, mut may_merge) = (Vec::new(), false);
        for at in 0..archive.len() {
            let part = archive.by_index(at).map_err(failed)?;
            let name = part.name().map_err(failed)?.into_owned();
            if part.size() > left {
                return Err(WorkbookError::TooLarge);
            }
            let mut merges = Merges::new();
            let unpacked = std::io::copy(&mut part.take(left + 1), &mut merges);
            let unpacked = unpacked.map_err(|error| WorkbookError::damaged(&error))?;
            may_merge |= merges.found;
            left = left.checked_sub(unpacked).ok_or(WorkbookError::TooLarge)?;
            parts.push((name, unpacked));
        }
        Ok(Self {
            bytes,
            parts,
            may_merge,
        })
    }

    /// Whether any of its sheets may have merged cells: to be told them the library reads a sheet once more.
    pub(super) const fn may_merge(&self) -> bool {
        self.may_merge
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

/// Looks through a part for the tag of merged cells; what isn't written byte for byte may have one.
struct Merges {
    tag: Finder<'static>,
    /// The end of what came before, which the tag may begin in.
    end: Vec<u8>,
    found: bool,
}

const MERGED: &[u8] = b"mergeCells";

impl Merges {
    fn new() -> Self {
        Self {
            tag: Finder::new(MERGED),
            end: Vec::new(),
            found: false,
        }
    }
}

impl Write for Merges {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        let (first, last) = (
            MERGED.len() - 1,
            bytes.len().saturating_sub(MERGED.len() - 1),
        );
        self.end.extend(bytes.iter().take(first));
        self.found = self.found
            || self.tag.find(&self.end).is_some()
            || self.tag.find(bytes).is_some()
            || memchr::memchr(0, bytes).is_some();
        self.end.extend(bytes.iter().skip(last.max(first)));
        let surplus = self.end.len().saturating_sub(first);
        self.end.drain(..surplus);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
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

#[cfg(test)]
mod tests {
    use std::io::Write as _;

    use super::Merges;

    fn finds(text: &[u8], piece: usize) -> bool {
        let mut merges = Merges::new();
        for part in text.chunks(piece) {
            merges.write_all(part).expect("it takes all");
        }
        merges.found
    }

    #[test]
    fn merged_cells_are_found_however_the_part_is_cut() {
        let with = b"<sheetData/><x:mergeCells count=\"1\"/></worksheet>";
        let without = b"<sheetData/><x:mergeCell count=\"1\"/>s</worksheet>";
        for piece in 1..=with.len() {
            assert!(finds(with, piece), "{piece}");
            assert!(!finds(without, piece), "{piece}");
        }
        let wide: Vec<u8> = with.iter().flat_map(|byte| [*byte, 0]).collect();
        assert!(finds(&wide, 7));
    }
}
