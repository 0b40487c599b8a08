//! A shop's file that can't be read, or is gone: what is told, and what takes its place.

#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

use std::fs;
use std::path::Path;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::Unit;
use quillbore_job::life::Blocker;
use quillbore_job::shop::StandsIn;
use quillbore_job::shop::sheet::{ShopEdit, ShopLine, ShopSheet, apply_shop};
use quillbore_job::shop_history::{Changing, ShopHistory};
use quillbore_office::disk::{Disk, RealDisk};
use quillbore_office::office::shop::SheetStands;
use quillbore_office::office::shop_lost::InPlaceOfLost;
use quillbore_office::shelf::Folder;
use quillbore_office::start::{Begins, open};
use quillbore_office::{Office, files};

fn disk() -> Arc<dyn Disk> {
    Arc::new(RealDisk::default())
}

/// A window on the shelf in a folder, as it is opened.
fn window(root: &Path) -> Office {
    let disk = disk();
    let (shelf, _) = open(&disk, root, None, Begins::Empty).expect("a shelf");
    let shop = files::shop_in_window(disk.as_ref(), None, shelf.as_ref()).expect("a shop");
    Office::over(shelf, disk, Arc::new(shop))
}

fn named(name: &str, base: &ShopSheet) -> ShopSheet {
    let edit = ShopEdit::SetLine {
        line: ShopLine::Name,
        text: name.to_owned(),
        unit: Unit::Mm,
    };
    apply_shop(base, &edit).expect("an edit")
}

/// A shelf whose shop was saved twice.
fn saved_twice(root: &Path) {
    let office = window(root);
    let first = named("Heron Bore", &ShopSheet::default());
    let saved = office.save_shop(&SheetStands::default(), &first);
    let stands = saved.expect("saved").stands;
    let second = named("Heron Fine Bore", &first);
    office.save_shop(&stands, &second).expect("saved");
}

fn of_command(root: &Path) -> String {
    let shelf = Folder::new(disk(), root, None);
    let shop = files::shop(disk().as_ref(), None, Some(&shelf));
    shop.expect_err("refused").to_string()
}

fn is_lost(office: &Office) -> bool {
    office.shop().stands_in() == [StandsIn::File]
}

#[test]
fn a_file_that_cant_be_read_opens_on_samples_and_the_version_before_is_taken() {
    let samples = ["(format: 3 lines: {}", "shop", ""];
    for text in samples {
        let folder = tempfile::tempdir().expect("a folder");
        let root = folder.path().join("shelf");
        saved_twice(&root);
        fs::write(root.join("shop.ron"), text).expect("damaged");
        let told = of_command(&root);
        assert!(told.contains("shop.files/previous.ron"), "{told}");
        let office = window(&root);
        assert!(is_lost(&office));
        let told = office.look_at_shop().expect_err("unread").to_string();
        assert!(told.contains("F7") && told.contains("shop.ron"), "{told}");
        let stands = office.replace_lost_shop(InPlaceOfLost::TheVersionBefore);
        assert!(stands.expect("taken").version.is_some());
        assert_eq!(
            (office.shop().name.as_str(), is_lost(&office)),
            ("Heron Bore", false)
        );
        let kept = fs::read_dir(&root).expect("a folder").flatten();
        let mut kept = kept.filter(|one| {
            one.file_name()
                .to_string_lossy()
                .starts_with("shop-unread-")
        });
        let kept = kept.next().expect("kept beside");
        assert_eq!(fs::read_to_string(kept.path()).expect("read"), text);
    }
}

#[test]
fn a_file_of_a_newer_version_is_never_replaced() {
    let folder = tempfile::tempdir().expect("a folder");
    let root = folder.path().join("shelf");
    saved_twice(&root);
    fs::write(root.join("shop.ron"), "(format: 99)").expect("newer");
    let told = of_command(&root);
    assert!(!told.contains("previous.ron"), "{told}");
    let office = window(&root);
    assert!(is_lost(&office));
    assert!(!office.has_lost_shop());
    for by in [InPlaceOfLost::TheVersionBefore, InPlaceOfLost::Nothing] {
        assert!(office.replace_lost_shop(by).is_err());
    }
    let stored = fs::read_to_string(root.join("shop.ron")).expect("there");
    assert_eq!(stored, "(format: 99)");
}

#[test]
fn a_file_that_is_gone_is_told_and_not_written_over() {
    for (by, name) in [
        (InPlaceOfLost::TheVersionBefore, Some("Heron Bore")),
        (InPlaceOfLost::Nothing, None),
    ] {
        let folder = tempfile::tempdir().expect("a folder");
        let root = folder.path().join("shelf");
        saved_twice(&root);
        fs::remove_file(root.join("shop.ron")).expect("deleted");
        let told = of_command(&root);
        assert!(told.contains("was here and is gone"), "{told}");
        let office = window(&root);
        assert!(is_lost(&office));
        assert!(office.look_at_shop().is_err() && !root.join("shop.ron").exists());
        office.replace_lost_shop(by).expect("replaced");
        assert!(!is_lost(&office));
        if let Some(name) = name {
            assert_eq!(office.shop().name, name);
        }
        assert!(office.look_at_shop().is_ok());
    }
}

