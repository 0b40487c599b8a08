//! What a digest says of a job.

use std::sync::Arc;

use quillbore_job::{Field, Job, Line, SlipKind};
use quillbore_office::digest::{Digest, OpenMatter, Summary};

use crate::jobs::{day, job, with_hole, with_quotation, with_slip, with_traveler};

fn open(job: &Job) -> Vec<OpenMatter> {
    Digest::of(job).open
}

fn quoted() -> Job {
    let fields = [(Field::Quantity, "25"), (Field::FollowUp, "2026-12-01")];
    with_quotation(&job("26-0107", &fields), "26-0107-Q1", None, &["26-0107"])
}

fn ordered() -> Job {
    let order = [
        (Line::Date, "2026-11-24"),
        (Line::Quantity, "25"),
        (Line::Due, "2026-12-18"),
    ];
    with_slip(&quoted(), SlipKind::Order, &order)
}

#[test]
fn the_summary_says_what_the_list_shows_and_search_and_comparison_read() {
    let fields = [
        (Field::Customer, " Alder Finch Rotors "),
        (Field::Part, "4-118"),
        (Field::CustomerReference, "RFQ 7"),
        (Field::Quantity, "25"),
    ];
    let job = with_hole(&job("26-0107", &fields), "0.8 +-0.05", "14");
    let run = [
        (Line::Mark, "A"),
        (Line::Holes, "180"),
        (Line::FloorMinutes, "90"),
        (Line::StopMinutes, "30"),
        (Line::Good, "5"),
    ];
    let order = [(Line::Number, "PO 4711")];
    let job = with_slip(
        &with_slip(&job, SlipKind::Order, &order),
        SlipKind::Run,
        &run,
    );
    let summary = Digest::of(&job).summary;
    let shown = [
        &summary.number,
        &summary.customer,
        &summary.part,
        &summary.references,
    ];
    assert_eq!(
        shown,
        ["26-0107", "Alder Finch Rotors", "4-118", "RFQ 7 PO 4711"]
    );
    assert_eq!(
        (summary.state.as_str(), summary.quantity),
        ("ordered", Some(25))
    );
    assert_eq!(
        (summary.size_mm, summary.depth_mm, summary.holes),
        (Some(0.8), Some(14.0), 36)
    );
    // 60 min for 180 holes of five parts: 12 min each.
    let hours = summary.hours.expect("hours");
    assert!((hours.each - 0.2).abs() < 1e-12 && hours.by_clock && !hours.scaled);
}

#[test]
fn a_quotation_waits_until_somebody_says_how_it_ended() {
    let waits = OpenMatter::Quotation {
        number: "26-0107-Q1".to_owned(),
        date: day("2026-11-20"),
        follow_up: Some(day("2026-12-01")),
    };
    assert_eq!(open(&job("26-0107", &[])), []);
    assert_eq!(open(&quoted()), [waits]);
    let declined = with_slip(&quoted(), SlipKind::Reply, &[(Line::Outcome, "declined")]);
    assert_eq!(open(&declined), []);
    let withdrawn = [(Line::Paper, "26-0107-Q1"), (Line::Why, "wrong drawing")];
    assert_eq!(
        open(&with_slip(&quoted(), SlipKind::Withdrawal, &withdrawn)),
        []
    );
    let aside = job("26-0107", &[(Field::LaidAside, "no answer in a year")]);
    assert_eq!(
        open(&with_quotation(&aside, "26-0107-Q1", None, &["26-0107"])),
        []
    );
}

#[test]
fn an_order_waits_for_its_parts_and_for_its_day_until_all_is_delivered() {
    let due = |left| OpenMatter::Due {
        day: day("2026-12-18"),
        slip: Some(0),
        left: Some(left),
    };
    let parts = |here, ordered| OpenMatter::Parts {
        here,
        ordered,
        since: Some(day("2026-11-24")),
    };
    let release = |parts| OpenMatter::ToRelease { parts, since: None };
    assert_eq!(open(&ordered()), [parts(0, 25), due(25)]);
    let some = with_slip(&ordered(), SlipKind::Received, &[(Line::Count, "10")]);
    assert_eq!(open(&some), [parts(10, 25), due(25)]);
    let came = [(Line::Count, "15"), (Line::Date, "2026-11-30")];
    let all = with_slip(&some, SlipKind::Received, &came);
    let since = Some(day("2026-11-30"));
    let whole = OpenMatter::ToRelease { parts: 25, since };
    assert_eq!(open(&all), [whole, due(25)]);
    let shipped = with_slip(&all, SlipKind::Delivery, &[(Line::Count, "24")]);
    let last = OpenMatter::ToRelease { parts: 1, since };
    assert_eq!(open(&shipped), [last, due(1)]);
    let shipped = with_slip(&shipped, SlipKind::Delivery, &[(Line::Count, "1")]);
    assert_eq!(open(&shipped), []);
    // A call-off comes bit by bit, and so do its parts.
    let called = [(Line::Quantity, "10"), (Line::Due, "2026-12-04")];
    let first = with_slip(&some, SlipKind::Release, &called);
    let due = |slip, day, left| OpenMatter::Due {
        day,
        slip: Some(slip),
        left: Some(left),
    };
    let called_due = due(2, day("2026-12-04"), 10);
    assert_eq!(open(&first), [release(10), called_due]);
    // Once these ten are on the floor, none of the others are here.
    let floor = with_traveler(&first, 10);
    let called_due = due(2, day("2026-12-04"), 10);
    assert_eq!(open(&floor), [parts(0, 15), called_due]);
    let gone = with_slip(&floor, SlipKind::Delivery, &[(Line::Count, "10")]);
    let rest = [parts(0, 15), due(0, day("2026-12-18"), 15)];
    assert_eq!(open(&gone), rest);
    // The day of an inquiry is a wish.
    assert_eq!(open(&job("26-0108", &[(Field::Due, "2026-12-18")])), []);
}

