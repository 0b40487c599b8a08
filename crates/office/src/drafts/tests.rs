//! Drafts are offered once their run has ended, only to their own shelf, and to their user alone.

use std::fs;
use std::path::Path;
use std::sync::Arc;

use quillbore_job::{Job, Shop};

use super::{Keeper, Left, Told};
use crate::disk::{Disk, RealDisk};
use crate::names::JobKey;
use crate::office::Office;
use crate::save::Opened;
use crate::shelf::{Folder, Version};
use crate::start;

fn office(root: &Path) -> Arc<Office> {
    let disk: Arc<dyn Disk> = Arc::new(RealDisk::default());
    let (shelf, _): (Arc<Folder>, _) =
        start::open(&disk, root, None, start::Begins::Empty).expect("a shelf");
    let shop = Shop::embedded().expect("the shop").clone();
    Arc::new(Office::over(shelf, disk, Arc::new(shop)))
}

fn opened(office: &Office) -> Opened {
    Opened {
        shelf: Arc::clone(&office.shelf),
        key: JobKey::new("26-0107").expect("a name"),
        version: Version::of(b"as it was"),
        base: Arc::new(Job::default()),
        mark: office.shelf.mark().expect("a mark"),
    }
}

fn job() -> Arc<Job> {
    Arc::new(Job {
        number: "26-0107".to_owned(),
        ..Job::default()
    })
}

fn look(keeper: &mut Keeper, office: &Arc<Office>) -> (Vec<Left>, usize) {
    keeper.look(Arc::clone(office));
    match keeper.told().pop() {
        Some(Told::LeftBehind(left, damaged)) => (left, damaged.len()),
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_draft_is_offered_only_when_its_run_has_ended() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(&folder.path().join("shelf"));
    let drafts = folder.path().join("deep/drafts");
    let mut first = Keeper::at_once(&drafts, "run-1");
    first.keep(7, 3, &job(), Some(&opened(&office)));
    assert!(!first.wants(7, 3) && first.wants(7, 4));
    let mut second = Keeper::at_once(&drafts, "run-2");
    assert_eq!(look(&mut second, &office), (Vec::new(), 0), "it is held");
    // As if the program had ended in the middle.
    drop(first);
    fs::write(drafts.join("torn.draft"), "{").expect("written");
    let (left, damaged) = look(&mut second, &office);
    assert_eq!((left.len(), damaged), (1, 1));
    assert_eq!(left[0].job, job());
    assert_eq!(left[0].opened.as_ref(), Some(&opened(&office)));
    second.forget(left[0].clone());
    assert_eq!(look(&mut second, &office).0, []);
}

#[test]
fn another_run_never_takes_a_drafts_place() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(&folder.path().join("shelf"));
    let drafts = folder.path().join("drafts");
    for run in ["a1", "b2"] {
        let mut keeper = Keeper::at_once(&drafts, run);
        keeper.keep(1, 1, &job(), None);
    }
    let mut last = Keeper::at_once(&drafts, "c3");
    assert_eq!(look(&mut last, &office).0.len(), 2);
}

#[test]
fn a_draft_of_another_shelf_waits_for_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let (here, there) = (
        office(&folder.path().join("here")),
        office(&folder.path().join("there")),
    );
    let drafts = folder.path().join("drafts");
    let mut keeper = Keeper::at_once(&drafts, "a1");
    keeper.keep(1, 1, &job(), Some(&opened(&there)));
    drop(keeper);
    let mut keeper = Keeper::at_once(&drafts, "b2");
    assert_eq!(look(&mut keeper, &here), (Vec::new(), 0));
    assert_eq!(look(&mut keeper, &there).0.len(), 1);
}

#[test]
fn a_draft_of_a_saved_job_is_gone() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut keeper = Keeper::at_once(folder.path(), "a1");
    keeper.keep(1, 1, &job(), None);
    keeper.drop_draft(1);
    assert_eq!(fs::read_dir(folder.path()).expect("the folder").count(), 0);
    keeper.keep(1, 2, &job(), None);
    assert!(folder.path().join("a1-1.draft").is_file());
    keeper.drop_all();
    assert_eq!(fs::read_dir(folder.path()).expect("the folder").count(), 0);
}

#[cfg(unix)]
#[test]
fn a_draft_is_readable_by_its_user_alone() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().expect("a folder");
    let drafts = folder.path().join("drafts");
    fs::create_dir(&drafts).expect("a folder");
    fs::set_permissions(&drafts, fs::Permissions::from_mode(0o777)).expect("rights");
    let mut keeper = Keeper::at_once(&drafts, "a1");
    keeper.keep(1, 1, &job(), None);
    let mode = |path: &Path| fs::metadata(path).expect("there").permissions().mode() & 0o777;
    assert_eq!(mode(&drafts), 0o700);
    for name in ["a1-1.draft", "a1-1.lock"] {
        assert_eq!(mode(&drafts.join(name)), 0o600, "{name}");
    }
}

#[test]
fn what_was_asked_last_is_done_before_the_keeper_is_gone() {
    let folder = tempfile::tempdir().expect("a folder");
    for run in 0..20 {
        let mut keeper = Keeper::on_thread(folder.path(), &format!("r{run}"), || {});
        for state in 0..10 {
            keeper.keep(1, state, &job(), None);
        }
        keeper.drop_all();
        drop(keeper);
        assert_eq!(fs::read_dir(folder.path()).expect("the folder").count(), 0);
    }
}
