//! Answers to checks that concern the customer: what they open, when they no longer count.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod hands;
#[path = "hands/notes.rs"]
mod notes_told;

use hands::{cells, day, done, field, put_together};
use notes_told::{offered, said};
use quillbore_calc::RowId;
use quillbore_calc::finding::Level;
use quillbore_job::answer::{Answer, How};
use quillbore_job::concern::Concern;
use quillbore_job::file::{read_job, write_job};
use quillbore_job::history::{Doing, History};
use quillbore_job::life::{self, Blocker};
use quillbore_job::merge::{Clash, Met, Side};
use quillbore_job::question::Question;
use quillbore_job::results::{Results, SideNote, results_quick};
use quillbore_job::{Column, Edit, Field, Job, Paper, Shop, Unit, apply, reorder};

fn shop() -> &'static Shop {
    Shop::embedded().expect("the shop")
}

fn found(job: &Job) -> Results {
    results_quick(job, shop())
}

/// A job that asks everything there is to ask: limits too close, limits assumed, a wall behind, two
/// ends.
fn asking() -> Job {
    let mut job = Job::default();
    for (name, text) in [
        (Field::Material, "Stainless 316"),
        (Field::Machine, "Wren"),
        (Field::Quantity, "12"),
    ] {
        job = field(&job, name, text);
    }
    job = cells(&job, 0, &["A", "4", "0.80 +-0.02", "14", "through"]);
    job = cells(&job, 1, &["B", "4", "0.8", "14", "through"]);
    job = cells(&job, 2, &["C", "4", "0.8 +-0.1", "8", "into"]);
    job = cell(&job, 2, Column::Behind, "1");
    job = cells(&job, 3, &["D", "4", "0.8 +-0.1", "60", "through"]);
    cell(&job, 3, Column::Ends, "both")
}

fn cell(job: &Job, row: usize, column: Column, text: &str) -> Job {
    let edit = Edit::SetCells {
        at: quillbore_job::CellAt { row, column },
        rows: vec![vec![Some(text.to_owned())]],
        unit: Unit::Mm,
    };
    done(job, &edit)
}

fn questions(job: &Job) -> Vec<Question> {
    let notes = found(job).notes.into_iter();
    notes
        .filter_map(|note| note.question.map(|question| *question))
        .collect()
}

fn note(job: &Job, row: u32, concern: Concern) -> Option<SideNote> {
    let asks = |note: &SideNote| {
        let question = note.question.as_ref();
        question.is_some_and(|q| q.row == RowId(row) && q.concern == concern)
    };
    found(job).notes.into_iter().find(asks)
}

fn answer_to(question: &Question, how: How, said: &str) -> Answer {
    Answer {
        row: question.row,
        concern: question.concern,
        facts: question.facts.clone(),
        how,
        said: said.to_owned(),
        by: "front office".to_owned(),
        date: day(3, 2),
    }
}

fn answered(job: &Job, row: u32, concern: Concern, how: How, said: &str) -> Job {
    let note = note(job, row, concern).expect("it is asked");
    let question = note.question.expect("it is asked");
    done(job, &Edit::Answer(answer_to(&question, how, said)))
}

fn open(job: &Job) -> Vec<(Concern, String)> {
    let results = found(job).found();
    let way = life::blockers(Paper::Quotation, job, &results, None);
    let mut checks = way.into_iter().filter_map(|blocker| match blocker {
        Blocker::Unanswered { checks } => Some(checks),
        _ => None,
    });
    checks.next().unwrap_or_default()
}

const ALL: [(u32, Concern); 4] = [
    (0, Concern::Limits),
    (1, Concern::AssumedLimits),
    (2, Concern::WallBehind),
    (3, Concern::Step),
];

#[test]
fn ready_means_that_every_check_about_the_customer_has_an_answer() {
    let mut job = asking();
    let wanted = ["A", "B", "C", "D"].map(str::to_owned);
    let asked: Vec<_> = ALL
        .iter()
        .map(|(_, concern)| *concern)
        .zip(wanted)
        .collect();
    assert_eq!(open(&job), asked);
    for paper in [Paper::Quotation, Paper::Traveler] {
        let way = life::blockers(paper, &job, &found(&job).found(), None);
        let unanswered =
            |b: &Blocker| matches!(b, Blocker::Unanswered { checks } if *checks == asked);
        assert!(way.iter().any(unanswered), "{paper:?}: {way:?}");
    }
    for (at, (row, concern)) in ALL.into_iter().enumerate() {
        let how = How::ALL[at % 2];
        job = answered(&job, row, concern, how, "M. Oakes");
        assert_eq!(open(&job), asked[at + 1..], "{concern:?}");
        let told = note(&job, row, concern).expect("it stays told");
        assert_eq!(told.level, Level::Note);
        let text = said(&job, &told);
        assert!(text.contains("M. Oakes") && text.contains("front office"));
    }
    assert_eq!(
        life::blockers(Paper::Quotation, &job, &found(&job).found(), None),
        []
    );
    assert_eq!(found(&job).answers(), *job.answers);
    let text = write_job(&job);
    assert_eq!(read_job(text.as_bytes()), Ok(job));
}

