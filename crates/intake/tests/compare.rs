//! A newer file beside the hole table that is there, worked out by hand.
#![expect(
    clippy::expect_used,
    reason = "helpers of tests stop the test as tests do"
)]

use std::fs;
use std::path::PathBuf;

use quillbore_intake::Foreign;
use quillbore_intake::compare::{Became, Comparison, compare};
use quillbore_intake::drawn::{Drawn, Shows};
use quillbore_job::{CellAt, Column, Edit, Job, RowsAt, Unit, apply};

fn taken_of(text: &str, job: &Job) -> quillbore_intake::Taken {
    let table = Foreign::of_file(text.as_bytes(), "holes.csv").expect("a table");
    table
        .take(job, RowsAt::Replace, Unit::Mm)
        .expect("all columns understood")
}

fn job_of(text: &str) -> Job {
    let empty = Job::default();
    done(&empty, &taken_of(text, &empty).edit)
}

fn done(job: &Job, edit: &Edit) -> Job {
    apply(job, edit).expect("an edit").0
}

fn compared(before: &Job, text: &str) -> (Comparison, Job) {
    let comparison = compare(before, &taken_of(text, before)).expect("compared");
    let after = done(before, &comparison.edit);
    (comparison, after)
}

fn said(comparison: &Comparison) -> Vec<(Became, &str)> {
    let lines = comparison.lines.iter();
    lines.map(|line| (line.what, line.says.as_str())).collect()
}

fn texts(job: &Job, column: Column) -> Vec<&str> {
    job.rows.iter().map(|row| row.cell(column).text).collect()
}

const REV_A: &str = "mark;qty;size;depth;note\n\
    A;36;0.80 ±0.02;14;to the plenum\n\
    B;12;1.00;6 thru;\n\
    C;2;0.50;5;\n\
    D;4;0.3;3;\n";

/// A row without locations is not taken for the one that has them while another of its mark has none.
#[test]
fn what_was_done_is_the_same_when_it_is_compared_again() {
    let before = job_of("mark;size\nA;6\nB;2\n");
    let newer = "mark;size;x;y\nA;;1;2\nA;;;\nB;2;;\n";
    let (comparison, after) = compared(&before, newer);
    assert_eq!(said(&comparison), [(Became::Added, "A: 1 hole")]);
    let places = |job: &Job| {
        job.rows
            .iter()
            .map(|row| row.places.len())
            .collect::<Vec<_>>()
    };
    assert_eq!(places(&after), [0, 0, 1]);
    let (again, still) = compared(&after, newer);
    assert_eq!((said(&again), again.same), (vec![], 3));
    assert_eq!(still.rows, after.rows);
}

#[test]
fn what_is_added_gone_and_changed_is_told_and_done_in_one_edit() {
    let before = job_of(REV_A);
    let rev_b = "mark;qty;size;depth;note\n\
        A;36;.80 ±.02;14.0;\n\
        B;10;1.00;6 thru;\n\
        D;4;0.35;3;\n\
        E;1;2;8;\n";
    let (comparison, after) = compared(&before, rev_b);
    assert_eq!(comparison.same, 1);
    assert_eq!(
        said(&comparison),
        [
            (Became::Changed, "B: 12 holes before, 10 now"),
            (Became::Changed, "D: size was 0.3, is 0.35"),
            (Became::Gone, "C: 2 holes of 0.50, 5 deep"),
            (Became::Added, "E: 1 hole of 2, 8 deep"),
        ]
    );
    assert_eq!(texts(&after, Column::Mark), ["A", "B", "D", "E"]);
    assert_eq!(texts(&after, Column::Count), ["36", "10", "4", "1"]);
    // What is the same stays as it was typed, and what the file is silent about stays.
    assert_eq!(after.rows[0].size.text(), "0.80 \u{b1}0.02");
    assert_eq!(after.rows[0].note.text(), "to the plenum");
    // Rows keep who they are, so that answers and overrules stay with them.
    assert_eq!(after.rows[0], before.rows[0]);
    assert_eq!(after.rows[1].id, before.rows[1].id);
    assert_eq!(after.rows[2].id, before.rows[3].id);
    let report = after.reports.last().expect("a report");
    assert!(report.whole.iter().any(|line| line
        == "Compared with the rows that were there: 1 the same, 2 changed, 1 gone, 1 new."));
}

#[test]
fn the_same_again_changes_nothing() {
    let before = job_of(REV_A);
    let (comparison, after) = compared(&before, REV_A);
    assert_eq!((comparison.same, comparison.lines.len()), (4, 0));
    assert_eq!(after.rows, before.rows);
}

