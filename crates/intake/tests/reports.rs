//! What became of every line of a table: each is told, whatever stands in it.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use std::sync::Arc;

use proptest::prelude::*;
use quillbore_calc::input::Place;
use quillbore_intake::{Foreign, Holds, Taken};
use quillbore_job::report::{LineOutcome, Report, Source};
use quillbore_job::{Column, Edit, Job, RowsAt, Unit, apply};

/// Cells by tabs, as they are pasted over the table's first column.
fn pasted(text: &str) -> Foreign {
    let cells = |line: &str| line.split('\t').map(str::to_owned).collect();
    let places: Vec<Option<Column>> = Column::ALL.iter().copied().map(Some).collect();
    Foreign::of_rows(&text.lines().map(cells).collect::<Vec<_>>(), &places).expect("a table")
}

fn file(text: &str) -> Foreign {
    Foreign::of_file(text.as_bytes(), "holes.csv").expect("a table")
}

fn leave_out(mut table: Foreign, column: &str) -> Foreign {
    let column = table.column_named(column).expect("there");
    table.say(column, Holds::LeftOut).expect("always possible");
    table
}

fn take(table: &Foreign, job: &Job, at: RowsAt) -> Taken {
    table.take(job, at, Unit::Mm).expect("understood")
}

fn done(job: &Job, taken: &Taken) -> Job {
    apply(job, &taken.edit).expect("an edit").0
}

fn appended(table: &Foreign) -> (Job, Taken) {
    let taken = take(table, &Job::default(), RowsAt::Append);
    (done(&Job::default(), &taken), taken)
}

fn outcomes(report: &Report) -> Vec<(u32, LineOutcome)> {
    let lines = report.lines.iter();
    lines.map(|line| (line.number, line.outcome)).collect()
}

fn kept(taken: &Taken) -> Option<&Arc<Report>> {
    match &taken.edit {
        Edit::SetRows { report, .. } => report.as_ref(),
        _ => None,
    }
}

#[test]
fn every_outcome_a_line_can_have() {
    let table = file(
        "hole;qty;dia;min;max;depth;finish\n\
         A;4;0.8;;;12;\n\
         B;4;0.8;;;12;Ra 1.6\n\
         ;;;;;;see view C\n\
         \n\
         C;4;0.8;0.78;0.82;12;Ra 1.6\n\
         D;4;0.8;;;deep enough;\n",
    );
    let (job, taken) = appended(&leave_out(table, "finish"));
    assert_eq!(
        outcomes(&taken.report),
        [
            (2, LineOutcome::Taken),
            (3, LineOutcome::InPart),
            (4, LineOutcome::LeftOut),
            (6, LineOutcome::Guessed),
            (7, LineOutcome::Unread),
        ]
    );
    let says = |at: usize| taken.report.lines[at].says.as_str();
    assert_eq!(says(0), "taken");
    assert_eq!(says(1), "left out: \u{201c}finish Ra 1.6\u{201d}");
    assert_eq!(says(2), "left out: \u{201c}finish see view C\u{201d}");
    assert!(says(3).starts_with("the limits 0.78 and 0.82 were taken, not the size 0.8"));
    assert!(says(3).ends_with("left out: \u{201c}finish Ra 1.6\u{201d}"));
    assert!(says(4).starts_with("depth \u{201c}deep enough\u{201d}: "));
    // A line that was left out as a whole is no row.
    let marks: Vec<&str> = job.rows.iter().map(|row| row.mark.text()).collect();
    assert_eq!(marks, ["A", "B", "C", "D"]);
    assert_eq!(taken.rows, 4);
}

#[test]
fn the_job_keeps_the_report_in_short() {
    let table = file("hole;qty;dia;depth\nA;36;0.8;14\nB;4;about 1;10\nC;4;0.8;10\n");
    let (job, taken) = appended(&table);
    let [report] = job.reports.as_slice() else {
        panic!("one report: {:?}", job.reports);
    };
    assert_eq!(**report, taken.report.in_short());
    assert_eq!(report.from, Source::named("holes.csv"));
    assert_eq!((report.taken, report.lines.len()), (2, 1));
    assert_eq!(report.lines[0].number, 3);
    assert_eq!(
        report.whole,
        [
            "The first line was taken as the head: hole, qty, dia, depth.",
            "The cells are separated by semicolons.",
            "Lengths without a unit were read in millimeters.",
            "44 holes in 3 rows.",
        ]
    );
}

#[test]
fn a_long_text_that_cannot_be_read_is_in_the_table_and_begun_in_the_report() {
    let long = "deep ".repeat(19_000);
    let (job, taken) = appended(&pasted(&format!("A\t4\t0.8\t{long}")));
    assert_eq!(job.rows[0].depth.text(), long);
    assert_eq!(job.reports[0].count(LineOutcome::Unread), 1);
    assert!(taken.report.lines[0].says.len() < 1_000);
}

