//! Cases that a reader did not stand once, replayed: what `tests/attack` checks of any bytes.

#![expect(clippy::unwrap_used, reason = "a helper that fails is a failed test")]

use std::path::{Path, PathBuf};

use quillbore_tests::attack::READERS;

fn files(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).unwrap();
    let mut paths: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    paths
}

#[test]
fn every_kept_case_is_stood() {
    let cases = Path::new(env!("CARGO_MANIFEST_DIR")).join("attack/cases");
    let mut replayed = 0;
    for folder in files(&cases) {
        let name = folder.file_name().unwrap().to_str().unwrap();
        let reader = READERS.iter().find(|reader| reader.name == name);
        let reader = reader.unwrap_or_else(|| panic!("no reader is called {name}"));
        for path in files(&folder) {
            println!("{}", path.display());
            (reader.check)(&std::fs::read(&path).unwrap());
            replayed += 1;
        }
    }
    assert!(replayed > 0, "no case in {}", cases.display());
}

#[test]
fn nothing_and_any_few_bytes_are_stood_by_every_reader() {
    for reader in READERS {
        (reader.check)(b"");
        // Figures and papers take their time.
        let step = if reader.share < 10 { 32 } else { 1 };
        for byte in (0..=255_u8).step_by(step) {
            (reader.check)(&[byte]);
        }
    }
}
