//! Rights: on a shared shelf the others can save over what one user made, whatever that user's usual
//! rights are; elsewhere nobody else can.

use std::fs::{self, Permissions};
use std::os::unix::fs::{MetadataExt as _, PermissionsExt as _};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::Arc;

use quillbore_office::disk::RealDisk;
use quillbore_office::shelf::{Commit, CommitError, Folder, Held, Loose, Shelf, ShelfError, Step};

use super::place::{Place, snapshot};
use crate::common::forms::{beside, content, job, key, mark, put, start, write};

const SHELF: &str = "QUILLBORE_TEST_SHELF";

fn mode(path: &Path) -> u32 {
    fs::symlink_metadata(path).expect("it is there").mode() & 0o7777
}

fn set_mode(path: &Path, mode: u32) {
    fs::set_permissions(path, Permissions::from_mode(mode)).expect("rights");
}

/// All that a desk makes on a shelf.
fn work(root: &Path) {
    let desk: Arc<dyn Shelf> = Arc::new(Folder::new(Arc::new(RealDisk::default()), root, None));
    desk.adopt(&mark(1)).expect("a mark");
    let doc = job("26-0101");
    let held = desk.hold(&key("26-0101"), "front office");
    assert!(matches!(held, Held::Here(_)), "{held:?}");
    let one = start(&desk, &doc, b"one");
    let commit = Commit {
        attachments: vec![beside(&key("26-0101"), "a.pdf", b"%PDF")],
        documents: vec![write(&doc, b"two", Some(one))],
    };
    desk.commit(&commit).expect("committed");
    // The note stays where the program ends without a word.
    std::mem::forget(held);
}

/// Done by another process: what a user's files may be by default is a process's own.
#[test]
#[ignore = "the other tests start it, on a shelf and with usual rights of their own"]
fn the_work_of_another_process() {
    let root = std::env::var_os(SHELF).expect("a shelf");
    work(Path::new(&root));
}

fn work_with(umask: &str, root: &Path) {
    let work = "shelf_attacks::rights::the_work_of_another_process";
    let status = Command::new("sh")
        .arg("-c")
        .arg(format!("umask {umask}; exec \"$0\" \"$@\""))
        .arg(std::env::current_exe().expect("this test"))
        .args(["--exact", work, "--ignored", "--quiet"])
        .env(SHELF, root)
        .stdout(std::process::Stdio::null())
        .status();
    assert!(status.expect("another process").success());
}

fn made(root: &Path) -> Vec<PathBuf> {
    let paths: Vec<PathBuf> = snapshot(root).into_keys().collect();
    // Mark, job, folder; lock, lock, note, attachment, the version before.
    assert_eq!(paths.len(), 8, "{paths:?}");
    paths
}

#[test]
fn what_is_made_has_the_rights_of_the_shelf() {
    for umask in ["022", "077", "000"] {
        for (folder, file) in [
            (0o2775, 0o664),
            (0o2770, 0o660),
            (0o755, 0o644),
            (0o700, 0o600),
        ] {
            let whole = tempfile::tempdir().expect("a folder");
            let root = whole.path().join("shelf");
            fs::create_dir(&root).expect("the shelf");
            set_mode(&root, folder);
            let group = fs::metadata(&root).expect("the shelf").gid();
            work_with(umask, &root);
            for path in made(&root) {
                let must = if path.is_dir() { folder } else { file };
                assert_eq!(mode(&path), must, "{umask}: {}", path.display());
                assert_eq!(fs::metadata(&path).expect("it is there").gid(), group);
            }
            assert_eq!(mode(&root), folder);
        }
    }
}

/// Where anybody may put files and nobody may replace another's, as in a system's folder for
/// temporary files, nobody else may write into what is made.
#[test]
fn where_nobody_can_replace_anothers_files_what_is_made_is_the_users_own() {
    let whole = tempfile::tempdir().expect("a folder");
    let root = whole.path().join("shelf");
    fs::create_dir(&root).expect("the shelf");
    set_mode(&root, 0o1777);
    work_with("000", &root);
    for path in made(&root) {
        assert_eq!(mode(&path) & 0o077, 0, "{}", path.display());
    }
}

#[test]
fn a_disk_for_one_user_makes_what_that_user_alone_can_read() {
    let whole = tempfile::tempdir().expect("a folder");
    let root = whole.path().join("drafts");
    fs::create_dir(&root).expect("a folder");
    set_mode(&root, 0o2775);
    let path = root.join("26-0101.ron");
    let desk: Arc<dyn Shelf> =
        Arc::new(Loose::new(Arc::new(RealDisk::private()), &path).expect("a job's name"));
    let one = start(&desk, &job("26-0101"), b"one");
    put(&desk, &job("26-0101"), b"two", Some(one)).expect("saved");
    for path in snapshot(&root).into_keys() {
        assert_eq!(mode(&path) & 0o077, 0, "{}", path.display());
    }
}

#[test]
fn a_job_keeps_its_rights_and_one_that_is_read_only_is_not_replaced() {
    let place = Place::new();
    let desk = place.desk();
    let (doc, path) = (job("26-0101"), place.root().join("26-0101.ron"));
    let one = start(&desk, &doc, b"one");
    set_mode(&path, 0o640);
    let two = put(&desk, &doc, b"two", Some(one)).expect("saved");
    assert_eq!(mode(&path), 0o640);
    set_mode(&path, 0o440);
    let refused = put(&desk, &doc, b"three", Some(two));
    let Err(CommitError::Shelf(ShelfError::Step { step, kind, .. })) = refused else {
        panic!("{refused:?}");
    };
    assert_eq!(
        (step, kind),
        (Step::PutInPlace, std::io::ErrorKind::PermissionDenied)
    );
    assert_eq!(content(&desk, &doc), Some(b"two".to_vec()));
    assert_eq!(mode(&path), 0o440);
    let names = fs::read_dir(place.root()).expect("the shelf").count();
    assert_eq!(names, 3, "the mark, the job and its folder");
}
