//! The rows of a table from elsewhere go into the hole table as one step, or not at all.
#![expect(clippy::panic, reason = "a helper of tests fails by panic")]

use std::sync::Arc;

use quillbore_calc::RowId;
use quillbore_calc::input::Place;
use quillbore_job::answer::{Answer, How};
use quillbore_job::concern::{Concern, Facts};
use quillbore_job::history::{Doing, History};
use quillbore_job::job::FigureKey;
use quillbore_job::limits::{LONGEST_TEXT, MOST_PLACES, MOST_ROWS};
use quillbore_job::report::{LineOutcome, MOST_REPORTS, MOST_TOLD, Report, ReportLine, Source};
use quillbore_job::words::edits::label;
use quillbore_job::{Change, Column, Edit, EditRefused, Job, RowsAt, Unit, apply};

#[track_caller]
fn done(job: &Job, edit: &Edit) -> (Job, Change) {
    apply(job, edit).unwrap_or_else(|why| panic!("{why}"))
}

#[track_caller]
fn refused(job: &Job, edit: &Edit) -> EditRefused {
    let Err(why) = apply(job, edit) else {
        panic!("it was done");
    };
    assert!(!why.to_string().ends_with('.') && why.hint().ends_with('.'));
    why
}

fn cells(rows: &[&[&str]]) -> Vec<Vec<Option<String>>> {
    let row = |cells: &&[&str]| cells.iter().map(|text| Some((*text).to_owned())).collect();
    rows.iter().map(row).collect()
}

fn place(number: u32, x: f64) -> Place {
    Place {
        number,
        point_mm: [x, 0.0, 0.0],
        axis: [0.0, 0.0, -1.0],
    }
}

fn report() -> Report {
    Report {
        from: Source::Pasted,
        whole: vec!["The first line was taken as the head: hole.".to_owned()],
        taken: 2,
        lines: vec![ReportLine {
            number: 4,
            outcome: LineOutcome::Guessed,
            says: "the size was left for its limits".to_owned(),
        }],
        outline: Vec::new(),
    }
}

fn rows(at: RowsAt, cells: Vec<Vec<Option<String>>>, places: Vec<Vec<Place>>) -> Edit {
    Edit::SetRows {
        at,
        cells,
        places,
        unit: Unit::Mm,
        report: None,
    }
}

fn with_report(report: Report) -> Edit {
    Edit::SetRows {
        at: RowsAt::Append,
        cells: cells(&[&["Z"]]),
        places: Vec::new(),
        unit: Unit::Mm,
        report: Some(Arc::new(report)),
    }
}

/// Rows A, B and C, an answer and an overrule about B, and an overrule of the lot.
fn three_rows() -> Job {
    let rows_of = cells(&[
        &["A", "36", "0.80 +-0.02", "14"],
        &["B", "4", "1.2"],
        &["C", "1", "#60", "20", "blind"],
    ]);
    let mut job = done(&Job::default(), &rows(RowsAt::Append, rows_of, Vec::new())).0;
    for (figure, text) in [
        (FigureKey::Wear(RowId(1)), "8"),
        (FigureKey::MachineHours, "41"),
    ] {
        let edit = Edit::Overrule {
            figure,
            text: text.to_owned(),
            reason: "as last time".to_owned(),
            unit: Unit::Mm,
        };
        job = done(&job, &edit).0;
    }
    let answer = Answer {
        row: RowId(1),
        concern: Concern::WallBehind,
        facts: Facts {
            given: Vec::new(),
            by: 0.1,
        },
        how: How::Agreed,
        said: "Ms. Orly, by phone".to_owned(),
        by: "Pell".to_owned(),
        date: chrono::NaiveDate::default(),
    };
    done(&job, &Edit::Answer(answer)).0
}

fn marks(job: &Job) -> Vec<&str> {
    job.rows.iter().map(|row| row.mark.text()).collect()
}

fn ids(job: &Job) -> Vec<u32> {
    job.rows.iter().map(|row| row.id.0).collect()
}

#[test]
fn appended_rows_stand_below_the_table_with_cells_and_places() {
    let before = three_rows();
    let edit = rows(
        RowsAt::Append,
        cells(&[&["D", "2", "0.9"], &["E", "few", "1 mm"]]),
        vec![vec![place(1, 5.0), place(2, 6.0)]],
    );
    let (job, change) = done(&before, &edit);
    assert_eq!(marks(&job), ["A", "B", "C", "D", "E"]);
    assert_eq!(change.rows, [RowId(3), RowId(4)]);
    assert_eq!(change.added, change.rows);
    assert_eq!((change.read, change.unread, change.other), (5, 1, false));
    assert_eq!(job.rows[3].holes(), 2);
    assert!(job.rows[4].places.is_empty());
    for at in 0..3 {
        assert!(Arc::ptr_eq(&before.rows[at], &job.rows[at]));
    }
    // Blank cells and places alone make a row all the same: as many rows as were given.
    let blank = rows(
        RowsAt::Append,
        cells(&[&[""], &["F"], &[" "]]),
        vec![Vec::new(), Vec::new(), Vec::new(), vec![place(7, 1.0)]],
    );
    let (job, change) = done(&job, &blank);
    assert_eq!(marks(&job)[5..], ["", "F", "", ""]);
    assert_eq!(change.added.len(), 4);
    assert_eq!(change.rows, change.added);
    assert_eq!(job.rows[8].holes(), 1);
}

