//! Where on this machine things are kept: the user's own folders, by the rules of the system.

use std::path::{Path, PathBuf};

use quillbore_job::file::hash;

use crate::failure::Failure;
use crate::shelf::Mark;
use crate::words::places as words;

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

/// Where drafts of unsaved jobs are kept: on this machine, since a share may vanish.
#[must_use]
pub fn drafts_folder() -> PathBuf {
    data_folder().join("quillbore").join("drafts")
}

/// Where the cache of a shelf is kept: in the user's cache folder, never on the shelf.
#[must_use]
pub fn cache_path(shelf: &Path) -> PathBuf {
    let name = hash(shelf.to_string_lossy().as_bytes()).to_string();
    cache_folder()
        .join("quillbore")
        .join(format!("shelf-{}.cache", &name[..16]))
}

/// A mark for a new shelf, that no other has.
///
/// # Errors
/// Where the system gives no random numbers.
pub fn new_mark() -> Result<Mark, Failure> {
    let mut random = [0; 16];
    fill(&mut random)?;
    Ok(Mark::of(random))
}

/// What tells this run of the program from every other, on any machine.
///
/// # Errors
/// Where the system gives no random numbers.
pub fn run_id() -> Result<String, Failure> {
    let mut random = [0; 8];
    fill(&mut random)?;
    Ok(random.iter().map(|byte| format!("{byte:02x}")).collect())
}

/// What a desk calls itself: its setting, else who works on which machine.
#[must_use]
pub fn desk_name(setting: &str) -> String {
    if !setting.trim().is_empty() {
        return setting.trim().to_owned();
    }
    let from = |names: [&str; 2]| names.iter().find_map(|name| std::env::var(name).ok());
    let machine = from(["HOSTNAME", "COMPUTERNAME"]).or_else(|| {
        let name = std::fs::read_to_string("/etc/hostname").ok()?;
        Some(name.trim().to_owned())
    });
    match (from(["USER", "USERNAME"]), machine) {
        (Some(user), Some(machine)) => words::user_on(&user, &machine),
        (Some(one), None) | (None, Some(one)) => one,
        (None, None) => words::ANOTHER_DESK.to_owned(),
    }
}

fn fill(random: &mut [u8]) -> Result<(), Failure> {
    getrandom::fill(random).map_err(|error| words::no_random(&error))
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
