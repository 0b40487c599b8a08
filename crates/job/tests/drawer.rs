//! What a job takes out of the drawer, read off its travelers and run records.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod hands;

use std::sync::Arc;

use hands::{day, issue, pin, ring};
use quillbore_job::drawer::{Drawn, IN_FILES, Thing, Used, drawn};
use quillbore_job::file::{read_job, write_job};
use quillbore_job::{Job, Line, Paper, SlipKind};

/// The ring on the floor, with what its traveler keeps.
fn on_the_floor(kept: &[(String, f64)]) -> Job {
    let ordered = pin(&ring(), SlipKind::Order, &[(Line::Quantity, "25")]);
    let mut job = issue(&ordered, Paper::Traveler, &[(25, "")]);
    let traveler = Arc::make_mut(job.issued.last_mut().expect("the traveler"));
    traveler.rests_on.extend_from_slice(kept);
    job
}

fn kit(count: f64) -> (String, f64) {
    (Thing::Electrode.entry("fine"), count)
}

fn holes(count: f64) -> (String, f64) {
    (Thing::Guide.entry("fine"), count)
}

fn run(job: &Job, lines: &[(Line, &str)]) -> Job {
    let dated = [(Line::Date, "2026-03-04")];
    pin(job, SlipKind::Run, &[&dated, lines].concat())
}

fn of(thing: Thing, reserved: u32, used: &[(u32, Option<f64>)]) -> Drawn {
    let used = used.iter().map(|&(count, before_mm)| Used {
        date: Some(day(3, 4)),
        count,
        before_mm,
    });
    Drawn {
        thing,
        name: "fine".to_owned(),
        reserved,
        used: used.collect(),
    }
}

/// An electrode and a guide of one name are two things. Guides are kept until the job is delivered: no
/// record uses one up.
#[test]
fn a_traveler_keeps_kit_and_guides_until_delivery() {
    let job = on_the_floor(&[kit(5.0), holes(150.0)]);
    let kept = [of(Thing::Electrode, 5, &[]), of(Thing::Guide, 150, &[])];
    assert_eq!(drawn(&job), kept);
    let text = write_job(&job);
    assert!(IN_FILES.iter().all(|entry| text.contains(entry)), "{text}");
    assert_eq!(drawn(&read_job(text.as_bytes()).expect("it opens")), kept);
    // 400 of 900 holes, by nobody knows how many electrodes.
    let unsaid = run(&job, &[(Line::Holes, "400")]);
    assert_eq!(drawn(&unsaid), kept);
    let numbered = [(Line::Holes, "400"), (Line::ElectrodeNumber, "1 to 3")];
    let ran = run(&job, &numbered);
    let used = of(Thing::Electrode, 2, &[(3, None)]);
    assert_eq!(drawn(&ran), [used, of(Thing::Guide, 150, &[])]);
    let sent = pin(&ran, SlipKind::Delivery, &[(Line::Count, "25")]);
    assert_eq!(drawn(&sent), [of(Thing::Electrode, 0, &[(3, None)])]);
    // All 900 holes are drilled: nothing of the kit is wanted any more.
    let drilled = run(&ran, &[(Line::Holes, "500"), (Line::Electrodes, "1")]);
    let used = of(Thing::Electrode, 0, &[(3, None), (1, None)]);
    assert_eq!(drawn(&drilled), [used]);
}

/// A traveler of before guides were kept names none.
#[test]
fn an_earlier_traveler_keeps_no_guides() {
    let job = on_the_floor(&[kit(5.0)]);
    assert_eq!(drawn(&job), [of(Thing::Electrode, 5, &[])]);
    assert_eq!(drawn(&on_the_floor(&[])), []);
    // Guides alone don't hide whose record it is that names no electrode.
    let ran = run(&on_the_floor(&[holes(25.0)]), &[(Line::Holes, "3")]);
    assert_eq!(drawn(&ran), [of(Thing::Guide, 25, &[])]);
}

/// A piece is what was short when it was taken. Where an electrode goes on from another record and
/// breaks, the one that follows is new, however short the broken one was.
#[test]
fn a_short_electrode_is_a_piece_only_where_it_was_taken() {
    let job = on_the_floor(&[kit(5.0)]);
    let first = [(Line::ElectrodeNumber, "1"), (Line::TubeBefore, "300")];
    let again = [
        (Line::ElectrodeNumber, "1"),
        (Line::TubeBefore, "140"),
        (Line::Breakages, "1"),
    ];
    let ran = run(&run(&job, &first), &again);
    let used = [(1, Some(300.0)), (1, None)];
    assert_eq!(drawn(&ran), [of(Thing::Electrode, 3, &used)]);
    // A piece that breaks is followed by a new one: two in all, the first of them short.
    let piece = [
        (Line::ElectrodeNumber, "2"),
        (Line::TubeBefore, "140"),
        (Line::Breakages, "1"),
    ];
    let ran = run(&job, &piece);
    let used = of(Thing::Electrode, 3, &[(2, Some(140.0))]);
    assert_eq!(drawn(&ran), [used]);
}
