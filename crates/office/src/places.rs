//! Where on this machine things are kept: the user's own folders, by the rules of the system.

use std::ffi::OsString;
use std::path::{Path, PathBuf};

use quillbore_job::file::hash;

use crate::failure::Failure;
use crate::shelf::Mark;
use crate::words::places as words;

/// The shelf that is used unless another is named: in the user's data folder.
///
/// # Errors
/// Where the system says no such folder.
pub fn usual_shelf() -> Result<PathBuf, Failure> {
    let folder = own_folder(DATA).ok_or_else(words::no_usual_shelf)?;
    Ok(folder.join("shelf"))
}

/// The folder of the sample jobs: a shelf of its own, so that nothing of it counts for a real one.
///
/// # Errors
/// Where the system says no such folder.
pub fn sample_shelf() -> Result<PathBuf, Failure> {
    let folder = own_folder(DATA).ok_or_else(words::no_usual_shelf)?;
    Ok(folder.join("sample-jobs"))
}

/// Where the desk's settings are kept; `None` where the system says no folder for them.
#[must_use]
pub fn settings_path() -> Option<PathBuf> {
    Some(own_folder(DATA)?.join("settings.json"))
}

/// Where drafts of unsaved jobs are kept: on this machine, since a share may vanish. `None` where the
/// system says no folder for them.
#[must_use]
pub fn drafts_folder() -> Option<PathBuf> {
    Some(own_folder(DATA)?.join("drafts"))
}

/// Where the cache of a shelf is kept: in the user's cache folder, never on the shelf. `None` where
/// the system says no such folder.
#[must_use]
pub fn cache_path(shelf: &Path) -> Option<PathBuf> {
    let name = hash(shelf.as_os_str().as_encoded_bytes()).to_string();
    Some(own_folder(CACHE)?.join(format!("shelf-{}.cache", &name[..16])))
}

/// Where copies lie of what a shelf on no disk has beside its jobs, to be opened. `None` where the
/// system says no such folder.
#[must_use]
pub fn copies_folder() -> Option<PathBuf> {
    Some(own_folder(CACHE)?.join("copies"))
}

/// Where what was seen last of a shelf on a server is kept. `None` where the system says no such folder.
#[must_use]
pub fn seen_folder(shelf: &Path) -> Option<PathBuf> {
    let name = hash(shelf.as_os_str().as_encoded_bytes()).to_string();
    Some(own_folder(CACHE)?.join(format!("seen-{}", &name[..16])))
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

/// A path as a person types it: `~` is the user's own folder, and what begins nowhere begins there.
#[must_use]
pub fn typed(text: &str) -> PathBuf {
    typed_in(text, home())
}

fn typed_in(text: &str, home: Option<PathBuf>) -> PathBuf {
    let text = text.trim();
    let path = Path::new(
        text.strip_prefix('"')
            .and_then(|text| text.strip_suffix('"'))
            .unwrap_or(text),
    );
    match home {
        Some(home) if path.is_relative() && !path.as_os_str().is_empty() => {
            home.join(path.strip_prefix("~").unwrap_or(path))
        }
        _ => path.to_owned(),
    }
}

/// The user's own folder.
fn home() -> Option<PathBuf> {
    let variable = if cfg!(windows) { "USERPROFILE" } else { "HOME" };
    let home = PathBuf::from(std::env::var_os(variable)?);
    home.is_absolute().then_some(home)
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

/// Where a kind of folder of the user's own is, by what variables of the environment say: the first
/// that says a place counts, with what is put behind it.
type Said = [(&'static str, &'static str)];

/// Data of the user's own, by the rules of the system.
const DATA: &Said = if cfg!(windows) {
    &[("APPDATA", "")]
} else if cfg!(target_os = "macos") {
    &[("HOME", "Library/Application Support")]
} else {
    &[("XDG_DATA_HOME", ""), ("HOME", ".local/share")]
};

/// What may be thrown away, by the rules of the system.
const CACHE: &Said = if cfg!(windows) {
    &[("LOCALAPPDATA", ""), ("APPDATA", "")]
} else if cfg!(target_os = "macos") {
    &[("HOME", "Library/Caches")]
} else {
    &[
        ("XDG_CACHE_HOME", ""),
        ("HOME", ".cache"),
        ("XDG_DATA_HOME", ""),
    ]
};

/// The program's folder among the user's own.
fn own_folder(said: &Said) -> Option<PathBuf> {
    folder_in(said, |variable| std::env::var_os(variable))
}

/// The same, by what an environment says. A place that is not whole is passed over, as the XDG Base
/// Directory Specification asks, and so is the root of all folders, which is nobody's home.
fn folder_in(said: &Said, says: impl Fn(&str) -> Option<OsString>) -> Option<PathBuf> {
    let mut places = said.iter().filter_map(|(variable, behind)| {
        let place = PathBuf::from(says(variable)?);
        let is_somebodys = place.is_absolute() && place.parent().is_some();
        is_somebodys.then(|| place.join(behind))
    });
    Some(places.next()?.join("quillbore"))
}

#[cfg(all(test, unix, not(target_os = "macos")))]
mod tests {
    use super::*;

    #[test]
    fn a_typed_path_begins_in_the_users_own_folder_unless_it_says_another() {
        for (text, path) in [
            ("~/lists/tubes.csv", "/home/jo/lists/tubes.csv"),
            (" tubes.csv ", "/home/jo/tubes.csv"),
            ("/srv/tubes.csv", "/srv/tubes.csv"),
            ("\"/srv/my tubes.csv\"", "/srv/my tubes.csv"),
            ("~", "/home/jo/"),
            ("~tubes", "/home/jo/~tubes"),
            ("", ""),
        ] {
            assert_eq!(
                typed_in(text, Some("/home/jo".into())),
                Path::new(path),
                "{text}"
            );
        }
        assert_eq!(typed_in("tubes.csv", None), Path::new("tubes.csv"));
    }

    fn folder(said: &Said, environment: &[(&str, &str)]) -> Option<PathBuf> {
        folder_in(said, |variable| {
            let mut known = environment.iter();
            known
                .find(|(name, _)| *name == variable)
                .map(|(_, value)| OsString::from(value))
        })
    }

    #[test]
    fn places_that_are_not_whole_are_passed_over() {
        let home = ("HOME", "/home/pell");
        let usual = Some(PathBuf::from("/home/pell/.local/share/quillbore"));
        assert_eq!(folder(DATA, &[home]), usual);
        for odd in ["", ".", "data", "./data", "/"] {
            assert_eq!(
                folder(DATA, &[("XDG_DATA_HOME", odd), home]),
                usual,
                "{odd}"
            );
            assert_eq!(folder(DATA, &[("HOME", odd)]), None, "{odd}");
            assert_eq!(folder(CACHE, &[("HOME", odd)]), None, "{odd}");
        }
        let named = [("XDG_DATA_HOME", "/data"), ("HOME", "")];
        assert_eq!(folder(DATA, &named), Some(PathBuf::from("/data/quillbore")));
        assert_eq!(
            folder(CACHE, &named),
            Some(PathBuf::from("/data/quillbore"))
        );
        assert_eq!(
            folder(CACHE, &[home]),
            Some(PathBuf::from("/home/pell/.cache/quillbore"))
        );
    }
}
