//! Saving on a disk that fails or writes short at every step in turn.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

use quillbore_job::file::{Disk, Hash, SaveError, hash, previous_path, read_job, save, write_job};
use quillbore_job::{Edit, Field, Job, Unit, apply};

/// Files in memory; step number `fails_at` fails, a write after `short` bytes.
#[derive(Default)]
struct Faulty {
    files: RefCell<BTreeMap<PathBuf, Vec<u8>>>,
    steps: Cell<usize>,
    fails_at: Option<usize>,
    short: usize,
    kind: Option<ErrorKind>,
}

impl Faulty {
    fn with(path: &Path, job: &Job) -> Self {
        let disk = Self::default();
        disk.files
            .borrow_mut()
            .insert(path.to_owned(), write_job(job).into_bytes());
        disk
    }

    fn step(&self) -> io::Result<()> {
        let now = self.steps.get();
        self.steps.set(now + 1);
        if self.fails_at == Some(now) {
            return Err(self.kind.unwrap_or(ErrorKind::StorageFull).into());
        }
        Ok(())
    }
}

impl Disk for Faulty {
    fn read(&self, path: &Path) -> io::Result<Vec<u8>> {
        self.step()?;
        self.files
            .borrow()
            .get(path)
            .cloned()
            .ok_or_else(|| ErrorKind::NotFound.into())
    }

    fn make_folder(&self, _: &Path) -> io::Result<()> {
        self.step()
    }

    fn write_new(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        if self.files.borrow().contains_key(path) {
            return Err(ErrorKind::AlreadyExists.into());
        }
        let fate = self.step();
        let written = if fate.is_err() {
            &bytes[..self.short.min(bytes.len())]
        } else {
            bytes
        };
        self.files
            .borrow_mut()
            .insert(path.to_owned(), written.to_vec());
        fate
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.step()?;
        let mut files = self.files.borrow_mut();
        let bytes = files.remove(from).ok_or(ErrorKind::NotFound)?;
        files.insert(to.to_owned(), bytes);
        Ok(())
    }

    fn name_new(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.step()?;
        let mut files = self.files.borrow_mut();
        if files.contains_key(to) {
            return Err(ErrorKind::AlreadyExists.into());
        }
        let bytes = files.get(from).cloned().ok_or(ErrorKind::NotFound)?;
        files.insert(to.to_owned(), bytes);
        Ok(())
    }

    fn sync_folder(&self, _: &Path) -> io::Result<()> {
        self.step()
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        self.step()?;
        self.files
            .borrow_mut()
            .remove(path)
            .map(|_| ())
            .ok_or_else(|| ErrorKind::NotFound.into())
    }
}

fn job(customer: &str) -> Job {
    let edit = Edit::SetField {
        field: Field::Customer,
        text: customer.to_owned(),
        unit: Unit::Mm,
    };
    apply(&Job::default(), &edit).expect("an edit").0
}

fn content(disk: &Faulty, path: &Path) -> Option<Job> {
    disk.files
        .borrow()
        .get(path)
        .map(|bytes| read_job(bytes).expect("a job that opens"))
}

fn opened(job: &Job) -> Hash {
    hash(write_job(job).as_bytes())
}

#[test]
fn a_save_over_an_old_version_leaves_old_or_new_whatever_step_fails() {
    let path = Path::new("shelf/26-0001.ron");
    let (old, new) = (job("old"), job("new and longer"));
    let mut failed = 0;
    for fails_at in 0..20 {
        for short in [0, 1, 40, usize::MAX] {
            for kind in [
                ErrorKind::StorageFull,
                ErrorKind::PermissionDenied,
                ErrorKind::Interrupted,
            ] {
                let mut disk = Faulty::with(path, &old);
                (disk.fails_at, disk.short, disk.kind) = (Some(fails_at), short, Some(kind));
                let saved = save(&disk, path, &new, Some(opened(&old)));
                let found = content(&disk, path).expect("a file stands there");
                assert!(found == old || found == new, "step {fails_at}");
                if saved.is_ok() {
                    assert_eq!(found, new);
                } else {
                    failed += 1;
                }
                if let Some(previous) = content(&disk, &previous_path(path)) {
                    assert_eq!(previous, old);
                }
            }
        }
    }
    // Read, folder, write, rename, sync, write, rename, sync: eight steps, twelve ways each.
    assert_eq!(failed, 8 * 12);
}

#[test]
fn a_first_save_leaves_nothing_or_the_whole_whatever_step_fails() {
    let path = Path::new("shelf/26-0001.ron");
    let new = job("new");
    for fails_at in 0..10 {
        for short in [0, 1, 40] {
            let disk = Faulty {
                fails_at: Some(fails_at),
                short,
                ..Faulty::default()
            };
            let saved = save(&disk, path, &new, None);
            match content(&disk, path) {
                Some(found) => assert_eq!(found, new, "step {fails_at}"),
                None => assert!(saved.is_err(), "step {fails_at}"),
            }
        }
    }
}

#[test]
fn a_file_that_is_not_the_one_that_was_opened_is_never_overwritten() {
    let path = Path::new("shelf/26-0001.ron");
    let (old, theirs, ours) = (job("old"), job("theirs"), job("ours"));
    let disk = Faulty::with(path, &theirs);
    let saved = save(&disk, path, &ours, Some(opened(&old)));
    assert!(matches!(saved, Err(SaveError::Changed)), "{saved:?}");
    let saved = save(&disk, path, &ours, None);
    assert!(matches!(saved, Err(SaveError::Taken)), "{saved:?}");
    assert_eq!(content(&disk, path), Some(theirs));
    let gone = save(&Faulty::default(), path, &ours, Some(opened(&old)));
    assert!(matches!(gone, Err(SaveError::Gone)), "{gone:?}");
}

#[test]
fn the_version_before_the_last_save_is_kept() {
    let path = Path::new("shelf/26-0001.ron");
    let (first, second, third) = (job("1"), job("2"), job("3"));
    let disk = Faulty::default();
    let one = save(&disk, path, &first, None).expect("saved");
    let two = save(&disk, path, &second, Some(one)).expect("saved");
    assert_eq!(content(&disk, &previous_path(path)), Some(first));
    let three = save(&disk, path, &third, Some(two)).expect("saved");
    assert_eq!(content(&disk, &previous_path(path)), Some(second.clone()));
    // Saving the same again changes nothing, the previous version neither.
    save(&disk, path, &third, Some(three)).expect("saved");
    assert_eq!(content(&disk, &previous_path(path)), Some(second));
    assert_eq!(disk.files.borrow().len(), 2, "no half-written file is left");
}

#[test]
fn the_real_disk_does_the_same() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("26-0001.ron");
    let disk = quillbore_job::file::RealDisk;
    let one = save(&disk, &path, &job("1"), None).expect("saved");
    assert!(matches!(
        save(&disk, &path, &job("2"), None),
        Err(SaveError::Taken)
    ));
    save(&disk, &path, &job("2"), Some(one)).expect("saved");
    assert!(matches!(
        save(&disk, &path, &job("3"), Some(one)),
        Err(SaveError::Changed)
    ));
    let found = read_job(&std::fs::read(&path).expect("the file")).expect("a job");
    let previous =
        read_job(&std::fs::read(previous_path(&path)).expect("the file")).expect("a job");
    assert_eq!((found, previous), (job("2"), job("1")));
}
