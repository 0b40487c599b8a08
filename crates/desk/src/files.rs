//! The files that window and commands open and write, with the sentences for what goes wrong.

use std::borrow::Cow;
use std::fs::File;
use std::io::Read as _;
use std::path::Path;

use chrono::NaiveDate;
use quillbore_job::file::{self, LARGEST_FILE};
use quillbore_job::{Job, Shop};

use crate::commands::Failure;

/// The shop, with its own file laid over the built-in tables where one is named, and the rates in
/// force on a day.
///
/// # Errors
/// Where the file can't be read or is none of ours.
pub fn shop_on(own: Option<&Path>, day: NaiveDate) -> Result<Shop, Failure> {
    let mut shop = match own {
        None => Shop::embedded()
            .map_err(|error| Failure::new(error.to_string(), error.hint()))?
            .clone(),
        Some(path) => Shop::with_file(&read_capped(path)?)
            .map_err(|error| Failure::new(error.to_string(), error.hint()).at(path))?,
    };
    shop.tables = shop.tables_on(day);
    Ok(shop)
}

/// A job from its file.
///
/// # Errors
/// Where the file can't be read or holds no job.
pub fn open_job(path: &Path) -> Result<Job, Failure> {
    let bytes = read_capped(path)?;
    file::read_job(&bytes).map_err(|error| Failure::new(error.to_string(), error.hint()).at(path))
}

/// Saves a job where no file stands yet.
///
/// # Errors
/// Where a file stands there already, or it can't be written.
pub fn save_new(path: &Path, job: &Job) -> Result<(), Failure> {
    file::save(&file::RealDisk, path, job, None)
        .map(|_| ())
        .map_err(|error| Failure::new(error.to_string(), error.hint()).at(path))
}

/// A file's bytes, as long as they are no more than any file of ours can have.
///
/// # Errors
/// Where the file can't be read or is too large.
pub fn read_capped(path: &Path) -> Result<Vec<u8>, Failure> {
    let open =
        File::open(path).map_err(|error| Failure::io("The file can't be read", &error, path))?;
    let mut bytes = Vec::new();
    open.take(LARGEST_FILE + 1)
        .read_to_end(&mut bytes)
        .map_err(|error| Failure::io("The file can't be read", &error, path))?;
    if bytes.len() as u64 > LARGEST_FILE {
        return Err(Failure::new(
            format!("The file is larger than {} MB", LARGEST_FILE / 1_000_000),
            "no job and no hole table is; name another file",
        )
        .at(path));
    }
    Ok(bytes)
}

/// A path as a sentence names it.
#[must_use]
pub fn shown(path: &Path) -> Cow<'_, str> {
    path.to_string_lossy()
}
