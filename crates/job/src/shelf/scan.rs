//! Reading a shelf: files that did not change since are taken as they were known.

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::Path;
use std::sync::Arc;
use std::time::UNIX_EPOCH;

use serde::{Deserialize, Serialize};

use super::summary::Summary;
use crate::file::{LARGEST_FILE, read_job};

/// A job's line on the shelf; one that can't be read stays listed with its reason.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ShelfLine {
    /// The name of its file.
    pub file: String,
    /// Its number, by its file's name.
    pub number: String,
    /// What its file was known by when it was read.
    pub stamp: Stamp,
    /// What it is, or why it can't be read.
    pub says: Result<Summary, String>,
}

/// What tells that a file may have changed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stamp {
    /// Nanoseconds from 1970 to its last change, on the disk's own clock.
    pub changed_ns: i64,
    /// Its length.
    pub bytes: u64,
}

/// What reading a shelf came to.
#[derive(Clone, Debug, Default)]
pub struct Scan {
    /// Every job of the folder, in no order.
    pub lines: Vec<Arc<ShelfLine>>,
    /// Files that had to be read.
    pub read: usize,
}

/// Reads a shelf; `known` is what an earlier scan found. `tell` hears after every few hundred files
/// what there is so far, and stops the scan by saying false.
///
/// # Errors
/// Where the folder can't be listed: the share is gone, or nobody may read it.
pub fn scan(
    shelf: &Path,
    known: &[Arc<ShelfLine>],
    mut tell: impl FnMut(&[Arc<ShelfLine>]) -> bool,
) -> io::Result<Scan> {
    const TELL_EVERY: usize = 500;
    let known: BTreeMap<&str, &Arc<ShelfLine>> = known
        .iter()
        .map(|line| (line.file.as_str(), line))
        .collect();
    let mut scan = Scan::default();
    let mut changed = Vec::new();
    for entry in fs::read_dir(shelf)? {
        // A file that went away between two looks is no fault of the folder.
        let Ok(entry) = entry else { continue };
        let Ok(file) = entry.file_name().into_string() else {
            continue;
        };
        let Some(number) = file.strip_suffix(".ron").filter(|stem| !stem.is_empty()) else {
            continue;
        };
        let Ok(stamp) = stamp(&entry) else { continue };
        match known.get(file.as_str()) {
            Some(line) if line.stamp == stamp => scan.lines.push(Arc::clone(line)),
            _ => changed.push((number.to_owned(), file, stamp)),
        }
    }
    for (at, (number, file, stamp)) in changed.into_iter().enumerate() {
        if at % TELL_EVERY == 0 && !tell(&scan.lines) {
            break;
        }
        let says = summary(&shelf.join(&file), stamp);
        scan.read += 1;
        scan.lines.push(Arc::new(ShelfLine {
            file,
            number,
            stamp,
            says,
        }));
    }
    Ok(scan)
}

fn stamp(entry: &fs::DirEntry) -> io::Result<Stamp> {
    let about = entry.metadata()?;
    if !about.is_file() {
        return Err(io::ErrorKind::IsADirectory.into());
    }
    let since = about.modified()?.duration_since(UNIX_EPOCH);
    Ok(Stamp {
        changed_ns: since.map_or(0, |since| {
            i64::try_from(since.as_nanos()).unwrap_or(i64::MAX)
        }),
        bytes: about.len(),
    })
}

fn summary(path: &Path, stamp: Stamp) -> Result<Summary, String> {
    if stamp.bytes > LARGEST_FILE {
        return Err(crate::file::TextError::TooLarge.to_string());
    }
    let bytes = fs::read(path).map_err(|error| format!("The file can't be read: {error}"))?;
    let job = read_job(&bytes).map_err(|error| error.to_string())?;
    Ok(Summary::of(&job))
}
