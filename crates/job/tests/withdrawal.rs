//! Papers taken back: by the number as anybody types it, and never standing again in silence.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod hands;
#[path = "hands/notes.rs"]
mod notes_told;

use hands::{done, issue, line, pin, ring};
use notes_told::said;
use quillbore_calc::finding::Level;
use quillbore_job::apply::EditRefused;
use quillbore_job::file::{read_job, write_job};
use quillbore_job::history::{Doing, History};
use quillbore_job::life::{self, State};
use quillbore_job::order::{self, Difference};
use quillbore_job::results::{Beside, results_quick};
use quillbore_job::slip::{Outcome, kind};
use quillbore_job::{Edit, Job, Line, Paper, Shop, SlipKind, Unit, apply};

fn quoted() -> Job {
    issue(&ring(), Paper::Quotation, &[(25, "48.20")])
}

fn withdrawn(number: &str) -> Job {
    let lines = [(Line::Paper, number), (Line::Why, "wrong material")];
    pin(&quoted(), SlipKind::Withdrawal, &lines)
}

fn set(text: &str) -> Edit {
    Edit::SetLine {
        slip: 0,
        line: Line::Paper,
        text: text.to_owned(),
        unit: Unit::Mm,
    }
}

fn note(job: &Job, code: &str) -> Option<(Level, Beside, String)> {
    let notes = results_quick(job, Shop::embedded().expect("the shop")).notes;
    let mut notes = notes.into_iter().filter(|note| note.code() == code);
    let found = notes
        .next()
        .map(|note| (note.level, note.beside, said(job, &note)));
    assert_eq!(notes.next(), None);
    found
}

#[test]
fn a_number_is_meant_in_any_case_and_with_blanks_around_it() {
    for number in ["26-0107-Q1", "26-0107-q1", " 26-0107-q1 "] {
        let job = withdrawn(number);
        assert!(job.is_withdrawn(&job.issued[0]), "{number}");
        assert_eq!(life::state(&job), State::Inquiry, "{number}");
        assert_eq!(note(&job, "withdraws-nothing"), None, "{number}");
    }
    let other = withdrawn("26-0107-Q10");
    assert!(!other.is_withdrawn(&other.issued[0]));
    let second = issue(&quoted(), Paper::Quotation, &[(25, "50")]);
    let by = second
        .replaced_by(" 26-0107-q1")
        .map(|paper| paper.number.as_str());
    assert_eq!(by, Some("26-0107-Q2"));
    let declined = [(Line::Paper, "26-0107-q1 "), (Line::Outcome, "declined")];
    let reply = |job: &Job| pin(job, SlipKind::Reply, &declined);
    assert_eq!(life::outcome(&reply(&quoted())), Some(Outcome::Declined));
    assert_eq!(
        life::outcome(&reply(&second)),
        None,
        "it says nothing of Q2"
    );
    let order = pin(&quoted(), SlipKind::Order, &[(Line::Paper, " 26-0107-q1")]);
    let slip = order.slips_of::<kind::Order>().next().expect("the order");
    assert_eq!(order::differences(&order, slip), []);
    let order = pin(&second, SlipKind::Order, &[(Line::Paper, "26-0107-q1")]);
    let slip = order.slips_of::<kind::Order>().next().expect("the order");
    let differs = Difference::Replaced {
        named: "26-0107-q1".to_owned(),
        by: "26-0107-Q2".to_owned(),
    };
    assert_eq!(order::differences(&order, slip), [differs]);
}

#[test]
fn nothing_typed_means_no_paper_even_one_without_a_number() {
    let mut job = quoted();
    let mut nameless = job.issued[0].as_ref().clone();
    nameless.number.clear();
    job.issued.push(nameless.into());
    assert_eq!(job.issued_as(" "), None);
    let job = pin(&job, SlipKind::Withdrawal, &[]);
    assert!(job.issued.iter().all(|paper| !job.is_withdrawn(paper)));
}

#[test]
fn a_slip_that_withdraws_nothing_is_told_beside_its_number() {
    let job = withdrawn("26-0107-T1");
    let (level, beside, text) = note(&job, "withdraws-nothing").expect("it is told");
    assert_eq!(level, Level::Check);
    assert_eq!(beside, Beside::Slip(0, Some(Line::Paper)));
    assert!(text.contains("26-0107-T1"), "{text}");
    let right = done(&job, &set("26-0107-Q1"));
    assert_eq!(note(&right, "withdraws-nothing"), None);
    let empty = pin(&quoted(), SlipKind::Withdrawal, &[]);
    assert!(note(&empty, "withdraws-nothing").is_some());
    let gone = done(&job, &Edit::RemoveSlip { slip: 0 });
    assert!(
        gone.slips.is_empty(),
        "it withdrew nothing: nothing is lost"
    );
}