#[test]
fn what_holds_for_the_whole_is_told() {
    let whole = |table: &Foreign| appended(table).1.report.whole;
    let has = |table: &Foreign, said: &str| {
        let whole = whole(table);
        assert!(whole.iter().any(|told| told == said), "{said} in {whole:?}");
    };
    has(
        &file("A,4,0.8,12\nB,4,0.9,12\n"),
        "The cells are separated by commas.",
    );
    has(
        &file("hole\tdia\nA\t0.8\n"),
        "The cells are separated by tabs.",
    );
    // A single column has no separator.
    let one = whole(&file("depth\n12\n14\n"));
    assert!(
        !one.iter().any(|told| told.contains("separated by")),
        "{one:?}"
    );
    has(
        &pasted("hole\tdia (in)\tdepth (in)\nA\t.031\t.5"),
        "Lengths without a unit were read in inches.",
    );
    has(
        &pasted("hole\tdia (mm)\tdepth [in]\nA\t0.8\t.5"),
        "Lengths without a unit were read in millimeters, those under \u{201c}depth [in]\u{201d} in inches.",
    );
    has(
        &pasted("hole\tdia\tfinish\tshade\nA\t0.8\t\t"),
        "There is nothing under \u{201c}finish\u{201d}, \u{201c}shade\u{201d}.",
    );
    has(
        &leave_out(pasted("hole\tdia\tfinish\nA\t0.8\tRa 1.6"), "finish"),
        "Left out: column 3 \u{201c}finish\u{201d} (Ra 1.6).",
    );
    let table = Foreign::of_file(b"hole;dia\nA;\xD80.8\n", "holes.csv").expect("a table");
    let said = whole(&table);
    assert!(
        said.iter().any(|told| told.contains("windows-1252")),
        "{said:?}"
    );
}

#[test]
fn cells_pasted_as_they_stand_are_typing_and_make_no_report() {
    let taken = |table: &Foreign| take(table, &Job::default(), RowsAt::Over { row: 0 });
    let plain = taken(&pasted("A\t4\t0.8\t12\n\t\t\t\nB\t4\t0.9\t12"));
    assert_eq!(kept(&plain), None);
    assert_eq!(plain.report.whole, [""; 0]);
    assert_eq!(outcomes(&plain.report).len(), 3);
    for (table, why) in [
        (pasted("hole\tqty\tdia\nA\t4\t0.8"), "a head was taken"),
        (pasted("A\tfour\t0.8"), "a cell can't be read"),
        (
            leave_out(pasted(&format!("A{}x", "\t".repeat(15))), "16"),
            "a column was left out",
        ),
        (file("A;4;0.8\n"), "it came from a file"),
    ] {
        assert!(kept(&taken(&table)).is_some(), "{why}");
    }
}

#[test]
fn blank_lines_at_the_end_are_rows_only_where_they_empty_some() {
    let job = appended(&pasted("A\t4\nB\t4\nC\t4")).0;
    let block = pasted("D\t1\n\t\n\t");
    let over = take(&block, &job, RowsAt::Over { row: 1 });
    assert_eq!(over.rows, 2);
    let after = done(&job, &over);
    let marks: Vec<&str> = after.rows.iter().map(|row| row.mark.text()).collect();
    assert_eq!(marks, ["A", "D", ""]);
    assert_eq!(outcomes(&over.report).len(), 2);
    let below = take(&block, &job, RowsAt::Append);
    assert_eq!(below.rows, 1);
    assert_eq!(outcomes(&below.report), [(1, LineOutcome::Taken)]);
    // What was left out of such a line is told.
    let left = leave_out(pasted("D\t1\n\t".to_owned().as_str()), "2");
    assert_eq!(take(&left, &job, RowsAt::Append).rows, 1);
    let mut told = pasted(&format!("D{}\n{}x", "\t".repeat(15), "\t".repeat(15)));
    told.say(15, Holds::LeftOut).expect("always possible");
    let told = take(&told, &job, RowsAt::Append);
    assert_eq!(
        outcomes(&told.report),
        [(1, LineOutcome::Taken), (2, LineOutcome::LeftOut)]
    );
    assert_eq!(told.rows, 1);
}

#[test]
fn rows_go_below_over_or_in_place_of_the_table() {
    let job = appended(&pasted("A\t4\nB\t4\nC\t4")).0;
    let table = pasted("hole\tdia\nD\t0.8\nE\t0.9");
    let marks = |at| -> Vec<String> {
        let after = done(&job, &take(&table, &job, at));
        let rows = after.rows.iter();
        rows.map(|row| row.mark.text().to_owned()).collect()
    };
    assert_eq!(marks(RowsAt::Append), ["A", "B", "C", "D", "E"]);
    assert_eq!(marks(RowsAt::Replace), ["D", "E"]);
    assert_eq!(marks(RowsAt::Over { row: 1 }), ["A", "D", "E"]);
    assert_eq!(marks(RowsAt::Over { row: 2 }), ["A", "B", "D", "E"]);
    // Rows may have gone while a column was asked about.
    assert_eq!(marks(RowsAt::Over { row: 9 }), ["A", "B", "C", "D", "E"]);
    // Cells that the table says nothing of stay.
    let after = done(&job, &take(&table, &job, RowsAt::Over { row: 1 }));
    assert_eq!(after.rows[1].count.text(), "4");
    assert_eq!(after.rows[1].id, job.rows[1].id);
}

