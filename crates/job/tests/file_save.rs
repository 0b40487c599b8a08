//! Saving on a disk that fails or writes short at every step in turn.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use quillbore_calc::input::Place;
use quillbore_job::file::{
    Disk, Hash, SaveError, SaveStep, hash, previous_path, read_job, save, write_job,
};
use quillbore_job::{Edit, Field, Job, Row, Unit, apply};

/// What goes wrong on a disk.
#[derive(Clone, Copy)]
enum Fault {
    /// One step fails; a write after so many bytes.
    Once { short: usize, kind: ErrorKind },
    /// From that step on nothing works any more: the power is gone, after so many bytes.
    Dead { short: usize },
}

/// Files in memory, on a disk that goes wrong at one step.
#[derive(Default)]
struct Faulty {
    files: RefCell<BTreeMap<PathBuf, Vec<u8>>>,
    steps: Cell<usize>,
    fault: Option<(usize, Fault)>,
    /// As a memory stick: files have one name only.
    one_name: bool,
}

impl Faulty {
    fn with(path: &Path, job: &Job) -> Self {
        let disk = Self::default();
        disk.files
            .borrow_mut()
            .insert(path.to_owned(), write_job(job).into_bytes());
        disk
    }

    /// Counts a step; where it fails, says how many bytes of it were done, if it began at all.
    fn step(&self) -> Result<(), (Option<usize>, io::Error)> {
        let now = self.steps.get();
        self.steps.set(now + 1);
        match self.fault {
            Some((at, Fault::Once { short, kind })) if at == now => Err((Some(short), kind.into())),
            Some((at, Fault::Dead { short })) if at <= now => {
                Err(((at == now).then_some(short), ErrorKind::Other.into()))
            }
            _ => Ok(()),
        }
    }

    fn whole_step(&self) -> io::Result<()> {
        self.step().map_err(|(_, error)| error)
    }

    /// Files that a save left beside the job.
    fn left_behind(&self) -> usize {
        let is_new = |path: &&PathBuf| path.extension().is_some_and(|end| end == "new");
        self.files.borrow().keys().filter(is_new).count()
    }
}

impl Disk for Faulty {
    fn read(&self, path: &Path) -> io::Result<Vec<u8>> {
        self.whole_step()?;
        let files = self.files.borrow();
        files
            .get(path)
            .cloned()
            .ok_or_else(|| ErrorKind::NotFound.into())
    }

    fn make_folder(&self, _: &Path) -> io::Result<()> {
        self.whole_step()
    }

    fn write_new(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        if self.files.borrow().contains_key(path) {
            return Err(ErrorKind::AlreadyExists.into());
        }
        let (done, result) = match self.step() {
            Ok(()) => (bytes.len(), Ok(())),
            Err((Some(short), error)) => (short.min(bytes.len()), Err(error)),
            Err((None, error)) => return Err(error),
        };
        let written = bytes[..done].to_vec();
        self.files.borrow_mut().insert(path.to_owned(), written);
        result
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.whole_step()?;
        let mut files = self.files.borrow_mut();
        let bytes = files.remove(from).ok_or(ErrorKind::NotFound)?;
        files.insert(to.to_owned(), bytes);
        Ok(())
    }

    fn name_new(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.whole_step()?;
        let mut files = self.files.borrow_mut();
        if files.contains_key(to) {
            return Err(ErrorKind::AlreadyExists.into());
        }
        if self.one_name {
            return Err(ErrorKind::PermissionDenied.into());
        }
        let bytes = files.get(from).cloned().ok_or(ErrorKind::NotFound)?;
        files.insert(to.to_owned(), bytes);
        Ok(())
    }

    fn sync_folder(&self, _: &Path) -> io::Result<()> {
        self.whole_step()
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        self.whole_step()?;
        let gone = self.files.borrow_mut().remove(path);
        gone.map(|_| ()).ok_or_else(|| ErrorKind::NotFound.into())
    }

