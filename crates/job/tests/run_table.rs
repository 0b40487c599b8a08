//! The run records as a table: a block into several lines at once, a line for each mark, a block out of
//! a spreadsheet, and what the steps are called.

#![expect(clippy::expect_used, reason = "helpers of tests fail by panic")]

mod hands;

use hands::{cells, day, done, field, pin, ring};
use quillbore_job::history::{Doing, History};
use quillbore_job::limits::MOST_SLIPS;
use quillbore_job::pasted_runs::pasted;
use quillbore_job::run_lines::runs_of_marks;
use quillbore_job::slip::{LineOf, RUN_COLUMNS, kind, line};
use quillbore_job::words::edits::label;
use quillbore_job::{Edit, EditRefused, Field, Form, Job, Line, Row, RunAt, SlipKind, Unit, apply};

fn at(row: usize, line: Line) -> RunAt {
    RunAt { row, line }
}

fn block(rows: &[&[&str]]) -> Vec<Vec<String>> {
    let row = |cells: &&[&str]| cells.iter().map(|text| (*text).to_owned()).collect();
    rows.iter().map(row).collect()
}

fn set(at: RunAt, rows: &[&[&str]]) -> Edit {
    let whole = |cells: Vec<String>| cells.into_iter().map(Some).collect();
    Edit::SetRuns {
        at,
        rows: block(rows).into_iter().map(whole).collect(),
        unit: Unit::Mm,
    }
}

/// What stands in some lines of every run record.
fn runs<const N: usize>(job: &Job, lines: [Line; N]) -> Vec<[String; N]> {
    let runs = job.slips_of::<kind::Run>();
    runs.map(|run| lines.map(|line| run.slip().line(line).text().to_owned()))
        .collect()
}

fn refused(job: &Job, edit: &Edit) -> EditRefused {
    apply(job, edit).expect_err("refused")
}

#[test]
fn every_line_of_a_record_that_is_short_has_a_column_once() {
    let mut seen: Vec<Line> = RUN_COLUMNS.iter().map(LineOf::line).collect();
    seen.sort_unstable();
    seen.dedup();
    assert_eq!(seen.len(), RUN_COLUMNS.len());
    let of_runs = SlipKind::Run.lines();
    assert!(seen.iter().all(|line| of_runs.contains(line)));
    let alone: Vec<Line> = of_runs
        .iter()
        .copied()
        .filter(|line| !seen.contains(line))
        .collect();
    let long = [
        Line::Electrodes,
        Line::Trouble,
        Line::Settings,
        Line::NextTime,
        Line::LeftOut,
    ];
    assert_eq!(alone, long);
}

#[test]
fn a_block_goes_over_several_records_and_adds_those_that_are_not_there() {
    let job = pin(&ring(), SlipKind::Call, &[(Line::Who, "Moss")]);
    let job = pin(&job, SlipKind::Run, &[(Line::Mark, "A"), (Line::Good, "3")]);
    let job = pin(&job, SlipKind::Delivery, &[(Line::Count, "2")]);
    let edit = set(
        at(0, Line::Mark),
        &[&["B", "12"], &["C", "x"], &["D", ""], &["", ""]],
    );
    let (after, change) = apply(&job, &edit).expect("the edit is done");
    assert_eq!(
        runs(&after, [Line::Mark, Line::Holes, Line::Good]),
        [["B", "12", "3"], ["C", "x", ""], ["D", "", ""]]
    );
    assert_eq!((change.read, change.unread, change.other), (4, 1, true));
    // Other slips stay as they were, each with its identity; a blank last line is no record.
    assert_eq!(after.slips[0], job.slips[0]);
    assert_eq!(after.slips[2], job.slips[2]);
    let ids: Vec<u32> = after.slips.iter().map(|slip| slip.id).collect();
    assert_eq!(ids, [0, 1, 2, 3, 4]);
    assert_eq!(after.next_slip, 5);
    // The same block again changes nothing.
    assert!(apply(&after, &edit).expect("done").1.is_nothing());
    // A cell left out stays, an empty text empties.
    let some = Edit::SetRuns {
        at: at(1, Line::Mark),
        rows: vec![vec![None, Some(String::new())]],
        unit: Unit::Mm,
    };
    let emptied = done(&after, &some);
    assert_eq!(runs(&emptied, [Line::Mark, Line::Holes])[1], ["C", ""]);
}

