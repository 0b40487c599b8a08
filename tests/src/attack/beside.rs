//! What is read beside jobs and tables: words of a command line, codes, names, marks, drafts, the
//! list's cache.

use std::cell::OnceCell;
use std::ffi::OsString;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::Shop;
use quillbore_office::digest::Follower;
use quillbore_office::disk::RealDisk;
use quillbore_office::drafts::left_behind;
use quillbore_office::names::{AttachmentName, JobKey};
use quillbore_office::office::Wanted;
use quillbore_office::shelf::{Mark, Memory};
use quillbore_office::{Office, commands};
use quillbore_paper::code;
use tempfile::TempDir;

use super::files::comes_back;

/// Whatever the words: something that can be done, or one sentence; a name that is taken is no path.
pub(super) fn words(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    let words: Vec<String> = text.split('\0').map(str::to_owned).collect();
    let asked: Vec<OsString> = words.iter().map(OsString::from).collect();
    let today = NaiveDate::from_ymd_opt(2026, 11, 25).unwrap_or_default();
    if let Err(failure) = commands::read(&asked, today) {
        assert!(!failure.to_string().is_empty());
    }
    for word in &words {
        if let Ok(key) = JobKey::new(word) {
            assert!(key.as_str() == word, "{word:?} became {key}");
            is_no_path(key.as_str());
            let _ = key.number_of(26);
        }
        if let Ok(name) = AttachmentName::new(word) {
            is_no_path(name.as_str());
        }
        let wanted = Wanted::read(word);
        assert!(
            Wanted::read(&wanted.text()) == wanted,
            "{word:?} is another job"
        );
        let _ = Mark::read(word);
        let _ = code::read(word);
    }
    let _ = code::read(&text);
}

fn is_no_path(name: &str) {
    let signs = ['/', '\\', '\0', '\n', '\r'];
    assert!(
        !name.contains(signs) && !name.starts_with('.'),
        "{name:?} is a name"
    );
}

/// Whatever the bytes: what was known of a shelf, or nothing; what is kept again is read again.
pub(super) fn cache(bytes: &[u8]) {
    let Some(mut known) = Follower::from_cache(bytes) else {
        return;
    };
    let again = Follower::from_cache(&known.to_cache());
    assert!(again.is_some(), "what was written is not read");
}

thread_local! {
    static FOLDER: OnceCell<Option<(TempDir, Office)>> = const { OnceCell::new() };
}

/// Whatever stands in a draft that was left behind: a job that can be saved, or it is told as damaged.
pub(super) fn draft(bytes: &[u8]) {
    FOLDER.with(|kept| {
        let Some((folder, office)) = kept.get_or_init(place) else {
            panic!("no folder for drafts");
        };
        let path = folder.path().join("one.draft");
        let written = std::fs::write(&path, bytes);
        assert!(written.is_ok(), "{written:?}");
        let (left, damaged) = left_behind(folder.path(), office);
        assert!(
            left.len() + damaged.len() <= 1,
            "more drafts than there are"
        );
        for draft in left {
            comes_back(&draft.job);
        }
    });
}

fn place() -> Option<(TempDir, Office)> {
    let shelf = Arc::new(Memory::marked(Mark::of([1; 16])));
    let shop = Arc::new(Shop::embedded().ok()?.clone());
    let office = Office::new(shelf, None, Arc::new(RealDisk::default()), shop);
    Some((tempfile::tempdir().ok()?, office))
}
