//! Tables of the largest size: what is looked up for each row must not search all of them.
//!
//! Nothing here is timed: with a search for each row these take many minutes.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

use chrono::NaiveDate;
use quillbore_job::answer::How;
use quillbore_job::history::{Doing, History};
use quillbore_job::inspected::{Inspections, Parts};
use quillbore_job::life::{self, Blocker};
use quillbore_job::merge::merge;
use quillbore_job::question::{Given, Question, answer_edit};
use quillbore_job::results::{Results, Telling, results_quick};
use quillbore_job::words::speaker::Speaker;
use quillbore_job::{CellAt, Column, Edit, Field, Job, Line, Paper, Shop, SlipKind, Unit, apply};

const ROWS: usize = 60_000;

fn shop() -> &'static Shop {
    Shop::embedded().expect("the shop")
}

fn done(job: &Job, edit: &Edit) -> Job {
    apply(job, edit).expect("the edit is done").0
}

/// Rows alike, whose limits the shop has to assume, marked as drawings do.
fn many_rows() -> Job {
    let material = Edit::SetField {
        field: Field::Material,
        text: "Stainless 316".to_owned(),
        unit: Unit::Mm,
    };
    let row = |at| {
        [
            letters(at),
            "1".to_owned(),
            "0.8".to_owned(),
            "14".to_owned(),
        ]
    };
    let rows = Edit::SetCells {
        at: CellAt {
            row: 0,
            column: Column::Mark,
        },
        rows: (0..ROWS).map(|at| row(at).map(Some).to_vec()).collect(),
        unit: Unit::Mm,
    };
    done(&done(&Job::default(), &material), &rows)
}

/// A, B, ... Z, AA, ...
fn letters(at: usize) -> String {
    let last = char::from(b'A' + u8::try_from(at % 26).expect("a letter"));
    match at / 26 {
        0 => last.to_string(),
        more => letters(more - 1) + &last.to_string(),
    }
}

fn questions(results: &Results) -> impl Iterator<Item = &Question> {
    let notes = results.notes.iter();
    notes.filter_map(|note| note.question.as_deref())
}

#[test]
fn every_row_is_named_and_asked_about_and_answered() {
    let job = many_rows();
    let results = results_quick(&job, shop());
    assert_eq!(results.found().unanswered.len(), ROWS);
    let speaker = Speaker {
        job: &job,
        tables: &shop().tables,
        unit: job.unit,
        form: shop().form,
    };
    // From the last on, so that none is found by standing next.
    for (at, row) in job.rows.iter().enumerate().rev() {
        assert_eq!(speaker.mark(row.id), letters(at));
    }

    let wanted: Vec<_> = questions(&results).map(|q| (q.row, q.concern)).collect();
    let given = Given {
        how: How::Accepted,
        said: "usual for this customer",
        by: "R. Ames",
        date: NaiveDate::from_ymd_opt(2026, 11, 27).expect("a day"),
    };
    let edit = answer_edit(questions(&results), &wanted, &given).expect("questions to answer");
    let answered = done(&job, &edit);
    let results = results_quick(&answered, shop());
    assert_eq!(results.found().unanswered, []);
    assert_eq!(results.answers(), *answered.answers);
    assert_eq!(answered.answers.len(), ROWS);
}

#[test]
fn a_free_mark_is_found_among_all() {
    let twice = Edit::SetCells {
        at: CellAt {
            row: ROWS,
            column: Column::Mark,
        },
        rows: vec![vec![Some("A".to_owned())]; 2],
        unit: Unit::Mm,
    };
    let job = done(&many_rows(), &twice);
    let results = results_quick(&job, shop());
    let telling = Telling::new(&job, shop());
    let offers = results.notes.iter().filter_map(|note| telling.offer(note));
    let words: Vec<String> = offers.map(|offer| offer.words.clone()).collect();
    let free = letters(ROWS);
    let new_mark = words.iter().filter(|words| words.contains(&free));
    assert_eq!(new_mark.count(), 2, "{:?}", words.first());
}