#[test]
fn a_non_conformance_waits_until_it_is_closed() {
    let said = [
        (Line::Date, "2026-11-25"),
        (Line::HolesNamed, "A3 of SN104"),
        (Line::What, "0.1 too deep"),
        (Line::GoOn, "the customer said so"),
    ];
    let found = with_slip(&job("26-0107", &[]), SlipKind::Nonconformance, &said);
    let waits = OpenMatter::Nonconformance {
        slip: 0,
        date: Some(day("2026-11-25")),
        what: "A3 of SN104: 0.1 too deep".to_owned(),
    };
    assert_eq!(open(&found), [waits]);
    let closed = [said.as_slice(), &[(Line::Closed, "2026-11-26")]].concat();
    let closed = with_slip(&job("26-0107", &[]), SlipKind::Nonconformance, &closed);
    assert_eq!(open(&closed), []);
}

#[test]
fn a_call_waits_until_somebody_called_on_its_day_or_later() {
    let first = [
        (Line::Date, "2026-11-20"),
        (Line::Who, "Pell"),
        (Line::CallAgain, "2026-11-27"),
    ];
    let called = with_slip(&job("26-0107", &[]), SlipKind::Call, &first);
    let waits = OpenMatter::Call {
        slip: 0,
        day: day("2026-11-27"),
        who: "Pell".to_owned(),
    };
    assert_eq!(open(&called), std::slice::from_ref(&waits));
    let before = with_slip(&called, SlipKind::Call, &[(Line::Date, "2026-11-25")]);
    assert_eq!(open(&before), std::slice::from_ref(&waits));
    let on_it = with_slip(&before, SlipKind::Call, &[(Line::Date, "2026-11-27")]);
    assert_eq!(open(&on_it), []);
    let no_day = with_slip(
        &job("26-0107", &[]),
        SlipKind::Call,
        &[(Line::CallAgain, "soon")],
    );
    let soon = OpenMatter::Unread {
        slip: 0,
        kind: SlipKind::Call,
        line: Line::CallAgain,
        typed: "soon".to_owned(),
    };
    assert_eq!(open(&no_day), [soon]);
    let any = [(Line::Date, "2026-11-20")];
    assert_eq!(open(&with_slip(&no_day, SlipKind::Call, &any)), []);
}

#[test]
fn a_digest_comes_back_out_of_a_cache_as_it_was() {
    let mut digest = Digest::of(&with_slip(&ordered(), SlipKind::Run, &[(Line::Good, "3")]));
    digest.open.extend(open(&quoted()));
    digest.joint = Digest::of(&with_quotation(
        &ordered(),
        "26-0107-Q2",
        None,
        &["26-0107", "26-0108"],
    ))
    .joint;
    assert!(digest.joint.len() == 1 && digest.open.len() == 3);
    let text = serde_json::to_string(&digest).expect("plain data");
    let again: Digest = serde_json::from_str(&text).expect("a digest");
    assert_eq!(again, digest);
    let small = Digest {
        summary: Summary::default(),
        ..Digest::default()
    };
    let text = serde_json::to_string(&small).expect("plain data");
    assert!(!text.contains("joint"), "what says nothing takes no room");
}

/// A job whose traveler is on the floor, released with its sheet frozen in its entry.
fn released() -> Job {
    with_traveler(&with_hole(&ordered(), "0.8 +-0.05", "14"), 25)
}

#[test]
fn a_sheet_that_changed_since_its_traveler_was_released_and_a_changed_entry_wait() {
    let told = |job: &Job| -> Vec<OpenMatter> {
        let ours = |open: &OpenMatter| {
            let ours = [
                OpenMatter::SheetChanged {
                    traveler: "26-0107-T1".to_owned(),
                },
                OpenMatter::EntryChanged {
                    number: "26-0107-T1".to_owned(),
                },
            ];
            ours.contains(open)
        };
        open(job).into_iter().filter(ours).collect()
    };
    let job = released();
    assert_eq!(told(&job), []);
    let deeper = with_hole(&job, "0.8 +-0.05", "15");
    let traveler = "26-0107-T1".to_owned();
    assert_eq!(told(&deeper), [OpenMatter::SheetChanged { traveler }]);
    let mut edited = job;
    let entry = Arc::make_mut(&mut edited.issued[1]);
    entry.date = day("2026-01-01");
    let number = "26-0107-T1".to_owned();
    assert_eq!(told(&edited), [OpenMatter::EntryChanged { number }]);
}