#[test]
fn bare_numbers_are_read_in_the_unit_that_is_given() {
    let edit = Edit::SetRows {
        at: RowsAt::Append,
        cells: cells(&[&["A", "1", ".031 +.003/-0", ".5"]]),
        places: Vec::new(),
        unit: Unit::Inch,
        report: None,
    };
    let job = done(&Job::default(), &edit).0;
    let aim = job.rows[0].depth.value().and_then(|depth| depth.aim);
    assert_eq!(aim.map(quillbore_calc::Length::mm), Some(12.7));
}

#[test]
fn replaced_rows_are_gone_with_what_was_said_of_them() {
    let before = three_rows();
    let edit = rows(
        RowsAt::Replace,
        cells(&[&["P"], &["Q"]]),
        vec![vec![place(1, 2.0)]],
    );
    let mut history: History = History::new(before.clone(), true);
    let doing = Doing {
        gesture: None,
        before: (),
        after: (),
    };
    let change = history.do_edit(&edit, doing.clone()).expect("an edit");
    let job = Arc::clone(history.now());
    assert_eq!(marks(&job), ["P", "Q"]);
    assert_eq!(ids(&job), [3, 4]);
    assert_eq!(change.removed, [RowId(0), RowId(1), RowId(2)]);
    assert_eq!(change.added, [RowId(3), RowId(4)]);
    assert!(change.other, "an answer and an overrule went");
    assert_eq!(job.answers, []);
    let figures: Vec<&FigureKey> = job.overrules.iter().map(|o| &o.figure).collect();
    assert_eq!(figures, [&FigureKey::MachineHours]);
    // One step back brings all of it again; identities are not given a second time.
    history.undo().expect("a step");
    let back = Job {
        next_row: before.next_row,
        ..Job::clone(history.now())
    };
    assert_eq!(back, before);
    history.do_edit(&edit, doing).expect("an edit");
    assert_eq!(ids(history.now()), [5, 6]);
}

#[test]
fn laid_over_rows_what_is_not_given_stays() {
    let before = done(
        &three_rows(),
        &Edit::SetPlaces {
            row: RowId(1),
            places: vec![place(1, 0.0), place(2, 1.0)],
        },
    )
    .0;
    let edit = rows(
        RowsAt::Over { row: 1 },
        vec![
            vec![None, None, Some("1.5".to_owned())],
            Vec::new(),
            vec![Some("D".to_owned())],
        ],
        vec![Vec::new(), vec![place(3, 9.0)], Vec::new()],
    );
    let (job, change) = done(&before, &edit);
    assert_eq!(marks(&job), ["A", "B", "C", "D"]);
    assert_eq!(ids(&job), [0, 1, 2, 3]);
    assert_eq!(job.rows[1].size.text(), "1.5");
    assert_eq!(job.rows[1].places, before.rows[1].places);
    assert_eq!(*job.rows[2].places, [place(3, 9.0)]);
    assert_eq!(job.rows[2].size.text(), "#60");
    assert_eq!(change.rows, [RowId(1), RowId(2), RowId(3)]);
    assert_eq!(change.added, [RowId(3)]);
    assert_eq!(
        (&job.answers, &job.overrules),
        (&before.answers, &before.overrules)
    );
    let same = rows(RowsAt::Over { row: 0 }, cells(&[&["A"]]), Vec::new());
    assert!(done(&before, &same).1.is_nothing());
    let below = rows(RowsAt::Over { row: 4 }, cells(&[&["E"]]), Vec::new());
    assert_eq!(
        refused(&before, &below),
        EditRefused::BelowTheTable { row: 4, rows: 3 }
    );
    let far = rows(RowsAt::Over { row: usize::MAX }, cells(&[&["E"]]), vec![]);
    assert!(matches!(
        refused(&before, &far),
        EditRefused::BelowTheTable { .. }
    ));
}

