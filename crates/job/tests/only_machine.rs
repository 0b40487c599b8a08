//! The machine of a shop that has but one goes onto the sheet with the first holes.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use chrono::NaiveDate;
use quillbore_job::only_machine::with_only_machine;
use quillbore_job::{CellAt, Column, Edit, Field, Job, Shop, Unit, apply};

fn shop(machines: usize) -> Shop {
    let day = NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day");
    let mut shop = Shop::embedded().expect("the shop").on(day);
    shop.tables.machines.truncate(machines);
    assert_eq!(shop.tables.machines.len(), machines);
    shop
}

fn holes() -> Edit {
    Edit::SetCells {
        at: CellAt {
            row: 0,
            column: Column::Size,
        },
        rows: vec![vec![Some("0.8".to_owned())]],
        unit: Unit::Mm,
    }
}

fn machine(text: &str) -> Edit {
    Edit::SetField {
        field: Field::Machine,
        text: text.to_owned(),
        unit: Unit::Mm,
    }
}

fn done(job: &Job, edit: &Edit) -> Job {
    apply(job, edit).expect("an edit that can be done").0
}

#[test]
fn the_first_holes_bring_it() {
    let shop = shop(1);
    let name = &shop.tables.machines[0].name;
    let (told, edit) = with_only_machine(&Job::default(), &shop, &holes()).expect("a machine");
    assert_eq!(told, *name);
    let job = done(&Job::default(), &edit);
    assert_eq!(job.text(Field::Machine), name);
    assert_eq!(job.rows.len(), 1);

    // Whoever takes it off the sheet again means it, and more holes don't bring it back.
    let without = done(&job, &machine(""));
    assert_eq!(with_only_machine(&without, &shop, &holes()), None);
}

#[test]
fn neither_a_choice_nor_what_is_typed_is_decided() {
    let holes = holes();
    assert_eq!(with_only_machine(&Job::default(), &shop(2), &holes), None);
    let named = done(&Job::default(), &machine("another"));
    assert_eq!(with_only_machine(&named, &shop(1), &holes), None);
    let other = Edit::SetUnit(Unit::Inch);
    assert_eq!(with_only_machine(&Job::default(), &shop(1), &other), None);

    // A table that names the machine itself keeps its own.
    let both = Edit::Together {
        edits: vec![holes, machine("another")],
    };
    let (_, edit) = with_only_machine(&Job::default(), &shop(1), &both).expect("a machine");
    let job = done(&Job::default(), &edit);
    assert_eq!(job.text(Field::Machine), "another");
}