fn points(places: &[Place]) -> Vec<(u32, [f64; 3])> {
    let points = places.iter();
    points.map(|place| (place.number, place.point_mm)).collect()
}

#[test]
fn a_list_of_places_alone_is_one_row_with_all_of_them() {
    for text in [
        "x;y\n10;5\n20;5\n30;5\n",
        "X (mm);Y (mm);Z (mm)\n10;5;0\n20;5;0\n30;5;0\n",
        "x;y;z;i;j;k\n10;5;0;0;0;-1\n20;5;0;0;0;-1\n30;5;0;0;0;-1\n",
        // A column with nothing in it says nothing else.
        "hole;x;y\n;10;5\n;20;5\n;30;5\n",
    ] {
        let (job, taken) = appended(&file(text));
        assert_eq!((job.rows.len(), taken.rows), (1, 1), "{text}");
        let row = &job.rows[0];
        assert_eq!(
            points(&row.places),
            [
                (1, [10.0, 5.0, 0.0]),
                (2, [20.0, 5.0, 0.0]),
                (3, [30.0, 5.0, 0.0])
            ]
        );
        assert_eq!(row.holes(), 3);
        assert!(row.count.is_empty() && row.note.is_empty());
        assert_eq!(taken.report.count(LineOutcome::Taken), 3);
    }
}

#[test]
fn a_line_of_a_list_of_places_that_cannot_be_read_does_not_part_it() {
    let text = "x\ty\n10\t5\nhere\t5\n20\t5\nthere\t5\nthere\t5\n30\t5";
    let (job, taken) = appended(&pasted(text));
    assert_eq!(job.rows.len(), 1);
    assert_eq!(job.rows[0].places.len(), 3);
    assert_eq!(job.rows[0].note.text(), "here; 5; there; 5; there; 5");
    use LineOutcome::{Guessed, Taken};
    let ended: Vec<LineOutcome> = taken.report.lines.iter().map(|line| line.outcome).collect();
    assert_eq!(ended, [Taken, Guessed, Taken, Guessed, Guessed, Taken]);
    assert!(
        taken.report.lines[1]
            .says
            .starts_with("the hole location went into the note: ")
    );
    // Over a row it is the places of that row, whose cells stay as they are.
    let before = appended(&pasted("A\t9\t0.8\t12\nB\t2\t0.9\t14")).0;
    let note = quillbore_job::CellAt {
        row: 0,
        column: Column::Note,
    };
    let note = Edit::SetCells {
        at: note,
        rows: vec![vec![Some("deburr".to_owned())]],
        unit: Unit::Mm,
    };
    let before = apply(&before, &note).expect("an edit").0;
    let over = |text: &str| {
        let taken = take(&pasted(text), &before, RowsAt::Over { row: 0 });
        done(&before, &taken)
    };
    let after = over("x\ty\n10\t5\n20\t5");
    assert_eq!(after.rows[0].places.len(), 2);
    assert_eq!(after.rows[0].size, before.rows[0].size);
    assert_eq!(after.rows[0].note.text(), "deburr");
    assert_eq!(after.rows[1], before.rows[1]);
    let after = over(text);
    assert_eq!(after.rows[0].places.len(), 3);
    assert_eq!(
        after.rows[0].note.text(),
        "deburr; here; 5; there; 5; there; 5"
    );
    assert_eq!(after.rows[1], before.rows[1]);
}

#[test]
fn a_row_without_a_place_is_not_swallowed_by_the_next_with_one() {
    let (job, taken) = appended(&pasted(
        "hole\tdia\tx\ty\nA\t0.8\t\t\nA\t0.8\t10\t5\nA\t0.8\t20\t5",
    ));
    let holes: Vec<u32> = job.rows.iter().map(|row| row.holes()).collect();
    assert_eq!(holes, [1, 2]);
    assert!(job.rows[0].places.is_empty());
    assert_eq!(taken.report.count(LineOutcome::Taken), 3);
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 1_000,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    /// A list of places alone, however long and whatever can't be read of it, is one row.
    #[test]
    fn places_alone_are_one_row(
        points in prop::collection::vec(prop::option::weighted(0.9, (-99..99_i32, -99..99_i32)), 1..40),
    ) {
        let mut text = "x\ty".to_owned();
        for point in &points {
            text += &point.map_or("\nabout\there".to_owned(), |(x, y)| format!("\n{x}\t{y}"));
        }
        let read: Vec<(i32, i32)> = points.iter().copied().flatten().collect();
        let table = pasted(&text);
        let (job, taken) = appended(&table);
        prop_assert_eq!(job.rows.len(), 1);
        prop_assert_eq!(job.rows[0].places.len(), read.len());
        let numbers: Vec<u32> = job.rows[0].places.iter().map(|place| place.number).collect();
        prop_assert!(numbers.iter().copied().eq(1..=read.len() as u32));
        prop_assert_eq!(taken.report.count(LineOutcome::Guessed), points.len() - read.len());
    }
}
