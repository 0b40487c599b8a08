//! The program itself, run with its words, and folders for it.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

pub(crate) fn demo(number: &str) -> PathBuf {
    let demos = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../demo-jobs");
    demos.join(format!("{number}.ron"))
}

/// The file of the invented shop: its papers may leave.
pub(crate) const INVENTED_SHOP: &str = concat!(
    env!("CARGO_MANIFEST_DIR"),
    "/../../assets/sample-shelf/shop.ron"
);

/// The program, without a display and with data of its own.
pub(crate) fn program() -> Command {
    let mut program = Command::new(env!("CARGO_BIN_EXE_quillbore"));
    let data = std::env::current_exe()
        .expect("a path")
        .with_extension("data");
    program.env_remove("DISPLAY").env_remove("WAYLAND_DISPLAY");
    program.env("XDG_DATA_HOME", data);
    program
}

pub(crate) fn quillbore(words: &[&str]) -> Output {
    program().args(words).output().expect("the program")
}

pub(crate) fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

pub(crate) fn path(path: &Path) -> &str {
    path.to_str().expect("a plain path")
}

/// A folder with these demo jobs and the invented shop in it, which nobody said is a shelf.
pub(crate) fn folder_of(jobs: &[&str]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    for job in jobs {
        let to = folder.path().join(format!("{job}.ron"));
        fs::copy(demo(job), to).expect("a demo job");
    }
    fs::copy(INVENTED_SHOP, folder.path().join("shop.ron")).expect("a shop");
    folder
}

pub(crate) fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .expect("the folder")
        .map(|entry| {
            entry
                .expect("an entry")
                .file_name()
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    names.sort_unstable();
    names
}
