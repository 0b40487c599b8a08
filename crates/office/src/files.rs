//! Files that somebody names by a path: a shop's tables, a hole table, papers printed into a folder.

use std::io;
use std::path::{Path, PathBuf};

use chrono::NaiveDate;
use quillbore_job::Shop;
use quillbore_job::file::{LARGEST_FILE, read_job};

use crate::disk::{Disk, Kind};
use crate::failure::Failure;
use crate::office::shop_lost::{samples_for_lost, shop_file, unread};
use crate::shelf::{Doc, Shelf};
use crate::words::files as words;

/// The shop: its own file laid over the built-in tables where one is named, else what the shelf has
/// of it, else the built-in tables alone.
///
/// # Errors
/// Where the file can't be read or is none of ours.
pub fn shop(
    disk: &dyn Disk,
    own: Option<&Path>,
    shelf: Option<&dyn Shelf>,
) -> Result<Shop, Failure> {
    let of_file = |bytes: &[u8], path: &Path| {
        Shop::with_file(bytes).map_err(|error| {
            if read_job(bytes).is_ok() {
                return words::job_as_shop(path);
            }
            Failure::new(error.to_string(), error.hint()).at(path)
        })
    };
    if let Some(path) = own {
        return of_file(&read_capped(disk, path)?, path);
    }
    if let Some(shelf) = shelf
        && let Some(stored) = shop_file(shelf)?
    {
        return Shop::with_file(&stored.bytes).map_err(|error| unread(shelf, &error));
    }
    Shop::of_nobody().map_err(|error| Failure::new(error.to_string(), error.hint()))
}

/// The same for the window, which opens on the samples where the shelf's own shop is lost: somebody sees
/// to it there, and no paper is issued until then.
///
/// # Errors
/// Where the shelf can't be reached, or a file that somebody named can't be used.
pub fn shop_in_window(
    disk: &dyn Disk,
    own: Option<&Path>,
    shelf: &dyn Shelf,
) -> Result<Shop, Failure> {
    if own.is_none() {
        // Whether it can be reached at all is told before the window opens.
        shelf.read(&Doc::Shop)?;
        return shop(disk, None, Some(shelf)).or_else(|_| samples_for_lost());
    }
    shop(disk, own, None)
}

/// The shop of a window whose shelf gives no answer: as it was seen last, else the samples, by which
/// nothing leaves the house until the shelf is back.
///
/// # Errors
/// Where the samples can't be used.
pub fn shop_while_away(shelf: &dyn Shelf) -> Result<Shop, Failure> {
    let seen = shelf.last_seen(&Doc::Shop);
    let seen = seen.and_then(|seen| Shop::with_file(&seen.bytes).ok());
    seen.map_or_else(samples_for_lost, Ok)
}

/// A shop with the rates in force on a day.
#[must_use]
pub fn shop_on(shop: &Shop, day: NaiveDate) -> Shop {
    shop.on(day)
}

/// A file's bytes, as long as they are no more than any file of ours can have; links to it are
/// followed, since somebody named it.
///
/// # Errors
/// Where the file can't be read, is no plain file or is too large.
pub fn read_capped(disk: &dyn Disk, path: &Path) -> Result<Vec<u8>, Failure> {
    match disk.read(&followed(path)?, LARGEST_FILE) {
        Ok(bytes) => Ok(bytes),
        Err(error) if error.kind() == io::ErrorKind::FileTooLarge => Err(words::too_large(path)),
        Err(error) => Err(words::not_read(&error, path)),
    }
}

/// The file that a path leads to, links to it followed, since somebody named it.
///
/// # Errors
/// Where there is none.
pub(crate) fn followed(path: &Path) -> Result<PathBuf, Failure> {
    std::fs::canonicalize(path).map_err(|error| words::not_read(&error, path))
}

/// What stands at a path before something is written there: the bytes of a plain file, or nothing.
///
/// # Errors
/// Where something else has the name: a link is never written through, a pipe never waited for.
pub fn stands(disk: &dyn Disk, path: &Path, most: u64) -> Result<Option<Vec<u8>>, Failure> {
    let failed = |error: &io::Error| words::not_looked_at(error, path);
    match disk.look(path) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
        Err(error) => return Err(failed(&error)),
        Ok(look) if look.kind == Kind::File => {}
        Ok(_) => return Err(words::no_plain_file(path)),
    }
    // A larger one is another file in any case.
    match disk.read(path, most) {
        Err(error) if error.kind() == io::ErrorKind::FileTooLarge => Ok(Some(Vec::new())),
        other => other.map(Some).map_err(|error| failed(&error)),
    }
}
