//! The shop while the window stands open: what another desk changes counts here within seconds, and
//! nothing that was typed of it is lost.

use std::path::Path;
use std::sync::Arc;

use egui::{Event, Key, ViewportEvent, ViewportId};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use quillbore_desk::view::Waiting;
use quillbore_job::Unit;
use quillbore_job::shop::sheet::{
    ShopColumn as Column, ShopEdit, ShopLine, ShopList as List, ShopRowAt as At, apply_shop,
};
use quillbore_office::Office;
use quillbore_office::start::Standing;

use crate::hands::{Window, desk_of, office, paste, type_on, window_with};

const CHANGED: &str = "Another desk changed the shop";

/// A window with a priced job at a folder.
fn priced(folder: &Path) -> Harness<'static, Window> {
    let office = office(folder);
    let mut harness = window_with(desk_of(&office), office, Standing::Ready);
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    for (label, text) in [
        ("material", "Stainless 316"),
        ("machine", "Wren"),
        ("quantity", "400"),
    ] {
        type_on(&mut harness, label, text);
    }
    harness
}

/// Another desk does an edit of the shop.
fn other_desk_does(office: &Office, edit: &ShopEdit) {
    let base = office.look_at_shop().expect("the sheet");
    let sheet = apply_shop(&base.sheet, edit).expect("an edit");
    office.save_shop(&base, &sheet).expect("it is saved");
}

fn labor(per_hour: &str) -> ShopEdit {
    ShopEdit::SetCells {
        list: List::Rates,
        rows: vec![(
            At::New,
            vec![
                (Column::ValidFrom, "2026-01-01".to_owned()),
                (Column::LaborHour, per_hour.to_owned()),
            ],
        )],
        unit: Unit::Mm,
    }
}

fn line(line: ShopLine, text: &str) -> ShopEdit {
    ShopEdit::SetLine {
        line,
        text: text.to_owned(),
        unit: Unit::Mm,
    }
}

fn each(harness: &Harness<'_, Window>) -> String {
    let figures = &harness.state().app().desk().results().figures;
    let price = figures.price.as_ref().expect("a price");
    price.breaks[0].each.to_string()
}

fn notice(harness: &Harness<'_, Window>) -> String {
    harness.state().app().desk().notice.clone()
}

/// A few seconds at the window, in which nobody does anything.
fn wait(harness: &mut Harness<'_, Window>) {
    // A step is a quarter of a second.
    harness.run_steps(20);
}

#[test]
fn an_open_window_reckons_by_what_another_desk_changed_and_says_so_once() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut ours = priced(folder.path());
    let mut theirs = priced(folder.path());
    wait(&mut ours);
    let (before, said_before) = (each(&ours), notice(&ours));
    assert!(!said_before.contains(CHANGED), "{said_before}");
    theirs.key_press(Key::F7);
    theirs.run();
    let other = office(folder.path());
    other_desk_does(&other, &labor("155"));
    wait(&mut ours);
    wait(&mut theirs);
    assert_ne!(each(&ours), before);
    assert_eq!(each(&ours), each(&theirs));
    assert!(notice(&ours).contains(CHANGED), "{}", notice(&ours));
    // The page that stands open has it, too.
    let rates = |harness: &Harness<'_, Window>| {
        let sheet = Arc::clone(harness.state().app().shop.history.now());
        sheet.own(List::Rates).len()
    };
    assert_eq!((rates(&ours), rates(&theirs)), (1, 1));

    // What moves no figure of the job on top is not told.
    let price = each(&ours);
    type_on(&mut ours, "customer", "Alder");
    let said = notice(&ours);
    assert!(!said.contains(CHANGED), "{said}");
    other_desk_does(&other, &line(ShopLine::Name, "Tallow Street Fine Bores"));
    wait(&mut ours);
    assert_eq!(
        ours.state().app().desk().shop.name,
        "Tallow Street Fine Bores"
    );
    assert_eq!((each(&ours), notice(&ours)), (price, said));
}

#[test]
fn what_is_being_typed_on_the_page_stays_and_both_count() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut ours = priced(folder.path());
    ours.key_press(Key::F7);
    ours.run();
    let name = |harness: &Harness<'_, Window>| {
        let role = egui::accesskit::Role::TextInput;
        harness.get_by_role_and_label(role, "name").focus();
    };
    name(&ours);
    ours.run();
    ours.event(Event::Text("Ours".to_owned()));
    ours.run();
    let before = each(&ours);
    let other = office(folder.path());
    other_desk_does(&other, &labor("155"));
    wait(&mut ours);
    assert_ne!(each(&ours), before, "figures don't wait for the page");
    ours.key_press(Key::Enter);
    ours.run();
    let sheet = Arc::clone(ours.state().app().shop.history.now());
    assert_eq!(sheet.line(ShopLine::Name).text(), "Ours");
    assert_eq!(sheet.own(List::Rates).len(), 1);
    let stored = other.look_at_shop().expect("the sheet").sheet;
    assert_eq!(*stored, *sheet);
    assert!(ours.state().app().shop.clashes.is_empty());
}

