//! A paper leaves by the run records of the shelf, and not by figures that were made while nobody could
//! read them.

use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_desk::desk::{Desk, Errand};
use quillbore_desk::grid::GridAt;
use quillbore_job::{CellAt, Column, Edit, Field, Paper, Shop, Unit};
use quillbore_office::clock::FixedClock;
use quillbore_office::disk::RealDisk;
use quillbore_office::shelf::Memory;
use quillbore_office::shelf::memory::Fault;
use quillbore_office::{Office, places};
use quillbore_paper::Sheet;

fn inquiry(desk: &mut Desk) {
    for (field, text) in [
        (Field::Customer, "Grove Pump Works"),
        (Field::Material, "Stainless 316"),
        (Field::Machine, "Wren"),
        (Field::Quantity, "12"),
    ] {
        let edit = Edit::SetField {
            field,
            text: text.to_owned(),
            unit: Unit::Mm,
        };
        desk.edit(&edit, GridAt::default(), GridAt::default());
    }
    let cells = ["A", "6", "0.8 +-0.05", "12"].map(|text| Some(text.to_owned()));
    let holes = Edit::SetCells {
        at: CellAt {
            row: 0,
            column: Column::Mark,
        },
        rows: vec![cells.to_vec()],
        unit: Unit::Mm,
    };
    desk.edit(&holes, GridAt::default(), GridAt::default());
}

fn issue(desk: &mut Desk) {
    desk.wants(Errand::Issue {
        paper: Paper::Quotation,
        sheet: Sheet::A4,
        others: Vec::new(),
    });
    desk.poll();
}

#[test]
fn a_paper_waits_until_the_run_records_are_read_and_then_for_a_look() {
    let shelf = || Arc::new(Memory::marked(places::new_mark().expect("a mark")));
    // The records come from a shelf that is away, the job goes to one that is there.
    let (jobs, records) = (shelf(), shelf());
    let mut office = Office::new(
        jobs,
        None,
        Arc::new(RealDisk::default()),
        Arc::new(Shop::embedded().expect("the shop").clone()),
    );
    office.teaches = records.clone();
    records.break_at(0, Fault::Gone);
    let day = NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day");
    let mut desk = Desk::at_once(Arc::new(office), Arc::new(FixedClock(day)));
    desk.poll();
    assert!(desk.notice.contains("run records"), "{}", desk.notice);
    inquiry(&mut desk);
    desk.save();
    desk.poll();
    issue(&mut desk);
    assert_eq!(desk.job().issued.len(), 0);
    assert!(
        desk.notice.starts_with("Not issued, since"),
        "{}",
        desk.notice
    );
    assert!(
        desk.notice.contains("not there any more"),
        "{}",
        desk.notice
    );
    // They are back, and were not looked at since.
    records.mend();
    issue(&mut desk);
    assert_eq!(desk.job().issued.len(), 0);
    assert!(
        desk.notice.starts_with("Not issued: these figures"),
        "{}",
        desk.notice
    );
    issue(&mut desk);
    assert_eq!(desk.job().issued.len(), 1, "{}", desk.notice);
}