#[test]
fn every_limit_holds_and_nothing_is_taken_of_a_table_that_breaks_one() {
    let job = three_rows();
    let one = |places: Vec<Place>| rows(RowsAt::Replace, cells(&[&["D"]]), vec![places]);
    let number = 2;
    for (places, why) in [
        (
            vec![place(2, 0.0), place(2, 1.0)],
            EditRefused::PlaceTwice { number },
        ),
        (
            vec![place(2, f64::NAN)],
            EditRefused::PlaceUnusable { number },
        ),
        (
            vec![place(1, 0.0), place(2, f64::INFINITY)],
            EditRefused::PlaceUnusable { number },
        ),
        (
            vec![Place {
                axis: [0.0; 3],
                ..place(2, 0.0)
            }],
            EditRefused::PlaceUnusable { number },
        ),
        (
            vec![place(0, 0.0); MOST_PLACES + 1],
            EditRefused::TooManyPlaces { most: MOST_PLACES },
        ),
    ] {
        assert_eq!(refused(&job, &one(places)), why);
    }
    let long = "x".repeat(LONGEST_TEXT + 1);
    let long = rows(RowsAt::Append, cells(&[&["D"], &[&long]]), Vec::new());
    assert_eq!(
        refused(&job, &long),
        EditRefused::TextTooLong { most: LONGEST_TEXT }
    );
    let wide = vec![vec![Some("D".to_owned()); Column::ALL.len() + 1]];
    let wide = rows(RowsAt::Append, wide, Vec::new());
    assert!(matches!(
        refused(&job, &wide),
        EditRefused::PastLastColumn { .. }
    ));
    // The rows that are replaced make room.
    let full = |at| rows(at, vec![Vec::new(); MOST_ROWS], Vec::new());
    assert_eq!(
        refused(&job, &full(RowsAt::Append)),
        EditRefused::TooManyRows { most: MOST_ROWS }
    );
    assert_eq!(done(&job, &full(RowsAt::Replace)).0.rows.len(), MOST_ROWS);
    let too_many = rows(RowsAt::Replace, Vec::new(), vec![Vec::new(); MOST_ROWS + 1]);
    assert_eq!(
        refused(&job, &too_many),
        EditRefused::TooManyRows { most: MOST_ROWS }
    );
}

#[test]
fn a_report_has_limits_too() {
    let fits = Report {
        whole: vec!["y".repeat(LONGEST_TEXT)],
        ..report()
    };
    let job = done(&Job::default(), &with_report(fits)).0;
    assert_eq!((job.rows.len(), job.reports.len()), (1, 1));
    let long = "y".repeat(LONGEST_TEXT + 1);
    let text = EditRefused::TextTooLong { most: LONGEST_TEXT };
    let mut told = report();
    told.lines[0].says.clone_from(&long);
    assert_eq!(refused(&job, &with_report(told)), text);
    let whole = vec![long.clone()];
    let told = Report { whole, ..report() };
    assert_eq!(refused(&job, &with_report(told)), text);
    let from = Source::named(&long);
    let told = Report { from, ..report() };
    assert_eq!(refused(&job, &with_report(told)), text);
    let told = Report {
        whole: vec![String::new(); MOST_TOLD],
        ..report()
    };
    assert_eq!(
        refused(&job, &with_report(told)),
        EditRefused::ReportTooLong { most: MOST_TOLD }
    );
    let full = Job {
        reports: (0..MOST_REPORTS).map(|_| Arc::new(report())).collect(),
        ..job
    };
    assert_eq!(
        refused(&full, &with_report(report())),
        EditRefused::TooManyReports { most: MOST_REPORTS }
    );
}

#[test]
fn one_of_several_edits_that_is_refused_takes_the_report_along() {
    let job = three_rows();
    let edits = vec![
        with_report(report()),
        Edit::DeleteRows {
            rows: vec![RowId(99)],
        },
    ];
    refused(&job, &Edit::Together { edits });
    let edits = vec![with_report(report())];
    let (after, change) = done(&job, &Edit::Together { edits });
    assert!(change.other);
    assert_eq!(after.reports, [Arc::new(report())]);
}

#[test]
fn the_step_has_a_name() {
    let job = three_rows();
    let named = |edit: &Edit| label(&job, edit);
    let two = || cells(&[&["D"], &["E"]]);
    assert_eq!(named(&rows(RowsAt::Append, two(), vec![])), "paste 2 rows");
    assert_eq!(
        named(&rows(RowsAt::Over { row: 0 }, cells(&[&["D"]]), vec![])),
        "paste a row"
    );
    assert_eq!(
        named(&rows(
            RowsAt::Over { row: 0 },
            vec![],
            vec![vec![place(1, 0.0)]]
        )),
        "paste a row"
    );
    assert_eq!(
        named(&rows(RowsAt::Over { row: 0 }, cells(&[&["", " "]]), vec![])),
        "clear 2 cells"
    );
    assert_eq!(
        named(&rows(RowsAt::Replace, two(), vec![])),
        "replace the table with 2 rows"
    );
    assert_eq!(
        named(&rows(RowsAt::Append, vec![], vec![])),
        "keep what was left out"
    );
}