#[test]
fn no_edit_lets_a_paper_stand_again_without_a_trace() {
    let job = withdrawn("26-0107-q1");
    let refused = EditRefused::WithdrawalStays {
        number: "26-0107-Q1".to_owned(),
    };
    for edit in [
        Edit::RemoveSlip { slip: 0 },
        set(""),
        set("26-0107-Q2"),
        Edit::Together {
            edits: vec![set(" ")],
        },
    ] {
        let why = apply(&job, &edit).expect_err("refused");
        assert_eq!(why, refused);
        assert!(why.to_string().contains("26-0107-Q1"), "{why}");
        assert!(why.hint().contains("valid again because"), "{}", why.hint());
    }
    // The same paper in another writing, and everything else on the slip, may be put right.
    let same = done(&job, &set("26-0107-Q1"));
    assert!(same.is_withdrawn(&same.issued[0]));
    let same = line(&same, 0, Line::Why, "wrong hardness");
    assert!(same.is_withdrawn(&same.issued[0]));
}

#[test]
fn a_paper_stands_again_by_a_word_that_stays_and_is_told() {
    let job = withdrawn("26-0107-Q1");
    let again = line(
        &job,
        0,
        Line::StandsAgain,
        "Pell, Mar 5: it was Q1 of 26-0106",
    );
    assert_eq!(life::state(&again), State::Quoted);
    let (level, beside, text) = note(&again, "stands-again").expect("it is told");
    assert_eq!(level, Level::Note);
    assert_eq!(beside, Beside::Slip(0, Some(Line::StandsAgain)));
    assert_eq!(
        text,
        "26-0107-Q1 was withdrawn here and is valid again: Pell, Mar 5: it was Q1 of 26-0106."
    );
    let opened = read_job(write_job(&again).as_bytes()).expect("it opens");
    assert_eq!(opened, again);
    for edit in [Edit::RemoveSlip { slip: 0 }, set("")] {
        assert!(apply(&opened, &edit).is_err(), "the trace stays");
    }
    // It can be withdrawn once more, by another slip or by taking the word out.
    let twice = pin(&again, SlipKind::Withdrawal, &[(Line::Paper, "26-0107-Q1")]);
    assert!(twice.is_withdrawn(&twice.issued[0]));
    assert_eq!(note(&twice, "stands-again"), None);
    let once = line(&again, 0, Line::StandsAgain, "");
    assert!(once.is_withdrawn(&once.issued[0]));
}

fn undone(saved: bool) -> (Job, Job) {
    let mut history: History = History::new(quoted(), true);
    let edit = Edit::AddSlip {
        kind: SlipKind::Withdrawal,
        lines: vec![(Line::Paper, "26-0107-Q1".to_owned())],
        unit: Unit::Mm,
    };
    let doing = Doing {
        gesture: None,
        before: (),
        after: (),
    };
    let before = history.now().as_ref().clone();
    history.do_edit(&edit, doing).expect("done");
    let on_disk = if saved {
        history.mark_saved();
        history.now().as_ref().clone()
    } else {
        before
    };
    history.undo();
    (on_disk, history.now().as_ref().clone())
}

#[test]
fn an_undo_leaves_a_trace_only_where_the_withdrawal_was_saved() {
    let (on_disk, now) = undone(false);
    assert!(now.slips.is_empty());
    assert_eq!(now.with_withdrawals_of(&on_disk), None);
    let (on_disk, now) = undone(true);
    assert!(now.slips.is_empty());
    let kept = now.with_withdrawals_of(&on_disk).expect("a trace");
    assert_eq!(kept.slips.len(), 1);
    assert_eq!(kept.slips[0].id, 0, "the same slip");
    assert!(
        !kept.is_withdrawn(&kept.issued[0]),
        "but nobody holds by it"
    );
    assert!(note(&kept, "stands-again").is_some());
    assert_eq!(kept.with_withdrawals_of(&on_disk), None, "once is enough");
    assert_eq!(on_disk.with_withdrawals_of(&on_disk), None);
    let opened = read_job(write_job(&kept).as_bytes()).expect("it opens");
    assert_eq!(opened, kept);
}

#[test]
fn a_slip_whose_number_an_undo_took_out_is_not_written_over() {
    let empty = pin(&quoted(), SlipKind::Withdrawal, &[]);
    let on_disk = done(&empty, &set("26-0107-Q1"));
    let kept = empty.with_withdrawals_of(&on_disk).expect("a trace");
    let ids: Vec<u32> = kept.slips.iter().map(|slip| slip.id).collect();
    assert_eq!((ids, kept.next_slip), (vec![0, 1], 2));
    assert_eq!(kept.slips[0], empty.slips[0]);
}

/// Where every identity was given, one was taken that the file refuses: the job could not be saved.
#[test]
fn a_trace_is_kept_and_saved_where_no_identity_is_left() {
    let empty = Job {
        next_slip: u32::MAX,
        ..pin(&quoted(), SlipKind::Withdrawal, &[])
    };
    let on_disk = done(&empty, &set("26-0107-Q1"));
    let kept = empty.with_withdrawals_of(&on_disk).expect("a trace");
    let ids: Vec<u32> = kept.slips.iter().map(|slip| slip.id).collect();
    assert_eq!((ids, kept.next_slip), (vec![0, 1], u32::MAX));
    assert_eq!(read_job(write_job(&kept).as_bytes()), Ok(kept));
}