/// Steps that leave the rows alone share them, so that two hundred cost no more than one.
#[test]
fn undo_keeps_the_rows_once() {
    let mut history: History = History::new(many_rows(), true);
    let rows = history.now().rows.as_ptr();
    for step in 0..200 {
        let edit = Edit::SetField {
            field: Field::Quantity,
            text: (step + 1).to_string(),
            unit: Unit::Mm,
        };
        let doing = Doing {
            gesture: None,
            before: (),
            after: (),
        };
        history.do_edit(&edit, doing).expect("done");
        assert!(std::ptr::eq(history.now().rows.as_ptr(), rows));
    }
    while history.undo().is_some() {
        assert!(std::ptr::eq(history.now().rows.as_ptr(), rows));
    }
}

/// A column of every row, so that no cell of it stays as it was.
fn every_cell(job: &Job, column: Column, text: impl Fn(usize) -> String) -> Job {
    let edit = Edit::SetCells {
        at: CellAt { row: 0, column },
        rows: (0..ROWS).map(|at| vec![Some(text(at))]).collect(),
        unit: Unit::Mm,
    };
    done(job, &edit)
}

#[test]
fn two_desks_change_every_row_and_one_adds_and_one_deletes() {
    const NEW: usize = 20_000;
    let base = many_rows();
    let ours = every_cell(&base, Column::Count, |at| (at % 9 + 2).to_string());
    let theirs = every_cell(&base, Column::Depth, |at| (at % 20 + 15).to_string());
    let odd = base
        .rows
        .iter()
        .map(|row| row.id)
        .filter(|id| id.0 % 2 == 1);
    let theirs = done(
        &theirs,
        &Edit::DeleteRows {
            rows: odd.collect(),
        },
    );
    let new = Edit::InsertRows {
        before: 0,
        count: NEW,
    };
    let ours = done(&ours, &new);
    let merged = merge(&base, &ours, &theirs).expect("it fits into one job");
    // Rows that one of them deleted and the other changed stay, and that is told of each.
    assert_eq!(merged.clashes.len(), ROWS / 2);
    assert_eq!(merged.job.rows.len(), ROWS + NEW);
    let row = |mark: &str| {
        let mut rows = merged.job.rows.iter();
        let row = rows.find(|row| row.mark.text() == mark).expect("the row");
        (row.count.text().to_owned(), row.depth.text().to_owned())
    };
    assert_eq!(row("A"), ("2".to_owned(), "15".to_owned()));
    assert_eq!(row("C"), ("4".to_owned(), "17".to_owned()));
}

#[test]
fn every_mark_is_looked_up_among_ten_thousand_slips() {
    const SLIPS: usize = 9_000;
    let mut job = Job::default();
    for at in 0..SLIPS {
        let lines = [
            (Line::Mark, letters(at).to_lowercase()),
            (Line::Checked, "1".to_owned()),
            (Line::Pins, "0.80".to_owned()),
        ];
        let edit = Edit::AddSlip {
            kind: SlipKind::Inspection,
            lines: lines.into(),
            unit: Unit::Mm,
        };
        job = done(&job, &edit);
    }
    job.rows = many_rows().rows;
    let found = results_quick(&job, shop()).found();
    let blockers = life::blockers(Paper::Certificate, &job, &found, None);
    let not_inspected = blockers.iter().find_map(|blocker| match blocker {
        Blocker::NotInspected { marks } => Some(marks),
        _ => None,
    });
    let marks = not_inspected.expect("rows that nobody looked at");
    assert_eq!(marks.len(), ROWS - SLIPS);
    assert_eq!(marks.first(), Some(&letters(SLIPS)));

    let parts = Parts {
        serials: Vec::new(),
        count: 5,
    };
    let inspections = Inspections::of(&job, &parts);
    let checked = job.rows.iter().map(|row| inspections.checked(row).parts);
    assert_eq!(checked.sum::<u32>(), 9_000);
}