#[test]
fn the_calculation_is_told_what_was_agreed_and_what_was_waived() {
    let job = asking();
    let flags = |job: &Job| {
        let rows = found(job).asked.input.rows;
        (rows[0].risk_agreed, rows[2].wall_waived)
    };
    assert_eq!(flags(&job), (false, false));
    let borne = answered(&job, 0, Concern::Limits, How::Accepted, "they are reamed");
    assert_eq!(
        flags(&borne),
        (false, false),
        "we bear it, not the customer"
    );
    let agreed = answered(&job, 0, Concern::Limits, How::Agreed, "M. Oakes");
    assert_eq!(flags(&agreed), (true, false));
    for how in How::ALL {
        let waived = answered(&job, 2, Concern::WallBehind, *how, "a scratch is fine");
        assert_eq!(flags(&waived), (false, true));
    }
    let moved = cell(&agreed, 0, Column::Size, "0.80 +-0.015");
    assert_eq!(flags(&moved), (false, false), "that was not agreed to");
}

#[test]
fn an_answer_to_other_facts_does_not_count_and_says_so() {
    let job = answered(&asking(), 0, Concern::Limits, How::Agreed, "M. Oakes");
    let still = [
        cell(&job, 0, Column::Count, "40"),
        cell(&job, 0, Column::Size, "0.78-0.82"),
        field(&job, Field::Quantity, "1000"),
        done(&job, &Edit::SetUnit(Unit::Inch)),
    ];
    for same in still {
        assert!(!open(&same).iter().any(|(_, mark)| mark == "A"), "{same:?}");
    }
    let other = cell(&job, 0, Column::Size, "0.80 +-0.015");
    let told = note(&other, 0, Concern::Limits).expect("it asks again");
    assert_eq!(told.level, Level::Check);
    let text = said(&other, &told);
    assert!(text.contains("doesn't count"), "{text}");
    assert!(open(&other).contains(&(Concern::Limits, "A".to_owned())));
    // Back to what was agreed, the answer stands again.
    let back = cell(&other, 0, Column::Size, "0.80 +-0.02");
    assert!(!open(&back).iter().any(|(_, mark)| mark == "A"));
    // Nothing asks any more: that is told, and the answer can be deleted.
    let wide = cell(&job, 0, Column::Size, "0.80 +-0.1");
    let notes = found(&wide).notes;
    let told = notes.iter().find(|note| note.code() == "answer-to-nothing");
    let told = told.expect("it is told");
    let text = said(&wide, told);
    assert!(text.contains("M. Oakes"), "{text}");
    let gone = done(&wide, &offered(&wide, told));
    assert_eq!(gone.answers, []);
    assert!(found(&wide).answers().is_empty(), "it is printed nowhere");
}

#[test]
fn a_wall_that_comes_nearer_asks_again_and_one_further_off_does_not() {
    let job = answered(
        &asking(),
        2,
        Concern::WallBehind,
        How::Accepted,
        "a dead end",
    );
    let asks = |job: &Job| {
        open(job)
            .iter()
            .any(|(concern, _)| *concern == Concern::WallBehind)
    };
    assert!(!asks(&job));
    assert!(asks(&cell(&job, 2, Column::Behind, "0.5")));
    let deeper = cell(&job, 2, Column::Depth, "16");
    assert!(asks(&deeper), "the wear is twice as uncertain");
    let shallower = cell(&job, 2, Column::Depth, "7");
    assert!(!asks(&shallower));
    let backed = cell(&job, 2, Column::Backed, "yes");
    assert_eq!(note(&backed, 2, Concern::WallBehind), None);
    assert!(
        found(&backed)
            .notes
            .iter()
            .any(|n| n.code() == "answer-to-nothing")
    );
}

