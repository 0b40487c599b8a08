//! A fault of the program itself is told in one plain sentence.

use std::panic::PanicHookInfo;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use quillbore_office::Failure;
use quillbore_office::commands::tell_failure;

use crate::words::window as words;

/// Where drafts are kept, once they are.
static DRAFTS: OnceLock<PathBuf> = OnceLock::new();

/// From now on a fault is told in one sentence; what a developer wants to see beside it is asked for
/// by `RUST_BACKTRACE`.
pub(crate) fn tell_plainly() {
    let usual = std::panic::take_hook();
    let for_developers = std::env::var_os("RUST_BACKTRACE").is_some();
    std::panic::set_hook(Box::new(move |fault| {
        tell_failure(
            &mut std::io::stderr(),
            &said(fault, DRAFTS.get().map(PathBuf::as_path)),
        );
        if for_developers {
            usual(fault);
        }
    }));
}

/// Says where drafts are kept from now on.
pub(crate) fn drafts_are_in(folder: &Path) {
    let _ = DRAFTS.set(folder.to_owned());
}

fn said(fault: &PanicHookInfo<'_>, drafts: Option<&Path>) -> Failure {
    let place = fault.location().map_or_else(String::new, |at| {
        format!("{}:{}", short(at.file()), at.line())
    });
    let why = fault.payload_as_str().unwrap_or(words::NO_REASON);
    let said = words::fault(why, &place);
    match drafts {
        Some(folder) => Failure::new(said, words::REPORT_FAULT_WITH_DRAFTS).at(folder),
        None => Failure::new(said, words::REPORT_FAULT),
    }
}

/// A source file without the folders of the machine that built the program.
fn short(file: &str) -> String {
    const KEPT: usize = 3;
    let parts: Vec<&str> = file.split(['/', '\\']).collect();
    parts[parts.len().saturating_sub(KEPT)..].join("/")
}

#[cfg(test)]
mod tests {
    use std::sync::{Arc, Mutex};

    use super::*;

    #[test]
    fn a_fault_is_told_without_the_folders_of_the_machine_that_built_it() {
        assert_eq!(
            short("/home/builder/registry/src/host-1/egui-0.37.0/src/ui.rs"),
            "egui-0.37.0/src/ui.rs"
        );
        assert_eq!(short("C:\\b\\crates\\desk\\src\\app.rs"), "desk/src/app.rs");
        assert_eq!(short("app.rs"), "app.rs");
    }

    #[test]
    fn a_fault_is_one_sentence_that_says_what_is_kept_and_where() {
        let told = Arc::new(Mutex::new(Vec::new()));
        let heard = Arc::clone(&told);
        std::panic::set_hook(Box::new(move |fault| {
            let drafts = Some(Path::new("/data/drafts"));
            let said = [said(fault, drafts), said(fault, None)];
            let said = said.map(|failure| failure.to_string());
            heard.lock().expect("what was told").extend(said);
        }));
        let ended = std::thread::spawn(|| panic!("row 7")).join();
        drop(std::panic::take_hook());
        assert!(ended.is_err());
        let told = told.lock().expect("what was told").clone();
        let [with_drafts, without] = told.as_slice() else {
            panic!("two sentences: {told:?}");
        };
        assert!(
            with_drafts.contains("row 7 (desk/src/fault.rs:"),
            "{with_drafts}"
        );
        assert!(with_drafts.ends_with("offered at the next start: /data/drafts"));
        assert!(
            without.ends_with("nothing that was saved is lost."),
            "{without}"
        );
    }
}
