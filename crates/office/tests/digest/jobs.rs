//! Jobs for the tests, and shelves to put them on.

use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::file::{hash, write_job};
use quillbore_job::{
    CellAt, Column, Edit, Field, Form, Issued, IssuedLine, Job, Line, Paper, SlipKind, Unit, apply,
};
use quillbore_office::digest::{Asking, Follower, Index, Looked, Query, ShelfLine, Sort};
use quillbore_office::names::JobKey;
use quillbore_office::shelf::{Commit, Doc, Mark, Memory, Shelf};
use quillbore_office::week::five_days;

pub(crate) fn day(text: &str) -> NaiveDate {
    text.parse().expect("a day")
}

pub(crate) fn key(name: &str) -> JobKey {
    JobKey::new(name).expect("a name")
}

fn edited(job: &Job, edit: &Edit) -> Job {
    apply(job, edit).expect("an edit").0
}

pub(crate) fn job(number: &str, fields: &[(Field, &str)]) -> Job {
    let mut job = Job {
        number: number.to_owned(),
        ..Job::default()
    };
    for (field, text) in fields {
        job = edited(
            &job,
            &Edit::SetField {
                field: *field,
                text: (*text).to_owned(),
                unit: Unit::Mm,
            },
        );
    }
    job
}

pub(crate) fn with_hole(job: &Job, size: &str, depth: &str) -> Job {
    let texts = ["A", "36", size, depth].map(|text| Some(text.to_owned()));
    let at = CellAt {
        row: 0,
        column: Column::Mark,
    };
    let rows = vec![texts.to_vec()];
    let unit = Unit::Mm;
    edited(job, &Edit::SetCells { at, rows, unit })
}

pub(crate) fn with_slip(job: &Job, kind: SlipKind, lines: &[(Line, &str)]) -> Job {
    let lines = lines.iter();
    let lines = lines
        .map(|(line, text)| (*line, (*text).to_owned()))
        .collect();
    let unit = Unit::Mm;
    edited(job, &Edit::AddSlip { kind, lines, unit })
}

/// The job with a quotation that has lines of these jobs.
pub(crate) fn with_quotation(
    job: &Job,
    number: &str,
    kept_by: Option<&str>,
    of_jobs: &[&str],
) -> Job {
    let line = |of: &&str| IssuedLine {
        job: (*of).to_owned(),
        part: String::new(),
        revision: String::new(),
        quantity: 25,
        each: None,
    };
    let mut job = job.clone();
    job.issued.push(Arc::new(Issued {
        number: number.to_owned(),
        paper: Paper::Quotation,
        date: day("2026-11-20"),
        valid_until: None,
        file: format!("{number}.pdf"),
        kept_by: kept_by.map(str::to_owned),
        hash: hash(b""),
        lines: of_jobs.iter().map(line).collect(),
        rests_on: Vec::new(),
        pages: Vec::new(),
        currency: None,
        replaces: Vec::new(),
        inputs: None,
        seal: None,
    }));
    job
}

/// The job with a traveler for so many parts, in which its sheet is frozen.
pub(crate) fn with_traveler(job: &Job, parts: u32) -> Job {
    let number = format!("{}-T1", job.number);
    let mut job = with_quotation(job, &number, None, &[&job.number]);
    let mut entry = job.issued.pop().expect("an entry").as_ref().clone();
    entry.paper = Paper::Traveler;
    entry.lines[0].quantity = parts;
    entry.inputs = Some(Arc::new(job.inputs()));
    job.issued.push(Arc::new(entry.sealed()));
    job
}

pub(crate) fn line(job: &Job) -> Arc<ShelfLine> {
    Arc::new(ShelfLine::of(&key(&job.number), job))
}

pub(crate) fn shelf(digit: u8) -> Memory {
    Memory::marked(Mark::of([digit; 16]))
}

/// Puts any content in a job's place, as another desk does.
pub(crate) fn put_bytes(shelf: &dyn Shelf, name: &str, bytes: &[u8]) {
    let doc = Doc::Job(key(name));
    let there = shelf.read(&doc).expect("a shelf");
    let expected = there.map(|stored| stored.version);
    let commit = Commit::one(doc, bytes.to_vec(), expected);
    shelf.commit(&commit).expect("a commit");
}

pub(crate) fn put(shelf: &dyn Shelf, job: &Job) {
    put_bytes(shelf, &job.number, write_job(job).as_bytes());
}

/// One whole look.
pub(crate) fn look(follower: &mut Follower, shelf: &dyn Shelf) -> Looked {
    follower.look(shelf, &mut |_| true).expect("a shelf")
}

/// The names of lines, as they stand.
pub(crate) fn names(lines: &[Arc<ShelfLine>]) -> Vec<&str> {
    lines.iter().map(|line| line.name.as_str()).collect()
}

/// How a text is understood on Wednesday 25 November 2026, in millimeters, by a plain calendar.
pub(crate) fn asked(typed: &str) -> Query {
    let calendar = five_days();
    let by = Asking {
        today: day("2026-11-25"),
        calendar: &calendar,
        unit: Unit::Mm,
        form: Form::default(),
    };
    Query::read(typed, &by)
}

/// What a text finds, the newest number first.
pub(crate) fn find(index: &Index, typed: &str) -> Vec<u32> {
    index.find(&asked(typed), Sort::default())
}
