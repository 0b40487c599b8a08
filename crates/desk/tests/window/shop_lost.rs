//! The shop's file damaged or deleted: the window opens, says so, issues nothing, and takes the version
//! before at a word.

use std::fs;
use std::path::Path;
use std::sync::Arc;

use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use quillbore_job::Unit;
use quillbore_job::shop::sheet::{ShopEdit, ShopLine, apply_shop};
use quillbore_office::disk::{Disk, RealDisk};
use quillbore_office::shelf::Folder;
use quillbore_office::start::Standing;
use quillbore_office::{Office, files};

use crate::hands::{Window, desk_of, office, type_on, window_with};

/// An office that begins as the window does.
fn begun(root: &Path) -> Arc<Office> {
    let disk: Arc<dyn Disk> = Arc::new(RealDisk::default());
    let folder = Arc::new(Folder::new(Arc::clone(&disk), root, None));
    let shop = files::shop_in_window(disk.as_ref(), None, folder.as_ref()).expect("a shop");
    Arc::new(Office::over(folder, disk, Arc::new(shop)))
}

fn named_twice(root: &Path) {
    let office = office(root);
    for name in ["Heron Bore", "Heron Fine Bore"] {
        let base = office.look_at_shop().expect("the sheet");
        let edit = ShopEdit::SetLine {
            line: ShopLine::Name,
            text: name.to_owned(),
            unit: Unit::Mm,
        };
        let sheet = apply_shop(&base.sheet, &edit).expect("an edit");
        office.save_shop(&base, &sheet).expect("it is saved");
    }
}

fn window(root: &Path) -> Harness<'static, Window> {
    let office = begun(root);
    window_with(desk_of(&office), office, Standing::Ready)
}

fn name(harness: &Harness<'_, Window>) -> String {
    harness.state().app().desk().shop.name.clone()
}

#[test]
fn a_damaged_file_is_told_and_the_version_before_is_taken_at_a_word() {
    let folder = tempfile::tempdir().expect("a folder");
    named_twice(folder.path());
    fs::write(folder.path().join("shop.ron"), "(format: 3, lines").expect("damaged");
    let mut harness = window(folder.path());
    harness.key_press(Key::F7);
    harness.run();
    harness.get_by_label_contains("take the version before it");
    type_on(&mut harness, "name", "Sandpiper");
    let stored = fs::read_to_string(folder.path().join("shop.ron")).expect("there");
    assert_eq!(stored, "(format: 3, lines", "nothing is written over it");
    harness.get_by_label("take the version before").click();
    harness.run();
    assert_eq!(name(&harness), "Heron Bore");
    assert!(harness.query_by_label("take the version before").is_none());
    // What the keyboard comes to is marked: what is typed takes its place.
    type_on(&mut harness, "name", "Heron Bore of Ostwick");
    assert_eq!(name(&harness), "Heron Bore of Ostwick");
}

#[test]
fn a_file_that_goes_while_the_window_is_open_can_be_begun_anew() {
    let folder = tempfile::tempdir().expect("a folder");
    named_twice(folder.path());
    let mut harness = window(folder.path());
    harness.key_press(Key::F7);
    harness.run();
    fs::remove_file(folder.path().join("shop.ron")).expect("deleted");
    harness.run_steps(20);
    harness.get_by_label("take the version before").click();
    harness.run();
    assert_eq!(name(&harness), "Heron Bore");
    fs::remove_file(folder.path().join("shop.ron")).expect("deleted");
    harness.run_steps(20);
    harness.get_by_label("begin anew").click();
    harness.run();
    assert!(folder.path().join("shop.ron").exists());
    let sheet = &harness.state().app().shop.history;
    assert_eq!(sheet.now().line(ShopLine::Name).text(), "");
}