/// An older file in place of the shop's is one that somebody put there: what it lacks is told.
#[test]
fn a_file_that_is_older_than_the_version_before_says_what_it_lacks() {
    let folder = tempfile::tempdir().expect("a folder");
    let root = folder.path().join("shelf");
    let office = window(&root);
    let path = root.join("shop.ron");
    let mut stands = SheetStands::default();
    let mut history = ShopHistory::new(ShopSheet::default());
    let mut files = Vec::new();
    for name in ["Heron", "Heron Bore", "Heron Fine Bore"] {
        let edit = ShopEdit::SetLine {
            line: ShopLine::Name,
            text: name.to_owned(),
            unit: Unit::Mm,
        };
        let day = NaiveDate::from_ymd_opt(2026, 11, 28).expect("a day");
        let who = Changing { day, by: "desk 2" };
        history.do_edit(&edit, who).expect("done");
        let saved = office.save_shop(&stands, history.now()).expect("saved");
        stands = saved.stands;
        assert_eq!(office.lacks(&stands), None);
        files.push(fs::read(&path).expect("the file"));
    }
    fs::write(&path, &files[0]).expect("put back");
    let older = office.look_at_shop().expect("a sheet");
    let lacks = office.lacks(&older).expect("a change");
    assert!(lacks.what.contains("Heron Bore"), "{lacks:?}");
    assert_eq!(lacks.by, "desk 2");
    // The version before, put back by hand, has all that it has.
    fs::write(&path, &files[1]).expect("put back");
    let before = office.look_at_shop().expect("a sheet");
    assert_eq!(office.lacks(&before), None);
}

#[test]
fn a_shelf_that_never_had_a_shop_is_none_that_is_lost() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = window(&folder.path().join("shelf"));
    assert!(!is_lost(&office));
    assert!(office.look_at_shop().expect("nothing").version.is_none());
    let refused = office.replace_lost_shop(InPlaceOfLost::TheVersionBefore);
    assert!(refused.is_err());
}

#[test]
fn no_paper_leaves_while_the_shop_is_lost() {
    use quillbore_job::results::results_now;
    use quillbore_job::{Paper, life};
    let folder = tempfile::tempdir().expect("a folder");
    let root = folder.path().join("shelf");
    saved_twice(&root);
    fs::write(root.join("shop.ron"), "(format: 99)").expect("damaged");
    let office = window(&root);
    let job = include_bytes!("../../../demo-jobs/26-0102.ron");
    let job = quillbore_job::file::read_job(job).expect("a job");
    let found = results_now(&job, &office.shop()).found();
    for paper in [Paper::Quotation, Paper::Traveler, Paper::Label] {
        let blockers = life::blockers(paper, &job, &found, None);
        assert!(blockers.contains(&Blocker::StandsIn(StandsIn::File)));
    }
}

/// A job that was put in place of the shop's file is told as one, in the window and by commands, and makes room
/// for the shop as any file does that is no shop's.
#[test]
fn a_job_in_place_of_the_shops_file_is_told_as_a_job() {
    let job = include_str!("../../../demo-jobs/26-0102.ron");
    let is_told = |told: &str| {
        assert!(told.contains("is a job, and no data of a shop"), "{told}");
        assert!(!told.contains("newer"), "{told}");
    };
    let folder = tempfile::tempdir().expect("a folder");
    let root = folder.path().join("shelf");
    saved_twice(&root);
    fs::write(root.join("shop.ron"), job).expect("put there");
    is_told(&of_command(&root));
    let office = window(&root);
    assert!(is_lost(&office));
    assert!(office.has_lost_shop());
    let told = office.look_at_shop().expect_err("no shop").to_string();
    is_told(&told);
    assert!(told.contains("F7"), "{told}");
    let stands = office.replace_lost_shop(InPlaceOfLost::TheVersionBefore);
    assert!(stands.expect("taken").version.is_some());
    assert_eq!(office.shop().name, "Heron Bore");
    // The job stays beside it.
    let kept = fs::read_dir(&root).expect("a folder").flatten();
    let mut kept = kept.filter_map(|one| fs::read_to_string(one.path()).ok());
    assert!(kept.any(|text| text == job));

    // Where the shelf never had a shop there is no version before.
    let root = folder.path().join("other");
    drop(window(&root));
    fs::write(root.join("shop.ron"), job).expect("put there");
    let told = of_command(&root);
    is_told(&told);
    assert!(told.contains("shop's own file"), "{told}");
}

#[test]
fn a_job_is_no_shop_and_a_shop_no_job() {
    let folder = tempfile::tempdir().expect("a folder");
    let root = folder.path().join("shelf");
    saved_twice(&root);
    let job = root.join("26-0102.ron");
    fs::write(&job, include_str!("../../../demo-jobs/26-0102.ron")).expect("written");
    let told = files::shop(disk().as_ref(), Some(&job), None);
    let told = told.expect_err("refused").to_string();
    assert!(told.contains("is a job, and no data of a shop"), "{told}");
    fs::copy(root.join("shop.ron"), &job).expect("copied");
    let office = window(&root);
    let wanted = quillbore_office::office::Wanted::Path(job);
    let told = office.open(&wanted, "desk", &[]).expect_err("refused");
    assert!(told.to_string().contains("data of a shop"), "{told}");
    assert!(office.shelf.mark().expect("a shelf").is_some());
}