    fn hold(&self, _: &Path) -> io::Result<Box<dyn Send>> {
        self.whole_step()?;
        Ok(Box::new(()))
    }
}

/// Every way in which a step can go wrong.
fn faults() -> Vec<Fault> {
    let shorts = [0, 1, 40, usize::MAX];
    let kinds = [
        ErrorKind::StorageFull,
        ErrorKind::PermissionDenied,
        ErrorKind::Interrupted,
        ErrorKind::WriteZero,
        ErrorKind::NotFound,
    ];
    let once = shorts
        .iter()
        .flat_map(|&short| kinds.map(|kind| Fault::Once { short, kind }));
    let dead = shorts.iter().map(|&short| Fault::Dead { short });
    once.chain(dead).collect()
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
    let well = Faulty::with(path, &old);
    save(&well, path, &new, Some(opened(&old))).expect("saved");
    let steps = well.steps.get();
    // Read; folder, lock; read; folder, write, rename, sync for the version before; write, rename, sync.
    assert_eq!(steps, 11);
    for at in 0..steps {
        for fault in faults() {
            let mut disk = Faulty::with(path, &old);
            disk.fault = Some((at, fault));
            let saved = save(&disk, path, &new, Some(opened(&old)));
            disk.fault = None;
            let found = content(&disk, path).expect("a file stands there");
            match saved {
                // At the last step alone the new content has its name already.
                Err(SaveError::NotSettled { hash, .. }) => {
                    assert_eq!((at, &found, hash), (10, &new, opened(&new)));
                }
                // The file seems to be gone: nothing was touched.
                Err(SaveError::Gone) => {
                    assert!(matches!(at, 0 | 3) && found == old, "step {at}");
                }
                Err(SaveError::Step { .. }) => assert_eq!(found, old, "step {at}"),
                other => panic!("step {at}: {other:?}"),
            }
            if let Some(previous) = content(&disk, &previous_path(path)) {
                assert_eq!(previous, old);
            }
            if matches!(fault, Fault::Once { .. }) {
                assert_eq!(disk.left_behind(), 0, "step {at}");
            }
            // Once the disk is well again the same save goes through, past what was left behind.
            let again = save(&disk, path, &new, Some(opened(&old))).expect("saved");
            assert_eq!(content(&disk, path), Some(new.clone()));
            assert_eq!(again, opened(&new));
        }
    }
}

#[test]
fn a_first_save_leaves_nothing_or_the_whole_whatever_step_fails() {
    let path = Path::new("shelf/26-0001.ron");
    let new = job("new");
    // Read, write, second name, remove, sync; on a memory stick: read, write, no second name, an
    // empty file, rename, sync.
    for (one_name, steps) in [(false, 5), (true, 6)] {
        let well = Faulty {
            one_name,
            ..Faulty::default()
        };
        save(&well, path, &new, None).expect("saved");
        assert_eq!((well.steps.get(), well.left_behind()), (steps, 0));
        for at in 0..steps {
            for fault in faults() {
                let disk = Faulty {
                    fault: Some((at, fault)),
                    one_name,
                    ..Faulty::default()
                };
                let saved = save(&disk, path, &new, None);
                let files = disk.files.borrow();
                match files.get(path) {
                    // The name was taken, and then the power went.
                    Some(empty) if empty.is_empty() => {
                        assert!(one_name && at >= 3 && matches!(fault, Fault::Dead { .. }));
                        assert!(saved.is_err());
                    }
                    Some(found) => {
                        assert_eq!(read_job(found), Ok(new.clone()), "step {at}");
                        let settled = matches!(saved, Ok(_) | Err(SaveError::NotSettled { .. }));
                        assert!(settled, "step {at}: {saved:?}");
                    }
                    None => assert!(matches!(saved, Err(SaveError::Step { .. })), "step {at}"),
                }
            }
        }
    }
}

