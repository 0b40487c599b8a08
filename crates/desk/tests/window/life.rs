//! The whole life of a job, and one quotation of two.

use egui::{Event, Key, Modifiers};
use egui_kittest::{Harness, kittest::Queryable as _};
use quillbore_job::life::{self, State};
use quillbore_job::{Field, SealState};

use crate::hands::{OPENED, Window, do_word, paste, press, type_on, window};

#[test]
fn the_life_of_a_job_from_inquiry_to_reorder_by_keyboard() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    let notice = |harness: &Harness<'_, Window>| harness.state().app().desk().notice.clone();
    do_word(&mut harness, "issue quotation");
    assert_eq!(
        harness.state().job().number,
        "26-0101",
        "{}",
        notice(&harness)
    );
    let state = |harness: &Harness<'_, Window>| life::state(harness.state().job());
    assert_eq!(state(&harness), State::Quoted, "{}", notice(&harness));
    let files = folder.path().join("26-0101.files");
    assert!(files.join("26-0101-Q1.pdf").is_file());

    do_word(&mut harness, "add order");
    assert_eq!(state(&harness), State::Ordered);
    do_word(&mut harness, "issue order");
    assert!(
        notice(&harness).contains("no price each"),
        "a price is typed, not filled in: {}",
        notice(&harness)
    );
    let quoted = harness.state().job().issued[0].lines[0].each;
    let quoted = quoted.expect("a price").to_string();
    type_on(&mut harness, "quantity of order 1", "10");
    type_on(&mut harness, "price each of order 1", &quoted);
    do_word(&mut harness, "issue order");
    assert!(
        notice(&harness).contains("the order differs (quantity)"),
        "{}",
        notice(&harness)
    );
    type_on(
        &mut harness,
        "accepted by, why (printed) of order 1",
        "Pell: the price stays",
    );
    do_word(&mut harness, "issue order");
    assert!(
        files.join("26-0101-C1.pdf").is_file(),
        "{}",
        notice(&harness)
    );
    do_word(&mut harness, "issue traveler");
    assert!(
        notice(&harness).contains("the parts are not here"),
        "{}",
        notice(&harness)
    );
    do_word(&mut harness, "add parts");
    assert_eq!(state(&harness), State::Ordered, "nobody counted yet");
    type_on(&mut harness, "count of parts received 2", "12");
    for _ in 0..2 {
        harness.key_press_modifiers(Modifiers::COMMAND, Key::Enter);
        harness.run();
    }
    assert_eq!(state(&harness), State::OnTheFloor, "{}", notice(&harness));

    do_word(&mut harness, "add run");
    type_on(&mut harness, "or by the clock, min of run record 3", "240");
    let lesson = "do differently next time of run record 3";
    type_on(&mut harness, lesson, "fresh tube after 40 holes");
    do_word(&mut harness, "add delivery");
    assert_eq!(state(&harness), State::OnTheFloor);
    type_on(&mut harness, "count of delivery 4", "12");
    assert_eq!(state(&harness), State::Delivered);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    harness.run();
    assert!(
        !harness.state().app().desk().history.is_dirty(),
        "{}",
        notice(&harness)
    );

    // The reorder: find by the code on the paper, again, the order's words, confirm.
    harness.key_press_modifiers(Modifiers::COMMAND, Key::N);
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::F);
    harness.run();
    type_on(&mut harness, "find on the shelf", "26-0101-t1/1");
    assert_eq!(harness.state().job().number, "26-0101");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::R);
    harness.run();
    type_on(
        &mut harness,
        "customer's PO: number; quantity; price each; revision",
        "PO 7; 12; 400",
    );
    let job = harness.state().job();
    assert_eq!(
        (job.number.as_str(), job.text(Field::Again)),
        ("26-0102", "26-0101")
    );
    assert!(
        harness
            .state()
            .app()
            .desk()
            .results()
            .figures
            .price
            .is_some()
    );
    let told = harness.query_all_by_label_contains("fresh tube after 40 holes");
    assert!(told.count() > 0, "what was learned is told");
    press(&mut harness, "confirm the order");
    assert!(
        notice(&harness).contains("the order differs (price)"),
        "{}",
        notice(&harness)
    );
    do_word(&mut harness, "accept it");
    harness.event(Event::Text("Pell: they pay more".to_owned()));
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
    do_word(&mut harness, "issue order");
    let files = folder.path().join("26-0102.files");
    assert!(
        files.join("26-0102-C1.pdf").is_file(),
        "{}",
        notice(&harness)
    );
    do_word(&mut harness, "add parts");
    type_on(&mut harness, "count of parts received 2", "12");
    press(&mut harness, "preview traveler");
    press(&mut harness, "release traveler");
    assert!(
        files.join("26-0102-T1.pdf").is_file(),
        "{}",
        notice(&harness)
    );
}

#[test]
fn one_quotation_of_two_jobs_is_known_to_both() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::R);
    harness.run();
    type_on(
        &mut harness,
        "customer's PO: number; quantity; price each; revision",
        "",
    );
    assert_eq!(harness.state().app().open_jobs(), 2);
    assert_eq!(harness.state().job().number, "26-0102");
    do_word(&mut harness, "preview quotation");
    press(&mut harness, "issue one together with 26-0101");
    let desk = harness.state().app().desk();
    let issued = desk.job().issued.first().expect("a quotation").clone();
    let jobs: Vec<&str> = issued.lines.iter().map(|line| line.job.as_str()).collect();
    assert_eq!(jobs, ["26-0102", "26-0101"], "{}", desk.notice);
    let path = folder.path().join("26-0101.ron");
    let bytes = std::fs::read(path).expect("the other job");
    let other = quillbore_job::file::read_job(&bytes).expect("it opens");
    let known = other.issued.first().expect("it knows of the quotation");
    assert_eq!(known.number, issued.number);
    // Each of both entries has a seal of its own: they rest on different sheets.
    for entry in [&issued, known] {
        assert_eq!(entry.seal_state(), SealState::Sealed);
    }
    assert_ne!(known.seal, issued.seal);
    assert_eq!(known.kept_by.as_deref(), Some("26-0102"));
    harness.key_press_modifiers(Modifiers::COMMAND, Key::J);
    harness.run();
    press(&mut harness, "open 26-0102-Q1");
    let opened = OPENED.take();
    let stored = folder.path().join("26-0102.files/26-0102-Q1.pdf");
    assert_eq!(opened, [stored]);
    let notice = &harness.state().app().desk().notice;
    assert!(notice.starts_with("Opened: "), "{notice}");
}