#[test]
fn where_both_typed_one_line_it_is_told_until_the_line_says_something_else() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut ours = priced(folder.path());
    ours.key_press(Key::F7);
    ours.run();
    let role = egui::accesskit::Role::TextInput;
    ours.get_by_role_and_label(role, "name").focus();
    ours.run();
    ours.event(Event::Text("Ours".to_owned()));
    ours.run();
    other_desk_does(&office(folder.path()), &line(ShopLine::Name, "Theirs"));
    wait(&mut ours);
    ours.key_press(Key::Enter);
    ours.run();
    let told = |harness: &Harness<'_, Window>| {
        harness
            .query_by_label_contains("another desk typed Theirs")
            .is_some()
    };
    assert!(told(&ours));
    // Another line is no reason to forget it.
    type_on(&mut ours, "telephone", "0555");
    assert!(told(&ours));
    type_on(&mut ours, "name", " and Sons");
    assert!(!told(&ours));
    assert!(ours.state().app().shop.clashes.is_empty());
}

/// Presses the window's own close.
fn close(harness: &mut Harness<'_, Window>) {
    let window = harness.input_mut().viewports.entry(ViewportId::ROOT);
    window.or_default().events.push(ViewportEvent::Close);
    harness.step();
    let window = harness.input_mut().viewports.entry(ViewportId::ROOT);
    window.or_default().events.clear();
    harness.run();
}

#[test]
fn a_change_that_could_not_be_saved_is_asked_about_and_saved_once_the_shelf_is_back() {
    let folder = tempfile::tempdir().expect("a folder");
    let (root, away) = (folder.path().join("shelf"), folder.path().join("away"));
    std::fs::create_dir(&root).expect("a folder");
    let office = office(&root);
    let mut harness = window_with(desk_of(&office), office, Standing::Ready);
    std::fs::rename(&root, &away).expect("moved away");
    harness.key_press(Key::F7);
    harness.run();
    type_on(&mut harness, "name", "Tallow Street Fine Bores");
    let failed = |harness: &Harness<'_, Window>| harness.state().app().shop.failed.clone();
    let said = failed(&harness).expect("it is told");
    assert!(said.starts_with("Not saved: "), "{said}");
    wait(&mut harness);
    assert_eq!(failed(&harness), Some(said), "it stays told");

    let waits = |harness: &Harness<'_, Window>| {
        harness.state().app().view().waiting == Some(Waiting::GuardShop)
    };
    close(&mut harness);
    assert!(waits(&harness));
    harness.get_by_label_contains("What was typed of the shop is not saved");
    harness.get_by_label("cancel").click();
    harness.run();
    assert!(!waits(&harness));
    // Saving it can't be done yet: who closes after that is asked again.
    close(&mut harness);
    harness.get_by_label("save and close").click();
    harness.run();
    close(&mut harness);
    assert!(waits(&harness));
    harness.get_by_label("cancel").click();
    harness.run();

    std::fs::rename(&away, &root).expect("back again");
    wait(&mut harness);
    assert_eq!(failed(&harness), None);
    assert!(!harness.state().app().shop.is_unsaved());
    let stored = std::fs::read_to_string(root.join("shop.ron")).expect("the sheet");
    assert!(stored.contains("Tallow Street Fine Bores"), "{stored}");
    close(&mut harness);
    assert!(!waits(&harness), "nothing is left to ask about");
}

#[test]
fn what_is_being_typed_on_the_page_is_saved_when_the_window_closes() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let mut harness = window_with(desk_of(&office), office, Standing::Ready);
    harness.key_press(Key::F7);
    harness.run();
    let role = egui::accesskit::Role::TextInput;
    harness.get_by_role_and_label(role, "name").focus();
    harness.run();
    harness.event(Event::Text("Tallow Street".to_owned()));
    harness.run();
    close(&mut harness);
    assert_eq!(harness.state().app().view().waiting, None);
    let stored = std::fs::read_to_string(folder.path().join("shop.ron")).expect("the sheet");
    assert!(stored.contains("Tallow Street"), "{stored}");
}