#[test]
fn a_job_that_would_not_open_again_is_not_written() {
    let path = Path::new("shelf/26-0001.ron");
    let old = job("old");
    let place = |part: f64| Place {
        number: 1,
        point_mm: [part, 0.0, 0.0],
        axis: [0.0, 0.0, -1.0],
    };
    let placed = |places: Vec<Place>| Job {
        rows: vec![Arc::new(Row {
            places: Arc::new(places),
            ..Row::default()
        })],
        next_row: 1,
        ..old.clone()
    };
    let rows = [
        ("no finite point", placed(vec![place(f64::NAN)])),
        ("a number twice", placed(vec![place(1.0), place(2.0)])),
        (
            "an identity to come",
            Job {
                next_row: 0,
                ..placed(vec![])
            },
        ),
    ];
    for (what, bad) in rows {
        let disk = Faulty::with(path, &old);
        let saved = save(&disk, path, &bad, Some(opened(&old)));
        assert!(
            matches!(saved, Err(SaveError::WouldNotOpen { .. })),
            "{what}"
        );
        assert_eq!(disk.steps.get(), 0, "{what}: nothing was touched");
    }
    let disk = Faulty::with(path, &old);
    save(&disk, path, &placed(vec![place(1.0)]), Some(opened(&old))).expect("saved");
}

#[test]
fn a_save_whose_confirmation_got_lost_can_be_done_again() {
    let path = Path::new("shelf/26-0001.ron");
    let (old, new) = (job("old"), job("new"));
    let disk = Faulty::with(path, &new);
    let saved = save(&disk, path, &new, Some(opened(&old))).expect("it is there already");
    assert_eq!((saved, disk.steps.get()), (opened(&new), 4));
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
fn each_refusal_is_one_sentence_with_a_hint() {
    let failed = || io::Error::from(ErrorKind::StorageFull);
    let hash = opened(&job("new"));
    let errors = [
        SaveError::WouldNotOpen { source: None },
        SaveError::Taken,
        SaveError::Changed,
        SaveError::Gone,
        SaveError::NotSettled {
            hash,
            error: failed(),
        },
    ];
    let steps = [
        SaveStep::ReadOld,
        SaveStep::MakeFolder,
        SaveStep::KeepPrevious,
        SaveStep::WriteNew,
        SaveStep::PutInPlace,
    ];
    let error = |step| SaveError::Step {
        step,
        error: failed(),
    };
    for error in errors.into_iter().chain(steps.map(error)) {
        let sentence = error.to_string();
        assert!(
            sentence.len() > 20 && !sentence.ends_with('.'),
            "{sentence}"
        );
        assert!(error.hint().ends_with('.'), "{}", error.hint());
    }
    // Whoever is refused is told that a copy can be made.
    assert!(SaveError::Changed.hint().contains("copy"));
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

#[cfg(unix)]
#[test]
fn the_real_disk_keeps_rights_and_refuses_a_read_only_file() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("26-0001.ron");
    let disk = quillbore_job::file::RealDisk;
    let rights = |mode| {
        let rights = std::fs::Permissions::from_mode(mode);
        std::fs::set_permissions(&path, rights).expect("rights");
    };
    let one = save(&disk, &path, &job("1"), None).expect("saved");
    rights(0o660);
    let two = save(&disk, &path, &job("2"), Some(one)).expect("saved");
    let mode = std::fs::metadata(&path)
        .expect("the file")
        .permissions()
        .mode();
    assert_eq!(mode & 0o777, 0o660, "others can still save over it");
    rights(0o440);
    let refused = save(&disk, &path, &job("3"), Some(two));
    assert!(
        matches!(
            refused,
            Err(SaveError::Step {
                step: SaveStep::PutInPlace,
                ..
            })
        ),
        "{refused:?}"
    );
    let found = read_job(&std::fs::read(&path).expect("the file"));
    assert_eq!(found, Ok(job("2")));
    let names = std::fs::read_dir(folder.path())
        .expect("the folder")
        .count();
    assert_eq!(names, 2, "the job and its folder");
}