#[test]
fn a_known_collision_is_a_stop_until_it_is_backed_or_answered() {
    // Common practice, no source: one hole of 60 mm scatters by millimeters, the wall is 1 mm away.
    let job = cell(&asking(), 2, Column::Depth, "60");
    let told = note(&job, 2, Concern::WallBehind).expect("it is told");
    assert_eq!((told.code(), told.level), ("wall-in-reach", Level::Stop));
    assert!(found(&job).stopped());
    let way = life::blockers(Paper::Traveler, &job, &found(&job).found(), None);
    assert!(way.contains(&Blocker::Stop), "{way:?}");
    assert!(open(&job).contains(&(Concern::WallBehind, "C".to_owned())));
    for how in How::ALL {
        let waived = answered(&job, 2, Concern::WallBehind, *how, "M. Oakes");
        assert!(!found(&waived).stopped());
        assert!(!open(&waived).iter().any(|(_, mark)| mark == "C"));
        let told = note(&waived, 2, Concern::WallBehind).expect("it stays told");
        assert_eq!(told.level, Level::Note);
        let text = said(&waived, &told);
        assert!(text.contains("M. Oakes"), "{text}");
        assert!(found(&waived).answers().iter().any(|a| a.row == RowId(2)));
        // Nearer than what was agreed to: a stop again.
        let nearer = cell(&waived, 2, Column::Behind, "0.5");
        assert!(found(&nearer).stopped());
        let told = note(&nearer, 2, Concern::WallBehind).expect("it asks again");
        let text = said(&nearer, &told);
        assert!(text.contains("doesn't count"), "{text}");
    }
    let backed = cell(&job, 2, Column::Backed, "yes");
    assert!(!found(&backed).stopped());
}

#[test]
fn a_blind_depth_that_cannot_be_held_asks_too() {
    let job = cell(&asking(), 3, Column::End, "blind");
    let job = cell(&job, 3, Column::Ends, "");
    let job = cell(&job, 3, Column::Depth, "60 +-0.1");
    assert!(
        open(&job).contains(&(Concern::Depth, "D".to_owned())),
        "{:?}",
        open(&job)
    );
    let agreed = answered(&job, 3, Concern::Depth, How::Agreed, "M. Oakes");
    assert!(!open(&agreed).iter().any(|(_, mark)| mark == "D"));
    let closer = cell(&agreed, 3, Column::Depth, "60 +-0.05");
    assert!(open(&closer).contains(&(Concern::Depth, "D".to_owned())));
}

#[test]
fn an_answer_goes_with_its_row_and_comes_back_by_undo() {
    let job = asking();
    let question = questions(&job).remove(0);
    let mut history: History = History::new(job.clone(), true);
    let doing = || Doing {
        gesture: None,
        before: (),
        after: (),
    };
    let edit = Edit::Answer(answer_to(&question, How::Agreed, "M. Oakes"));
    history.do_edit(&edit, doing()).expect("it is done");
    assert_eq!(
        history.undo_label(),
        Some("answer limits not to be promised of hole A")
    );
    let delete = Edit::DeleteRows {
        rows: vec![question.row],
    };
    history.do_edit(&delete, doing()).expect("it is done");
    assert_eq!(history.now().answers, []);
    assert!(history.undo().is_some());
    assert_eq!(history.now().answers.len(), 1);
    assert!(history.undo().is_some());
    assert_eq!(**history.now(), job);
    assert!(history.redo().is_some());
    assert_eq!(history.now().answers.len(), 1);

    let without = done(&job, &delete);
    assert!(apply(&without, &edit).is_err(), "the row is gone");
}

#[test]
fn an_answer_without_a_name_or_a_reason_is_refused_with_a_sentence() {
    let job = asking();
    let question = questions(&job).remove(0);
    let long = "x".repeat(500);
    for how in How::ALL {
        for said in [" ", "", "bell\u{7}", long.as_str()] {
            let edit = Edit::Answer(answer_to(&question, *how, said));
            let why = apply(&job, &edit).expect_err("refused");
            assert!(!why.to_string().ends_with('.') && why.hint().ends_with('.'));
        }
    }
    let edit = Edit::Answer(answer_to(&question, How::Agreed, " M. \n Oakes "));
    assert_eq!(done(&job, &edit).answers[0].said, "M. Oakes");
    let back = Edit::WithdrawAnswer {
        row: question.row,
        concern: question.concern,
    };
    assert!(apply(&job, &back).is_err());
}

/// No file could hold such an answer, so the job could not be saved.
#[test]
fn an_answer_to_facts_that_are_no_numbers_is_refused() {
    let job = asking();
    let question = &questions(&job)[0];
    let agreed = answer_to(question, How::Agreed, "M. Oakes");
    for no_number in [f64::NAN, f64::INFINITY] {
        let (mut given, mut by) = (agreed.clone(), agreed.clone());
        given.facts.given.push(no_number);
        by.facts.by = no_number;
        for answer in [given, by] {
            let refused = apply(&job, &Edit::Answer(answer)).unwrap_err();
            assert_eq!(refused, quillbore_job::EditRefused::FactsUnusable);
            assert!(!refused.hint().is_empty());
        }
    }
}

