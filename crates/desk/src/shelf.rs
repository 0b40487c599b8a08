//! The folder of jobs: where it is, and what a first start puts there.

use std::fs;
use std::path::{Path, PathBuf};

use quillbore_job::file;

use crate::commands::Failure;

/// The demo jobs that a first start finds on its shelf.
pub const DEMO_JOBS: &[(&str, &str)] = &[
    (
        "25-0388.ron",
        include_str!("../../../demo-jobs/25-0388.ron"),
    ),
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
    if cfg!(windows) {
        folder_named("APPDATA")
    } else if cfg!(target_os = "macos") {
        folder_named("HOME").map(|home| home.join("Library/Application Support"))
    } else {
        folder_named("XDG_DATA_HOME")
            .or_else(|| folder_named("HOME").map(|home| home.join(".local/share")))
    }
    .unwrap_or_else(|| PathBuf::from("."))
}

/// The folder that a variable of the environment names, where it is a whole path.
fn folder_named(variable: &str) -> Option<PathBuf> {
    std::env::var_os(variable)
        .map(PathBuf::from)
        .filter(|path| path.is_absolute())
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

/// Where the cache of a shelf is kept: in the user's cache folder, never on the shelf.
#[must_use]
pub fn cache_path(shelf: &Path) -> PathBuf {
    let name = file::hash(shelf.to_string_lossy().as_bytes()).to_string();
    cache_folder()
        .join("quillbore")
        .join(format!("shelf-{}.json", &name[..16]))
}

/// Where drafts of unsaved jobs are kept: on this machine, since a share may vanish.
#[must_use]
pub fn drafts_folder() -> PathBuf {
    data_folder().join("quillbore").join("drafts")
}

fn cache_folder() -> PathBuf {
    if cfg!(windows) {
        folder_named("LOCALAPPDATA")
    } else if cfg!(target_os = "macos") {
        folder_named("HOME").map(|home| home.join("Library/Caches"))
    } else {
        folder_named("XDG_CACHE_HOME")
            .or_else(|| folder_named("HOME").map(|home| home.join(".cache")))
    }
    .unwrap_or_else(data_folder)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_first_start_finds_the_demo_jobs_and_one_taken_out_stays_out() {
        let folder = tempfile::tempdir().expect("a folder");
        let shelf = folder.path().join("shelf");
        prepare(&shelf).expect("a shelf");
        let count = |shelf: &Path| {
            let scan = quillbore_job::shelf::scan(shelf, &[], |_| true).expect("a scan");
            assert!(scan.lines.iter().all(|job| job.says.is_ok()));
            scan.lines.len()
        };
        assert_eq!(count(&shelf), DEMO_JOBS.len());
        fs::remove_file(shelf.join("26-0101.ron")).expect("taken out");
        prepare(&shelf).expect("a shelf");
        assert_eq!(
            count(&shelf),
            DEMO_JOBS.len() - 1,
            "a demo job taken out stays out"
        );
    }
}