#[test]
fn a_block_that_has_no_room_is_refused_and_nothing_is_lost() {
    let job = pin(&ring(), SlipKind::Run, &[(Line::Mark, "A")]);
    let below = refused(&job, &set(at(2, Line::Mark), &[&["B"]]));
    assert_eq!(below, EditRefused::BelowTheTable { row: 2, rows: 1 });
    let wide = refused(&job, &set(at(0, Line::Pins), &[&["0.80", "Moss", "x"]]));
    let expected = EditRefused::PastLastLine {
        from: Line::Pins,
        columns: 3,
        room: 2,
    };
    assert_eq!(wide, expected);
    assert_eq!(
        wide.to_string(),
        "The block has 3 columns, but from \u{201c}sizes by pin\u{201d} on the run records have only 2"
    );
    assert!(!wide.hint().is_empty());
    // Empty cells past the last column lose nothing.
    done(&job, &set(at(0, Line::Pins), &[&["0.80", "Moss", "", " "]]));
    let elsewhere = refused(&job, &set(at(0, Line::Trouble), &[&["B"]]));
    assert_eq!(
        elsewhere,
        EditRefused::NoSuchLine {
            line: Line::Trouble
        }
    );
    let long = "x".repeat(100_001);
    assert!(matches!(
        refused(&job, &set(at(0, Line::Mark), &[&[&long]])),
        EditRefused::TextTooLong { .. }
    ));
}

#[test]
fn ten_thousand_records_are_one_step_and_no_more_are_taken() {
    let many: Vec<Vec<Option<String>>> = (0..MOST_SLIPS)
        .map(|row| vec![Some(format!("H{row}")), Some("3".to_owned())])
        .collect();
    let edit = |rows| Edit::SetRuns {
        at: at(0, Line::Mark),
        rows,
        unit: Unit::Mm,
    };
    let job = done(&ring(), &edit(many.clone()));
    assert_eq!(job.slips.len(), MOST_SLIPS);
    let again = done(&job, &edit(many.clone()));
    assert_eq!(again.slips, job.slips);
    let mut more = many;
    more.push(vec![Some("one more".to_owned())]);
    assert_eq!(
        refused(&ring(), &edit(more)),
        EditRefused::TooManySlips { most: MOST_SLIPS }
    );
}

#[test]
fn a_step_is_named_by_what_it_does_and_taken_back_at_once() {
    let empty = ring();
    let one = pin(&empty, SlipKind::Run, &[(Line::Mark, "A")]);
    let named = |job: &Job, edit: Edit| label(job, &edit);
    assert_eq!(
        named(&one, set(at(0, Line::Holes), &[&["12"]])),
        "type holes of run record"
    );
    assert_eq!(
        named(&one, set(at(0, Line::Holes), &[&[""]])),
        "clear holes of run record"
    );
    let two = pin(&one, SlipKind::Run, &[]);
    assert_eq!(
        named(
            &two,
            set(at(0, Line::Date), &[&["2026-05-04"], &["2026-05-04"]])
        ),
        "fill date of 2 run records"
    );
    assert_eq!(
        named(&two, set(at(0, Line::Mark), &[&["", ""], &["", ""]])),
        "clear 4 cells"
    );
    let pasted_over = set(at(1, Line::Mark), &[&["B", "1"], &["C", "2"]]);
    assert_eq!(named(&two, pasted_over.clone()), "paste 2 run records");
    let below = set(at(2, Line::Mark), &[&["B", "1"], &["C", "2"]]);
    assert_eq!(named(&two, below), "add 2 run records");
    let out = |slips: &[u32]| {
        let edits = slips.iter().map(|slip| Edit::RemoveSlip { slip: *slip });
        Edit::together(edits.collect()).expect("some")
    };
    assert_eq!(named(&two, out(&[0, 1])), "delete 2 run records");
    assert_eq!(named(&two, out(&[1])), "delete run record");

    let mut history = History::new(two.clone(), true);
    let doing = Doing {
        gesture: None,
        before: (),
        after: (),
    };
    history.do_edit(&pasted_over, doing).expect("done");
    assert_eq!(history.now().slips.len(), 3);
    history.undo();
    assert_eq!(history.now().slips, two.slips);
}

fn no_tube(_: &Row) -> Option<String> {
    None
}

