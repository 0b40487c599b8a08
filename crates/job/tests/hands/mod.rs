//! What the tests do to jobs: typing, pinning slips, issuing papers.
#![allow(
    dead_code,
    unreachable_pub,
    reason = "each test file uses another part of it"
)]
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::file::hash;
use quillbore_job::merge::{Merged, merge};
use quillbore_job::{
    CellAt, Column, Edit, Field, Issued, IssuedLine, Job, Line, Paper, SlipKind, Unit, apply,
};

pub fn day(month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, month, day).expect("a day")
}

pub fn done(job: &Job, edit: &Edit) -> Job {
    apply(job, edit).expect("the edit is done").0
}

pub fn field(job: &Job, field: Field, text: &str) -> Job {
    let edit = Edit::SetField {
        field,
        text: text.to_owned(),
        unit: Unit::Mm,
    };
    done(job, &edit)
}

pub fn pin(job: &Job, kind: SlipKind, lines: &[(Line, &str)]) -> Job {
    let lines = lines.iter().map(|(line, text)| (*line, (*text).to_owned()));
    let edit = Edit::AddSlip {
        kind,
        lines: lines.collect(),
        unit: Unit::Mm,
    };
    done(job, &edit)
}

pub fn cells(job: &Job, row: usize, texts: &[&str]) -> Job {
    let texts = texts.iter().map(|text| Some((*text).to_owned()));
    let edit = Edit::SetCells {
        at: CellAt {
            row,
            column: Column::Mark,
        },
        rows: vec![texts.collect()],
        unit: Unit::Mm,
    };
    done(job, &edit)
}

pub fn ring() -> Job {
    let mut job = cells(
        &Job::default(),
        0,
        &["A", "36", "0.80 +-0.05", "14", "through"],
    );
    job.number = "26-0107".to_owned();
    for (name, text) in [
        (Field::Customer, "Alder Finch Rotors"),
        (Field::Part, "4-118"),
        (Field::Revision, "C"),
        (Field::DrawingRevision, "2"),
        (Field::Quantity, "25"),
    ] {
        job = field(&job, name, text);
    }
    job
}

pub fn issue(job: &Job, paper: Paper, lines: &[(u32, &str)]) -> Job {
    issue_in(job, paper, lines, None)
}

/// Issues a paper whose prices are in a currency; papers of earlier versions don't say it.
pub fn issue_in(job: &Job, paper: Paper, lines: &[(u32, &str)], currency: Option<&str>) -> Job {
    let mut job = job.clone();
    let number = job.next_paper_number(paper);
    let line = |(quantity, each): &(u32, &str)| IssuedLine {
        job: job.number.clone(),
        part: "4-118".to_owned(),
        revision: "C".to_owned(),
        quantity: *quantity,
        each: each.parse().ok(),
    };
    let issued = Issued {
        file: format!("{number}.pdf"),
        paper,
        date: day(3, 2),
        valid_until: Some(day(4, 1)),
        kept_by: None,
        hash: hash(number.as_bytes()),
        lines: lines.iter().map(line).collect(),
        currency: currency.map(str::to_owned),
        rests_on: vec![("labor per hour".to_owned(), 45.5)],
        pages: vec!["Quotation\n26-0107".to_owned()],
        replaces: job.to_replace(paper),
        inputs: Some(Arc::new(job.inputs())),
        seal: None,
        number,
    };
    job.issued.push(Arc::new(issued.sealed()));
    job
}

/// Types into a line of a slip.
pub fn line(job: &Job, slip: u32, line: Line, text: &str) -> Job {
    let edit = Edit::SetLine {
        slip,
        line,
        text: text.to_owned(),
        unit: Unit::Mm,
    };
    done(job, &edit)
}

/// Two desks' work put together.
pub fn put_together(base: &Job, ours: &Job, theirs: &Job) -> Merged {
    merge(base, ours, theirs).expect("one job holds both")
}
