//! The folder of jobs, as a plain list.

use std::fs;
use std::path::{Path, PathBuf};

use chrono::NaiveDate;
use quillbore_job::{Field, file};

use crate::commands::Failure;
use crate::files;

/// The demo jobs that a first start finds on its shelf.
pub const DEMO_JOBS: &[(&str, &str)] = &[
    (
        "26-0101.ron",
        include_str!("../../../demo-jobs/26-0101.ron"),
    ),
    (
        "26-0102.ron",
        include_str!("../../../demo-jobs/26-0102.ron"),
    ),
    (
        "26-0103.ron",
        include_str!("../../../demo-jobs/26-0103.ron"),
    ),
    (
        "26-0104.ron",
        include_str!("../../../demo-jobs/26-0104.ron"),
    ),
    (
        "26-0105.ron",
        include_str!("../../../demo-jobs/26-0105.ron"),
    ),
    (
        "26-0106.ron",
        include_str!("../../../demo-jobs/26-0106.ron"),
    ),
];

/// A job's line on the shelf; one that can't be read stays listed with its reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Listed {
    /// Its file.
    pub path: PathBuf,
    /// Its number, by its file's name.
    pub number: String,
    /// Customer and part, or why it can't be read.
    pub says: Result<String, String>,
}

/// The shelf that is used unless another is named: in the user's data folder.
#[must_use]
pub fn usual_shelf() -> PathBuf {
    data_folder().join("quillbore").join("shelf")
}

/// Where the desk's settings are kept.
#[must_use]
pub fn settings_path() -> PathBuf {
    data_folder().join("quillbore").join("settings.json")
}

/// The user's data folder by the rules of the system; the working folder where it has none.
fn data_folder() -> PathBuf {
    let from = |name| {
        std::env::var_os(name)
            .map(PathBuf::from)
            .filter(|path| path.is_absolute())
    };
    if cfg!(windows) {
        from("APPDATA")
    } else if cfg!(target_os = "macos") {
        from("HOME").map(|home| home.join("Library/Application Support"))
    } else {
        from("XDG_DATA_HOME").or_else(|| from("HOME").map(|home| home.join(".local/share")))
    }
    .unwrap_or_else(|| PathBuf::from("."))
}

/// Makes the shelf's folder; a new one gets the demo jobs.
///
/// # Errors
/// Where the folder can't be made or written to.
pub fn prepare(shelf: &Path) -> Result<(), Failure> {
    if shelf.is_dir() {
        return Ok(());
    }
    fs::create_dir_all(shelf)
        .map_err(|error| Failure::io("The shelf can't be made", &error, shelf))?;
    for (name, text) in DEMO_JOBS {
        let path = shelf.join(name);
        file::write_whole(&file::RealDisk, &path, text.as_bytes())
            .map_err(|error| Failure::new(error.to_string(), error.hint()).at(&path))?;
    }
    Ok(())
}

/// The jobs on the shelf, the newest number first.
#[must_use]
pub fn list(shelf: &Path) -> Vec<Listed> {
    let Ok(entries) = fs::read_dir(shelf) else {
        return Vec::new();
    };
    let mut listed: Vec<Listed> = entries
        .filter_map(|entry| {
            let path = entry.ok()?.path();
            (path.extension()? == "ron").then(|| line(path))
        })
        .collect();
    listed.sort_by(|a, b| b.number.cmp(&a.number));
    listed
}

/// A path for the next job: year and the first number above all that are there.
#[must_use]
pub fn free_path(shelf: &Path, day: NaiveDate) -> PathBuf {
    let year = day.format("%y-").to_string();
    let taken = list(shelf)
        .into_iter()
        .filter_map(|job| job.number.strip_prefix(&year)?.parse::<u32>().ok());
    let next = taken.max().unwrap_or(100) + 1;
    shelf.join(format!("{year}{next:04}.ron"))
}

fn line(path: PathBuf) -> Listed {
    let number = path
        .file_stem()
        .map_or_else(String::new, |stem| stem.to_string_lossy().into_owned());
    let says = files::open_job(&path)
        .map_err(|failure| failure.to_string())
        .map(|job| {
            let parts = [job.text(Field::Customer), job.text(Field::Part)];
            let parts: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
            parts.join(", ")
        });
    Listed { path, number, says }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_first_start_finds_the_demo_jobs_and_a_broken_file_stays_listed() {
        let folder = tempfile::tempdir().expect("a folder");
        let shelf = folder.path().join("shelf");
        prepare(&shelf).expect("a shelf");
        assert_eq!(list(&shelf).len(), DEMO_JOBS.len());
        assert!(list(&shelf).iter().all(|job| job.says.is_ok()));
        fs::write(shelf.join("99-0001.ron"), "no job").expect("written");
        let listed = list(&shelf);
        assert_eq!(listed.len(), DEMO_JOBS.len() + 1);
        assert!(
            listed
                .first()
                .is_some_and(|job| job.number == "99-0001" && job.says.is_err())
        );
        fs::remove_file(shelf.join("26-0101.ron")).expect("taken out");
        prepare(&shelf).expect("a shelf");
        assert_eq!(
            list(&shelf).len(),
            DEMO_JOBS.len(),
            "a demo job taken out stays out"
        );
    }
}
