//! Odd hole tables as customers send them, each with what a person makes of it, worked out by hand.
//!
//! A case is a file of `odd`: how it comes, the table, for each column what it holds and how that is
//! known, the summary, and the rows. Common practice, no source.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of the tests stand outside the test functions"
)]

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use quillbore_intake::delimited::block;
use quillbore_intake::{Foreign, Holds, How, words};
use quillbore_job::words::english;
use quillbore_job::{Column, Job, RowsAt, Unit, apply};

#[test]
fn odd_tables_are_what_a_person_makes_of_them() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/odd");
    let mut cases: Vec<_> = fs::read_dir(folder)
        .expect("a folder")
        .map(|entry| entry.expect("a case").path())
        .collect();
    cases.sort();
    assert!(cases.len() >= 40, "{}", cases.len());
    for case in cases {
        let text = fs::read_to_string(&case).expect("a case");
        let (comes, rest) = text.split_once("\n== table\n").expect("how it comes");
        let (table, truth) = rest.split_once("== columns\n").expect("a table");
        let found = found(comes, table);
        assert_eq!(found, truth, "{}", case.display());
    }
}

/// What the program makes of a table, in the form of the cases.
fn found(comes: &str, table: &str) -> String {
    let mut foreign = read(comes, table);
    let mut found = String::new();
    for column in foreign.columns() {
        let how = match column.how {
            How::Head => "head",
            How::Place => "place",
            How::Guess(_) => "guess",
            How::Memory => "memory",
            How::Said => "said",
            How::NotUnderstood => "asked",
        };
        let holds = column.holds.map_or("?", words::holds);
        let head = &column.about.head;
        writeln!(found, "{head} = {holds} ({how})").expect("written");
    }
    found += "== summary\n";
    found += &words::summary(&foreign.summary(Unit::Mm));
    found += "\n== rows\n";
    for question in foreign.questions() {
        let left = foreign.say(question.column, Holds::LeftOut);
        left.expect("always possible");
    }
    let taken = foreign.take(&Job::default(), RowsAt::Append, Unit::Mm);
    let taken = taken.expect("understood");
    let (job, _) = apply(&Job::default(), &taken.edit).expect("an edit");
    for row in &job.rows {
        let filled = Column::ALL.iter().filter_map(|column| {
            let look = row.cell(*column);
            let unread = if look.why.is_some() { " (unread)" } else { "" };
            let head = english::column(*column).head;
            (!look.text.is_empty()).then(|| format!("{head} {}{unread}", look.text))
        });
        let places = row.places.iter().map(|place| {
            let [x, y, z] = place.point_mm;
            format!("at {x} {y} {z}")
        });
        let cells: Vec<String> = filled.chain(places).collect();
        writeln!(found, "{}", cells.join(" | ")).expect("written");
    }
    found
}

fn read(comes: &str, table: &str) -> Foreign {
    let all: Vec<Option<Column>> = Column::ALL.iter().copied().map(Some).collect();
    let foreign = match comes {
        "a file" => Foreign::of_file(table.as_bytes(), "holes.csv"),
        "pasted at the mark" => Foreign::of_rows(&block(table), &all),
        "pasted at the count" => Foreign::of_rows(&block(table), &all[1..]),
        "pasted at the size" => Foreign::of_rows(&block(table), &all[2..]),
        other => panic!("{other}"),
    };
    foreign.expect("a table")
}