#[test]
fn rows_that_were_lettered_anew_are_known_by_what_they_specify() {
    let before = job_of("mark;qty;size;depth\nA;5;0.8;10\nB;7;1.2;10\n");
    // A row came first, and the others moved down a letter.
    let (comparison, after) = compared(
        &before,
        "mark;qty;size;depth\nA;1;3;4\nB;5;0.8;10\nC;7;1.2;10\n",
    );
    assert_eq!(
        said(&comparison),
        [
            (Became::Changed, "A: mark was A, is B"),
            (Became::Changed, "B: mark was B, is C"),
            (Became::Added, "A: 1 hole of 3, 4 deep"),
        ]
    );
    assert_eq!(texts(&after, Column::Mark), ["B", "C", "A"]);
    assert_eq!(texts(&after, Column::Size), ["0.8", "1.2", "3"]);
}

#[test]
fn rows_without_marks_that_changed_places_are_the_same() {
    let before = job_of("qty;size;depth;note\n3;0.8;10;\n2;0.8;10;\n");
    let (comparison, after) = compared(&before, "qty;size;depth;note\n2;0.8;10;\n3;0.8;10;\n");
    assert_eq!(said(&comparison), []);
    assert_eq!(after.rows, before.rows);
}

#[test]
fn rows_without_a_size_are_known_by_what_else_they_say() {
    let text = "mark;qty;size;depth;note\n;1;;12;wax behind\n;1;see sheet 2;9;\n;1;;8;\n";
    let before = job_of(text);
    let (comparison, after) = compared(&before, text);
    assert_eq!(said(&comparison), []);
    assert_eq!(after.rows, before.rows);
    let newer = text.replace("see sheet 2;9", "see sheet 2;10");
    assert_eq!(
        said(&compared(&before, &newer).0),
        [(Became::Changed, "a row without a mark: depth was 9, is 10")]
    );
}

#[test]
fn rows_that_come_without_a_size_keep_the_unit_of_their_file() {
    let before = job_of("mark;qty;size;depth\nA;1;0.8;10\n");
    let newer = "mark;qty;size (in);depth (in)\nB;1;;0.5\n";
    let (_, after) = compared(&before, newer);
    let depth = after.rows[0].cell(Column::Depth);
    assert_eq!((depth.text, depth.unit), ("0.5", Some(Unit::Inch)));
    assert_eq!(compared(&after, newer).0.same, 1);
}

#[test]
fn a_hundred_rows_alike_are_the_same_behind_fifty_that_came() {
    let head = "qty;size;depth\n";
    let there = "1;0.8;10\n".repeat(100);
    let before = job_of(&format!("{head}{there}"));
    let came = "1;3;4\n".repeat(50);
    let (comparison, _) = compared(&before, &format!("{head}{came}{there}"));
    assert_eq!(comparison.same, 100);
    assert_eq!(comparison.count(Became::Added), 50);
    assert_eq!(comparison.lines.len(), 50);
}

#[test]
fn locations_that_come_along_are_no_change_and_moved_ones_are() {
    let before = job_of("mark;qty;size;depth\nA;2;0.8;10\n");
    let with = "mark;size;depth;x;y\nA;0.8;10;1;2\nA;0.8;10;3;4\n";
    let (comparison, placed) = compared(&before, with);
    assert_eq!((comparison.same, comparison.lines.len()), (1, 0));
    assert_eq!(placed.rows[0].places.len(), 2);
    let moved = "mark;size;depth;x;y\nA;0.8;10;1;2\nA;0.8;10;3;4.5\n";
    let (comparison, after) = compared(&placed, moved);
    assert_eq!(
        said(&comparison),
        [(Became::Changed, "A: 1 location new, 1 gone")]
    );
    assert_eq!(after.rows[0].places[1].point_mm, [3.0, 4.5, 0.0]);
    // Half a hundredth of a millimeter is how a drawing is rounded.
    let near = "mark;size;depth;x;y\nA;0.8;10;1.004;2\nA;0.8;10;3;3.996\n";
    assert_eq!(compared(&placed, near).0.same, 1);
}

#[test]
fn a_number_of_holes_without_locations_takes_those_away_that_were_there() {
    let before = job_of("mark;size;depth;x;y\nA;0.8;10;1;2\nA;0.8;10;3;4\n");
    let (comparison, after) = compared(&before, "mark;qty;size;depth\nA;3;0.8;10\n");
    assert_eq!(
        said(&comparison),
        [(
            Became::Changed,
            "A: 2 holes before, 3 now; 2 locations gone"
        )]
    );
    assert_eq!(after.rows[0].holes(), 3);
    // The same number says nothing of where they are.
    let (comparison, after) = compared(&before, "mark;qty;size;depth\nA;2;0.8;10\n");
    assert_eq!((comparison.same, after.rows[0].places.len()), (1, 2));
}

