//! When a lot is done: under the price, with what comes first on its machine.

use std::path::Path;
use std::sync::Arc;

use egui_kittest::{Harness, kittest::Queryable as _};
use quillbore_job::results::promise::Promise;
use quillbore_job::{Edit, Form, Job, Line, SlipKind, Unit, apply};

use crate::hands::{Window, day, office, paste, type_on, window};

/// A window with a lot of some days.
fn asked(folder: &Path) -> Harness<'static, Window> {
    let mut harness = window(folder);
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    type_on(&mut harness, "quantity", "400");
    harness
}

fn promise(harness: &Harness<'_, Window>) -> Promise {
    let promise = harness.state().app().desk().promise().copied();
    promise.expect("a promise")
}

fn told(harness: &Harness<'_, Window>, text: &str) -> usize {
    harness.query_all_by_label_contains(text).count()
}

fn pinned(job: &Job, kind: SlipKind, lines: &[(Line, &str)]) -> Job {
    let lines = lines.iter().map(|(line, text)| (*line, (*text).to_owned()));
    let edit = Edit::AddSlip {
        kind,
        lines: lines.collect(),
        unit: Unit::Mm,
    };
    apply(job, &edit).expect("an edit").0
}

#[test]
fn working_days_stand_under_the_price_and_a_short_lead_time_is_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = asked(folder.path());
    let days = promise(&harness).days;
    assert!(days.p50 > 1 && days.p90 > days.p50, "{days:?}");
    let said = format!(
        "{} to {} working days after order, parts and drawing",
        days.p50, days.p90
    );
    assert_eq!(told(&harness, &said), 1);
    assert_eq!(told(&harness, "lead time of 1 working day is short"), 0);
    type_on(&mut harness, "lead time, working days", "1");
    assert_eq!(told(&harness, "lead time of 1 working day is short"), 1);
}

#[test]
fn jobs_of_the_shelf_on_the_same_machine_come_first() {
    let folder = tempfile::tempdir().expect("a folder");
    let alone = asked(folder.path());
    let days = promise(&alone).days;
    let lines = [(Line::Date, "2026-11-20"), (Line::Quantity, "400")];
    let other = pinned(alone.state().job(), SlipKind::Order, &lines);
    let here = [(Line::Date, "2026-11-25"), (Line::Count, "400")];
    let other = pinned(&other, SlipKind::Received, &here);
    let saved = office(folder.path()).save(&Arc::new(other), None, day());
    let key = saved.expect("saved").key;

    let mut behind = asked(folder.path());
    let waits = promise(&behind);
    assert!(waits.days.p50 > days.p50, "{waits:?} {days:?}");
    assert_eq!(waits.begins, None);
    assert_eq!(told(&behind, "of 1 other job first on this machine"), 1);
    type_on(&mut behind, "machine", "Barrow");
    assert_eq!(
        told(&behind, "first on this machine"),
        0,
        "nobody waits for it"
    );

    // The other job itself waits for nobody, and its days are known.
    let mut opened = asked(folder.path());
    type_on(&mut opened, "find on the shelf", key.as_str());
    let ends = promise(&opened);
    assert_eq!((ends.days, ends.begins), (days, Some(day())));
    let likely = Form::default().day(ends.date_p50.expect("a day"));
    assert_eq!(
        told(&opened, &format!("from 25 Nov 2026: likely {likely}")),
        1
    );
}
