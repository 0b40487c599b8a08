//! No name leads out of the shelf, whatever text it is made of.

use std::fs;
use std::path::{Component, Path};
use std::sync::Arc;

use proptest::prelude::*;
use quillbore_office::disk::RealDisk;
use quillbore_office::names::{AttachmentName, JobKey};
use quillbore_office::shelf::{Commit, Doc, Folder, Loose, Shelf as _};

use super::place::{Place, snapshot};
use crate::common::forms::{beside, mark, write};

/// Texts that mean something to some system, put together in any way.
fn nasty() -> impl Strategy<Value = String> {
    let pieces = prop::sample::select(vec![
        "..",
        ".",
        "/",
        "\\",
        "~",
        "$HOME",
        "%2e%2e%2f",
        "\0",
        "\n",
        " ",
        "con",
        "COM1",
        "com\u{b9}",
        "CONIN$",
        "nul",
        ".ron",
        ".files",
        "shop",
        "SHOP",
        "previous.ron",
        "saving.lock",
        "-rf",
        "*",
        "26-0101",
        "C:",
        "\u{2024}",
        "\u{ff0f}",
        "\u{2215}",
        "\u{202e}",
        "\u{fffd}",
        "a\u{308}",
        "\u{e4}",
        ":stream",
        "|",
        "\u{7f}",
        "quillbore-shelf",
        ".0.new",
    ]);
    prop::collection::vec(pieces, 0..5).prop_map(|pieces| pieces.concat())
}

fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![nasty(), any::<String>(), "[a-zA-Z0-9 .-]{0,12}"]
}

/// That a path is a folder's own, with one name more.
fn is_in(path: &Path, folder: &Path) {
    assert_eq!(path.parent(), Some(folder));
    assert_eq!(path.components().count(), folder.components().count() + 1);
    assert!(matches!(
        path.components().next_back(),
        Some(Component::Normal(_))
    ));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 20_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_name_is_refused_or_stays_on_the_shelf(text in any_text(), other in any_text()) {
        let root = Path::new("/shelf");
        let folder = Folder::new(Arc::new(RealDisk::default()), root, None);
        let Ok(job) = JobKey::new(&text) else {
            return Ok(());
        };
        prop_assert_eq!(job.as_str(), &text);
        let path = folder.path_of(&job);
        is_in(&path, root);
        let called = path.file_name().and_then(|name| name.to_str());
        prop_assert_eq!(called, Some(&*format!("{text}.ron")));
        prop_assert_ne!(text.to_lowercase(), "shop");
        let Ok(name) = AttachmentName::new(&other) else {
            return Ok(());
        };
        let place = folder.place_of(&job, &name);
        let beside = root.join(format!("{text}.files"));
        is_in(Path::new(&place), &beside);
        prop_assert!(!other.to_lowercase().ends_with(".lock"));
        prop_assert_ne!(other.to_lowercase(), "previous.ron");
    }

    /// A path that somebody types or clicks leads to the file of just that name, or is refused.
    #[test]
    fn a_single_file_is_the_one_that_was_named(text in any_text()) {
        let path = Path::new("/somewhere").join(format!("{text}.ron"));
        let loose = Loose::new(Arc::new(RealDisk::default()), &path);
        if let Ok(loose) = loose {
            let place = loose.place();
            prop_assert_eq!(Path::new(&place), path.as_path());
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// What a name comes to on a real disk: the job's file, the folder beside it, and nothing else.
    #[test]
    fn a_name_that_is_taken_makes_its_own_files_alone(text in any_text(), other in any_text()) {
        let (Ok(job), Ok(name)) = (JobKey::new(&text), AttachmentName::new(&other)) else {
            return Ok(());
        };
        let place = Place::new();
        let outside = place.snapshot();
        let desk = place.desk();
        let doc = Doc::Job(job.clone());
        let commit = Commit {
            attachments: vec![beside(&job, name.as_str(), b"beside it")],
            documents: vec![write(&doc, b"a job", None)],
        };
        desk.commit(&commit).expect("committed");
        let told = desk.changes(&Default::default()).expect("a list");
        prop_assert_eq!(&told.there, &vec![doc]);
        prop_assert_eq!(told.unusable, vec![]);
        prop_assert_eq!(desk.attachments(&job), Ok(vec![name.clone()]));
        let names: Vec<_> = snapshot(&place.root()).into_keys().collect();
        let folder = place.root().join(format!("{text}.files"));
        let mut must = vec![
            place.root().join("quillbore-shelf.txt"),
            place.root().join(format!("{text}.ron")),
            folder.join(name.as_str()),
            folder.join("saving.lock"),
            folder,
        ];
        must.sort();
        prop_assert_eq!(names, must);
        prop_assert_eq!(place.snapshot(), outside);
    }
}

#[test]
fn a_path_whose_name_is_no_text_is_refused() {
    use std::os::unix::ffi::OsStrExt as _;
    let place = Place::new();
    for bytes in [&b"S\xf6hne.ron"[..], b"\xff.ron"] {
        let path = place.root().join(std::ffi::OsStr::from_bytes(bytes));
        fs::write(&path, "a job").expect("a file");
        let loose = Loose::new(Arc::new(RealDisk::default()), &path);
        assert!(loose.is_err(), "{}", path.display());
    }
    assert_eq!(place.desk().mark(), Ok(Some(mark(1))));
}