#[test]
fn a_text_that_cant_be_read_is_compared_as_text() {
    let before = job_of("mark;qty;size;depth\nA;1;0.8;as deep as it goes\n");
    assert_eq!(
        compared(&before, "mark;qty;size;depth\nA;1;0.8;as deep as it goes\n")
            .0
            .same,
        1
    );
    let (comparison, _) = compared(&before, "mark;qty;size;depth\nA;1;0.8;12\n");
    assert_eq!(
        said(&comparison),
        [(Became::Changed, "A: depth was as deep as it goes, is 12")]
    );
}

#[test]
fn a_thousand_rows_of_one_size_are_told_apart_by_their_order() {
    let row = |n: usize| format!("H{n};1;0.8;10\n");
    let text: String = (1..=1_000).map(row).collect();
    let head = "mark;qty;size;depth\n";
    let before = job_of(&format!("{head}{text}"));
    assert_eq!(compared(&before, &format!("{head}{text}")).0.same, 1_000);
    // One in the middle is gone.
    let text: String = (1..=1_000).filter(|n| *n != 500).map(row).collect();
    let (comparison, after) = compared(&before, &format!("{head}{text}"));
    assert_eq!(
        said(&comparison),
        [(Became::Gone, "H500: 1 hole of 0.8, 10 deep")]
    );
    assert_eq!(after.rows.len(), 999);
}

fn solid() -> Drawn {
    let path =
        PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../tests/step-corpus/assembly-214.step");
    let bytes = fs::read(path).expect("the solid");
    Drawn::read(Shows::Solid, &bytes, "plate.step", &|_| false).expect("holes")
}

#[test]
fn limits_and_marks_that_somebody_typed_stay_when_the_solid_is_read_again() {
    let solid = solid();
    let empty = Job::default();
    let mut job = done(
        &empty,
        &solid.take(&empty, RowsAt::Replace).expect("rows").edit,
    );
    let first = job.rows[0].size.text().to_owned();
    for (column, text) in [
        (Column::Size, format!("{first} +0.003/-0.001")),
        (Column::Mark, "P7".to_owned()),
    ] {
        let edit = Edit::SetCells {
            at: CellAt { row: 0, column },
            rows: vec![vec![Some(text)]],
            unit: solid.unit().expect("a unit"),
        };
        job = done(&job, &edit);
    }
    let comparison =
        compare(&job, &solid.take(&job, RowsAt::Replace).expect("rows")).expect("compared");
    assert_eq!(said(&comparison), []);
    assert_eq!(comparison.same, job.rows.len());
    assert_eq!(done(&job, &comparison.edit).rows, job.rows);
}

#[test]
fn of_a_solid_from_which_a_hole_is_left_out_the_locations_tell() {
    let mut solid = solid();
    let empty = Job::default();
    let job = done(
        &empty,
        &solid.take(&empty, RowsAt::Replace).expect("rows").edit,
    );
    let kinds: Vec<(usize, usize)> = solid
        .kinds()
        .map(|kind| (kind.holes[0], kind.holes.len()))
        .collect();
    let (hole, count) = *kinds
        .iter()
        .find(|(_, count)| *count > 1)
        .expect("a kind of several holes");
    solid.choose(hole, false);
    let comparison =
        compare(&job, &solid.take(&job, RowsAt::Replace).expect("rows")).expect("compared");
    let mark = job
        .rows
        .iter()
        .find(|row| row.places.len() == count)
        .map(|row| row.mark.text().to_owned());
    assert_eq!(
        comparison
            .lines
            .iter()
            .map(|line| line.says.clone())
            .collect::<Vec<_>>(),
        [format!(
            "{}: {count} holes before, {} now; 1 location gone",
            mark.unwrap_or_default(),
            count - 1
        )]
    );
}

/// A number that is the same on paper and another in millimeters.
#[test]
fn a_row_that_differs_by_its_unit_says_so() {
    let before = done(&Job::default(), &{
        let table = Foreign::of_file(b"mark;size;depth\nA;.04;1\nB;.04;12 mm\n", "holes.csv");
        let taken = table
            .expect("a table")
            .take(&Job::default(), RowsAt::Replace, Unit::Inch);
        taken.expect("understood").edit
    });
    let (comparison, _) = compared(&before, "mark;size;depth\nA;1.016;1\nB;1.016;13\n");
    assert_eq!(
        said(&comparison),
        [
            (Became::Changed, "A: depth was 1 in, is 1 mm"),
            (Became::Changed, "B: depth was 12 mm, is 13"),
        ]
    );
}