#[test]
fn a_reorder_keeps_answers_and_asks_again_only_where_the_facts_changed() {
    let mut old = asking();
    for (row, concern) in ALL {
        old = answered(&old, row, concern, How::Agreed, "M. Oakes");
    }
    old.number = "26-0107".to_owned();
    let new = reorder::again(&old, day(11, 25));
    assert_eq!(open(&new), []);
    let revised = cell(&new, 1, Column::Size, "0.9");
    assert_eq!(open(&revised), [(Concern::AssumedLimits, "B".to_owned())]);
    assert_eq!(
        old.inputs().answers,
        old.answers,
        "an issued paper keeps them"
    );
}

#[test]
fn the_answers_of_two_desks_are_put_together_and_what_met_is_told() {
    let base = asking();
    let ours = answered(&base, 0, Concern::Limits, How::Agreed, "M. Oakes");
    let theirs = answered(&base, 1, Concern::AssumedLimits, How::Accepted, "as always");
    let merged = put_together(&base, &ours, &theirs);
    assert_eq!((merged.clashes, merged.job.answers.len()), (vec![], 2));

    let other = answered(&base, 0, Concern::Limits, How::Accepted, "we ream them");
    let merged = put_together(&base, &ours, &other);
    let row = ours.answers[0].row;
    let lost = Met::Theirs(other.answers[0].clone());
    assert_eq!(merged.clashes, [Clash::Answer(row, Concern::Limits, lost)]);
    assert_eq!(merged.job.answers, ours.answers, "ours stands");

    // One answered, the other took the row out.
    let without = done(&base, &Edit::DeleteRows { rows: vec![row] });
    for (mine, others, of) in [
        (&ours, &without, Side::Ours),
        (&without, &ours, Side::Theirs),
    ] {
        let merged = put_together(&base, mine, others);
        let gone = Met::RowGone {
            mark: "A".to_owned(),
            of,
            lost: ours.answers[0].clone(),
        };
        assert_eq!(merged.clashes, [Clash::Answer(row, Concern::Limits, gone)]);
        assert_eq!(merged.job.answers, []);
    }

    // Both added a row under one identity; each answer stays with its own.
    let add = |mark: &str, size: &str| {
        let job = cells(&base, 4, &[mark, "2", size, "10", "through"]);
        answered(&job, 4, Concern::AssumedLimits, How::Agreed, mark)
    };
    let merged = put_together(&base, &add("E", "0.9"), &add("F", "1.1"));
    assert_eq!(merged.clashes, []);
    let job = merged.job;
    for answer in &job.answers {
        let row = job.row(answer.row).expect("its row");
        assert_eq!(row.mark.text(), answer.said);
    }
    assert_eq!(job.answers.len(), 2);
    let left = open(&job);
    let new = |(concern, mark): &&(Concern, String)| {
        *concern == Concern::AssumedLimits && ["E", "F"].contains(&mark.as_str())
    };
    assert_eq!(left.iter().find(new), None);

    // Taken back here, untouched there.
    let answered = &ours;
    let back = Edit::WithdrawAnswer {
        row,
        concern: Concern::Limits,
    };
    let merged = put_together(answered, &done(answered, &back), answered);
    assert_eq!(
        (merged.clashes, merged.job.answers),
        (vec![], vec![].into())
    );
}

#[test]
fn a_file_with_answers_that_cannot_be_is_refused_with_a_sentence() {
    let job = answered(&asking(), 0, Concern::Limits, How::Agreed, "M. Oakes");
    let text = write_job(&job);
    for (from, to, says) in [
        ("concern: \"limits\"", "concern: \"weather\"", "weather"),
        ("how: \"agreed\"", "how: \"shrugged\"", "shrugged"),
        ("said: \"M. Oakes\"", "said: \" \"", "reason"),
        ("date: \"2026-03-02\"", "date: \"2026-03-32\"", "2026-03-32"),
    ] {
        assert!(text.contains(from), "{from} in {text}");
        let broken = text.replacen(from, to, 1);
        let why = read_job(broken.as_bytes()).expect_err(to).to_string();
        assert!(why.contains(says), "{why}");
    }
    let from = text.find("answers: [").expect("answers") + "answers: [".len();
    let to = from + text[from..].find("\n  ],").expect("their end");
    let twice = format!("{}{}{}", &text[..to], &text[from..to], &text[to..]);
    let why = read_job(twice.as_bytes()).expect_err("twice").to_string();
    assert!(why.contains("two answers"), "{why}");
}
