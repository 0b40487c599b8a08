//! Papers and files handed over: opened, printed, mailed, attached.

use std::fs;
use std::path::Path;

use egui_kittest::kittest::Queryable as _;

use crate::hands::{MAILED, OPENED, Window, do_word, paste, press, type_on, window};

type Harness = egui_kittest::Harness<'static, Window>;

fn notice(harness: &Harness) -> String {
    harness.state().app().desk().notice.clone()
}

/// A quotation that is issued.
fn quoted(folder: &Path) -> Harness {
    let mut harness = window(folder);
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    do_word(&mut harness, "issue quotation");
    assert!(
        folder.join("26-0101.files/26-0101-Q1.pdf").is_file(),
        "{}",
        notice(&harness)
    );
    harness
}

#[test]
fn what_was_just_issued_is_opened_shown_and_mailed_from_the_foot() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = quoted(folder.path());
    let files = folder.path().join("26-0101.files");
    press(&mut harness, "open");
    assert_eq!(OPENED.take(), [files.join("26-0101-Q1.pdf")]);
    // What was done with it is said, and more can be done still.
    press(&mut harness, "mail");
    assert_eq!(MAILED.take().len(), 1);
    assert!(harness.query_by_label("open").is_some());
    // Once another thing was done, the words are gone with what they were about.
    type_on(&mut harness, "customer", "Alder Finch Rotors");
    assert!(harness.query_by_label("open").is_none());
}

#[test]
fn a_file_that_was_changed_is_not_opened() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = quoted(folder.path());
    let file = folder.path().join("26-0101.files/26-0101-Q1.pdf");
    fs::write(&file, b"another").expect("changed");
    press(&mut harness, "open 26-0101-Q1");
    assert!(OPENED.take().is_empty(), "{}", notice(&harness));
    press(&mut harness, "print 26-0101-Q1");
    assert!(
        notice(&harness).contains("26-0101-Q1"),
        "{}",
        notice(&harness)
    );
}

#[cfg(unix)]
#[test]
fn the_printer_is_chosen_once_and_the_paper_reaches_the_command() {
    use std::os::unix::fs::PermissionsExt as _;

    let folder = tempfile::tempdir().expect("a folder");
    let tools = tempfile::tempdir().expect("a folder");
    let (script, record) = (tools.path().join("print.sh"), tools.path().join("record"));
    let text = format!("#!/bin/sh\necho \"$@\" >>{}\n", record.display());
    fs::write(&script, text).expect("a script");
    fs::set_permissions(&script, fs::Permissions::from_mode(0o755)).expect("may be run");
    let mut harness = quoted(folder.path());
    do_word(&mut harness, "settings");
    let command = format!("{} --on {{printer}}", script.display());
    let line = "print command, empty for lp; {printer} and {file} stand for both";
    type_on(&mut harness, line, &command);
    do_word(&mut harness, "settings");
    press(&mut harness, "print 26-0101-Q1");
    type_on(
        &mut harness,
        "printer, empty for the system's usual one",
        "office",
    );
    harness.run();
    let file = folder.path().join("26-0101.files/26-0101-Q1.pdf");
    let once = format!("--on office {}", file.display());
    let said = fs::read_to_string(&record).unwrap_or_default();
    assert_eq!(
        said.lines().collect::<Vec<_>>(),
        [&once],
        "{}",
        notice(&harness)
    );
    // The second time nobody is asked.
    press(&mut harness, "print 26-0101-Q1");
    harness.run();
    let said = fs::read_to_string(&record).expect("a record");
    assert_eq!(said.lines().collect::<Vec<_>>(), [&once, &once]);
    assert!(
        notice(&harness).contains("Given to the printer"),
        "{}",
        notice(&harness)
    );
}

#[test]
fn a_drawing_is_attached_to_an_inquiry_and_opened_from_there() {
    let folder = tempfile::tempdir().expect("a folder");
    let from = tempfile::tempdir().expect("a folder");
    let drawing = from.path().join("GP-12 rev B.pdf");
    fs::write(&drawing, b"a drawing").expect("a drawing");
    let mut harness = window(folder.path());
    press(&mut harness, "attach a file");
    type_on(
        &mut harness,
        "attach the file",
        &drawing.display().to_string(),
    );
    harness.run();
    let beside = harness.state().app().desk().beside();
    let names: Vec<&str> = beside.iter().map(|file| file.name.as_str()).collect();
    assert_eq!(names, ["GP-12 rev B.pdf"], "{}", notice(&harness));
    press(&mut harness, "open GP-12 rev B.pdf");
    assert_eq!(
        OPENED.take(),
        [folder.path().join("26-0101.files/GP-12 rev B.pdf")]
    );
}

/// A name that somebody put in the place of a file leads nowhere: a link is not followed.
#[cfg(unix)]
#[test]
fn a_link_in_the_place_of_a_file_is_not_opened() {
    let folder = tempfile::tempdir().expect("a folder");
    let from = tempfile::tempdir().expect("a folder");
    let photo = from.path().join("photo.jpg");
    fs::write(&photo, b"a photo").expect("a photo");
    let mut harness = window(folder.path());
    press(&mut harness, "attach a file");
    type_on(
        &mut harness,
        "attach the file",
        &photo.display().to_string(),
    );
    harness.run();
    let inside = folder.path().join("26-0101.files/photo.jpg");
    fs::remove_file(&inside).expect("taken away");
    std::os::unix::fs::symlink("/etc/passwd", &inside).expect("a link");
    press(&mut harness, "open photo.jpg");
    assert!(OPENED.take().is_empty(), "{}", notice(&harness));
    assert!(
        !notice(&harness).starts_with("Opened"),
        "{}",
        notice(&harness)
    );
}

#[test]
fn a_blank_page_for_the_floor_is_printed_beside_the_job_and_opened() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    // The job stands nowhere yet: it is saved first.
    press(&mut harness, "blank run-record page");
    let files = folder.path().join("26-0101.files");
    let page = files.join("26-0101-blank-run-record.pdf");
    assert_eq!(OPENED.take(), [page.as_path()], "{}", notice(&harness));
    let bytes = fs::read(&page).expect("the page");
    // The same page is the same file.
    press(&mut harness, "blank run-record page");
    assert_eq!(OPENED.take(), [page.as_path()]);
    do_word(&mut harness, "blank inspection page");
    let other = files.join("26-0101-blank-inspection.pdf");
    assert_eq!(OPENED.take(), [other.as_path()], "{}", notice(&harness));
    // Another one is never written over the first.
    paste(&mut harness, "B\t2\t0.6 +-0.05\t9\r\n");
    type_on(&mut harness, "part", "ZZ-9");
    press(&mut harness, "blank run-record page");
    let again = files.join("26-0101-2-blank-run-record.pdf");
    assert_eq!(OPENED.take(), [again.as_path()], "{}", notice(&harness));
    assert_eq!(fs::read(&page).expect("the page"), bytes);
    assert!(harness.state().app().desk().job().issued.is_empty());
}

#[test]
fn a_job_without_holes_says_why_it_has_no_blank_page() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    type_on(&mut harness, "part", "ZZ-9");
    press(&mut harness, "blank inspection page");
    assert!(OPENED.take().is_empty());
    assert!(
        notice(&harness).contains("no rows of holes"),
        "{}",
        notice(&harness)
    );
}
