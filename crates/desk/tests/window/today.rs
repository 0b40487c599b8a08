//! The day's list in the window, and the shelf sorted and found by what is typed.

use egui::{Event, Key, Modifiers};
use egui_kittest::kittest::Queryable as _;
use quillbore_job::Field;
use quillbore_job::words::english;
use quillbore_office::digest::SortBy;
use quillbore_office::today::Group;

use crate::hands::{Window, do_word, paste, press, type_on, window};

type Harness = egui_kittest::Harness<'static, Window>;

fn key(harness: &mut Harness, key: Key) {
    harness.key_press(key);
    harness.run();
}

fn list(harness: &Harness) -> Vec<(Group, String)> {
    let page = &harness.state().app().today;
    let list = page.list.as_ref().expect("a list");
    let lines = list.lines.iter();
    lines
        .map(|line| (line.matter.group, line.number.clone()))
        .collect()
}

/// A quotation that nobody answered, and a call that was promised for today.
fn waiting(folder: &std::path::Path) -> Harness {
    let mut harness = window(folder);
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    do_word(&mut harness, "issue quotation");
    do_word(&mut harness, "add call");
    type_on(&mut harness, "call again on of call 1", "2026-11-25");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    harness.run();
    harness
}

#[test]
fn what_waits_is_opened_where_it_is_seen_to() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = waiting(folder.path());
    key(&mut harness, Key::F5);
    assert_eq!(list(&harness), [(Group::CallToday, "26-0101".to_owned())]);
    harness.run();
    let list = harness.state().app().today.list.clone().expect("a list");
    let foot = list.foot.said(quillbore_job::Form::default());
    assert!(foot.starts_with("1 call. Nothing on the floor"), "{foot}");
    // Its hours are told, though only those on the floor are added up.
    assert!(list.lines[0].hours.is_some_and(|hours| hours > 0.0));
    // No job that is out of sight is acted on.
    let state = harness.state().app().desk().history.state();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    harness.event(Event::Paste("B\t2\t0.5\t4\r\n".to_owned()));
    harness.run();
    assert_eq!(harness.state().app().desk().history.state(), state);
    key(&mut harness, Key::Enter);
    assert!(!harness.state().app().today.open);
    let line = harness.get_by_label("call again on of call 1");
    assert!(line.is_focused(), "the keyboard is on the promise");
}

#[test]
fn a_line_is_set_aside_and_brought_back() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = waiting(folder.path());
    key(&mut harness, Key::F5);
    key(&mut harness, Key::S);
    type_on(
        &mut harness,
        "set aside until (a date, or days such as 3)",
        "yesterday",
    );
    let notice = harness.state().app().today.notice.clone();
    assert!(notice.contains("yesterday"), "{notice}");
    // It is asked again, with what was typed.
    let typed = harness.state().app().today.until.clone();
    assert_eq!(typed.as_deref(), Some("yesterday"));
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    harness.run();
    harness.event(Event::Text("tomorrow".to_owned()));
    harness.run();
    key(&mut harness, Key::Enter);
    // Enter was about the day: the list is still there, and the job stands where it fits next.
    assert!(harness.state().app().today.open);
    assert_eq!(list(&harness), [(Group::NoAnswer, "26-0101".to_owned())]);
    press(&mut harness, "1 set aside");
    assert!(harness.query_by_label("set aside until  1").is_some());
    key(&mut harness, Key::End);
    key(&mut harness, Key::S);
    assert_eq!(list(&harness)[0].0, Group::CallToday);
    assert!(harness.query_by_label("1 set aside").is_none());
    let notice = &harness.state().app().today.notice;
    assert_eq!(notice, "26-0101 is in the list again.");
}

/// The list is of the shop, not of the job on top, and what was done at the last visit is no news.
#[test]
fn the_list_is_in_the_shops_currency_and_opens_without_old_news() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = waiting(folder.path());
    press(&mut harness, "more lines of Price");
    for (field, text) in [
        (Field::Currency, "EUR"),
        (Field::ExchangeRate, "0.92"),
        (Field::ExchangeDay, "2026-11-20"),
    ] {
        type_on(&mut harness, english::field(field), text);
    }
    let desk = harness.state().app().desk();
    assert_eq!(desk.shop.tables.rates.currency, "EUR");
    key(&mut harness, Key::F5);
    assert!(harness.query_by_label("USD each").is_some());
    assert!(harness.query_by_label("EUR each").is_none());
    key(&mut harness, Key::Space);
    assert_ne!(harness.state().app().today.notice, "");
    key(&mut harness, Key::F5);
    key(&mut harness, Key::F5);
    assert_eq!(harness.state().app().today.notice, "");
}

#[test]
fn a_call_is_noted_as_made_in_a_job_that_is_not_open() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = waiting(folder.path());
    key(&mut harness, Key::F5);
    key(&mut harness, Key::Space);
    let notice = harness.state().app().today.notice.clone();
    assert!(notice.contains("open here"), "{notice}");
    key(&mut harness, Key::Escape);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::W);
    harness.run();
    key(&mut harness, Key::F5);
    key(&mut harness, Key::Space);
    harness.run();
    assert_eq!(list(&harness), [(Group::NoAnswer, "26-0101".to_owned())]);
    let text = std::fs::read_to_string(folder.path().join("26-0101.ron")).expect("the job");
    assert_eq!(text.matches("kind: \"call\"").count(), 2, "{text}");
}

#[test]
fn the_shelf_is_sorted_by_a_word_and_found_by_meaning() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = waiting(folder.path());
    press(&mut harness, "sort by price");
    let sort = harness.state().app().list.sort;
    assert_eq!((sort.by, sort.falling), (SortBy::Price, true));
    press(&mut harness, "sort by price");
    assert!(!harness.state().app().list.sort.falling);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::F);
    harness.run();
    harness.event(Event::Text("material 316 size 0.8".to_owned()));
    harness.run();
    let found = |harness: &mut Harness| harness.state_mut().app_mut().list.found().len();
    assert_eq!(found(&mut harness), 1);
    harness.event(Event::Text("5".to_owned()));
    harness.run();
    assert_eq!(found(&mut harness), 0, "no job has holes of 0.85");
}
