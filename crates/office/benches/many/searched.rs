//! A job of many, and what a key in the find line costs.

use quillbore_job::{CellAt, Column, Edit, Field, Job, Unit, apply};
use quillbore_office::digest::{Asking, Index, Query, Sort};
use quillbore_office::names::JobKey;
use quillbore_office::week::five_days;

use super::many::{CUSTOMERS, MATERIALS};

/// One of many jobs.
pub(crate) fn job(at: u32) -> Job {
    let pick = at as usize;
    let mut job = Job {
        number: format!("{:02}-{:04}", 20 + at / 8_000, at % 8_000),
        ..Job::default()
    };
    let fields = [
        (Field::Customer, CUSTOMERS[pick % 7].to_owned()),
        (Field::Part, format!("{}-{}", at % 97, at * 7 % 1_000)),
        (
            Field::PartName,
            ["ring", "spindle", "die plate"][pick % 3].to_owned(),
        ),
        (Field::Revision, ["A", "B", "C"][pick % 3].to_owned()),
        (Field::Drawing, format!("D{:05}", at * 31 % 100_000)),
        (Field::Material, MATERIALS[pick % 4].to_owned()),
        (Field::CustomerReference, format!("PO {}", at * 13 % 90_000)),
        (
            Field::Notes,
            "wax in the bores, ask before the second clamping".to_owned(),
        ),
        (Field::Quantity, format!("{}", 1 + at % 60)),
    ];
    let unit = Unit::Mm;
    for (field, text) in fields {
        job = apply(&job, &Edit::SetField { field, text, unit })
            .unwrap()
            .0;
    }
    let size = format!("{:.2}", 0.3 + f64::from(at % 40) * 0.07);
    let depth = format!("{}", 2 + at % 90);
    let cells = ["A", &format!("{}", 1 + at % 300), &size, &depth];
    let rows = vec![cells.map(|text| Some(text.to_owned())).to_vec()];
    let at = CellAt {
        row: 0,
        column: Column::Mark,
    };
    apply(&job, &Edit::SetCells { at, rows, unit }).unwrap().0
}

pub(crate) fn key(job: &Job) -> JobKey {
    JobKey::new(&job.number).unwrap()
}

/// What a key in the find line costs: the text understood, and looked for.
pub(crate) fn find(index: &Index, typed: &str) -> usize {
    let calendar = five_days();
    let by = Asking {
        form: quillbore_job::Form::default(),
        today: chrono::NaiveDate::from_ymd_opt(2026, 11, 25).unwrap(),
        calendar: &calendar,
        unit: Unit::Mm,
    };
    let query = Query::read(typed, &by);
    index.find(&query, Sort::default()).len()
}