#[test]
fn every_mark_without_a_record_gets_a_line_with_what_is_known() {
    // Marks A, B, b (the same), none, C; A has a record already.
    let mut job = ring();
    for (row, mark, count) in [(1, "B", "4"), (2, "b", "2"), (3, "", "7"), (4, "C", "x")] {
        job = cells(&job, row, &[mark, count, "1.0", "20"]);
    }
    let job = pin(&job, SlipKind::Run, &[(Line::Mark, " a ")]);
    let tube = |row: &Row| (row.mark.text() == "B").then(|| "brass 0.90 x 300".to_owned());
    let edit =
        runs_of_marks(&job, day(5, 4), Form::PLAIN, "Moss", tube).expect("marks without a record");
    assert_eq!(label(&job, &edit), "add 2 run records");
    let lines = [
        Line::Date,
        Line::By,
        Line::Mark,
        Line::Holes,
        Line::TubeUsed,
    ];
    let after = done(&job, &edit);
    // 4 and 2 holes in each of 25 parts; a count that can't be read multiplies to nothing.
    assert_eq!(
        runs(&after, lines)[1..],
        [
            ["2026-05-04", "Moss", "B", "150", "brass 0.90 x 300"],
            ["2026-05-04", "Moss", "C", "", ""]
        ]
    );
    assert_eq!(
        runs_of_marks(&after, day(5, 4), Form::PLAIN, "Moss", tube),
        None
    );

    // Parts that are here count before those asked for; nobody at the desk is nobody's name.
    let here = pin(&job, SlipKind::Received, &[(Line::Count, "10")]);
    let edit = runs_of_marks(&here, day(5, 4), Form::PLAIN, "", no_tube).expect("lines");
    let after = done(&here, &edit);
    assert_eq!(runs(&after, lines)[1], ["2026-05-04", "", "B", "60", ""]);

    let no_parts = field(&job, Field::Quantity, "");
    let edit = runs_of_marks(&no_parts, day(5, 4), Form::PLAIN, "", no_tube).expect("lines");
    assert_eq!(runs(&done(&no_parts, &edit), lines)[1][3], "");
    assert_eq!(
        runs_of_marks(&Job::default(), day(5, 4), Form::PLAIN, "", no_tube),
        None
    );
}

#[test]
fn a_block_with_heads_goes_where_its_heads_say() {
    let rows = block(&[
        &[
            "Mark",
            "Sparking by the counter (min)",
            "Tube after, mm",
            "",
            "or by the clock",
        ],
        &["A", "96", "212", "left out", ""],
        &["B", "40.5", "250", "left out", "60"],
    ]);
    let job = done(&ring(), &pasted(at(0, Line::Serials), rows, Unit::Mm));
    let lines = [
        Line::Mark,
        Line::SparkMinutes,
        Line::TubeAfter,
        Line::FloorMinutes,
        Line::Serials,
    ];
    assert_eq!(
        runs(&job, lines),
        [["A", "96", "212", "", ""], ["B", "40.5", "250", "60", ""]]
    );
    // Without heads the block lies as it was pasted, from its cell on.
    let rows = block(&[&["A", "12"], &["B", "6"]]);
    let job = done(&ring(), &pasted(at(0, Line::Mark), rows, Unit::Mm));
    assert_eq!(
        runs(&job, [Line::Mark, Line::Holes]),
        [["A", "12"], ["B", "6"]]
    );
    // One word, one word twice, or one that is no head is no line of heads.
    for first in [&["mark", ""][..], &["mark", "Mark"], &["mark", "remark"]] {
        let rows = block(&[first, &["B", "6"]]);
        let job = done(&ring(), &pasted(at(0, Line::Mark), rows, Unit::Mm));
        assert_eq!(runs(&job, [Line::Mark])[0][0], first[0], "{first:?}");
    }
    // All heads of the table, as it is copied.
    let heads: Vec<String> = RUN_COLUMNS
        .iter()
        .map(|column| quillbore_job::words::runs::head(column.line(), Unit::Mm).name())
        .collect();
    let texts: Vec<String> = (0..RUN_COLUMNS.len()).map(|at| at.to_string()).collect();
    let job = done(
        &ring(),
        &pasted(at(0, Line::Date), vec![heads, texts], Unit::Mm),
    );
    let run = job.slips_of::<kind::Run>().next().expect("a record");
    assert_eq!((run.get(line::By), run.text(line::Date)), ("17", "0"));
}

#[test]
fn a_tube_may_be_used_up_and_nothing_dressed_off() {
    let job = done(
        &ring(),
        &set(at(0, Line::TubeBefore), &[&["0", "0", "0", "0"]]),
    );
    let run = job.slips_of::<kind::Run>().next().expect("a record");
    let unread = |line: Line| run.slip().line(line).why().is_some();
    assert!(unread(Line::TubeBefore) && unread(Line::DepthReached));
    assert!(!unread(Line::TubeAfter) && !unread(Line::Dressed));
    if let Some(read) = run.get(line::Dressed) {
        assert!(read.mm().abs() < f64::EPSILON);
    } else {
        panic!("nothing is a length too");
    }
}
