//! Entries that don't fit their seal: told, and nothing rests on them.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod hands;
#[path = "hands/notes.rs"]
mod notes_told;

use notes_told::said;
use std::sync::Arc;

use hands::{field, issue, pin, ring};
use quillbore_calc::finding::Level;
use quillbore_job::life::{self, Blocker};
use quillbore_job::order::{self, Difference, Topic};
use quillbore_job::reorder::{self, LastFrom};
use quillbore_job::results::{Beside, SideNote, results_quick};
use quillbore_job::slip::kind;
use quillbore_job::{Field, Issued, Job, Line, Paper, Seal, SealState, Shop, SlipKind};

/// The job with the price in an issued paper's entry changed by hand.
fn changed(job: &Job, at: usize, each: &str) -> Job {
    let mut job = job.clone();
    let mut entry = Issued::clone(&job.issued[at]);
    entry.lines[0].each = each.parse().ok();
    assert_eq!(entry.seal_state(), SealState::Broken);
    job.issued[at] = Arc::new(entry);
    job
}

fn with_seal(job: &Job, at: usize, seal: Option<Seal>) -> Job {
    let mut job = job.clone();
    let entry = Issued::clone(&job.issued[at]);
    job.issued[at] = Arc::new(Issued { seal, ..entry });
    job
}

fn notes(job: &Job) -> Vec<SideNote> {
    results_quick(job, Shop::embedded().expect("the shop")).notes
}

fn of_papers(job: &Job) -> Vec<(Level, &'static str, String)> {
    let notes = notes(job).into_iter();
    notes
        .filter(|note| note.beside == Beside::Papers)
        .map(|note| (note.level, note.code(), said(job, &note)))
        .collect()
}

#[test]
fn a_changed_entry_is_told_by_its_number_and_the_job_is_worked_on() {
    let job = issue(&ring(), Paper::Quotation, &[(25, "48.20")]);
    assert_eq!(of_papers(&job), []);
    let broken = changed(&job, 0, "42.80");
    let told = of_papers(&broken);
    assert_eq!(told.len(), 1);
    let (level, code, text) = &told[0];
    assert_eq!((*level, *code), (Level::Check, "entry-changed"));
    assert!(
        text.contains("26-0107-Q1 was changed after it was issued") && text.contains("backup"),
        "{text}"
    );
    let shop = Shop::embedded().expect("the shop");
    let way = |job: &Job| {
        let found = results_quick(job, shop).found();
        life::blockers(Paper::Quotation, job, &found, None)
    };
    assert_eq!(way(&broken), way(&job), "nothing else is in the way of it");
    let later = issue(&broken, Paper::Quotation, &[(25, "48.20")]);
    assert_eq!(later.issued[1].seal_state(), SealState::Sealed);
}

#[test]
fn papers_without_a_seal_are_told_once_and_quietly() {
    let job = issue(&ring(), Paper::Quotation, &[(25, "48.20")]);
    let job = issue(&job, Paper::Traveler, &[]);
    let old = with_seal(&with_seal(&job, 0, None), 1, None);
    let told = of_papers(&old);
    assert_eq!(told.len(), 1);
    let (level, code, text) = &told[0];
    assert_eq!((*level, *code), (Level::Note, "not-sealed"));
    assert!(
        text.starts_with("Issued before papers were sealed: 26-0107-Q1, 26-0107-T1."),
        "{text}"
    );
    let order = pin(
        &old,
        SlipKind::Order,
        &[(Line::Quantity, "25"), (Line::Each, "48.2")],
    );
    let slip = order.slips_of::<kind::Order>().next().expect("the order");
    assert_eq!(
        order::differences(&order, slip),
        [],
        "it is relied on as before"
    );
}

#[test]
fn a_seal_of_a_version_that_is_not_known_is_told_as_such() {
    let job = issue(&ring(), Paper::Quotation, &[(25, "48.20")]);
    let seal = job.issued[0].seal.expect("a seal");
    let newer = with_seal(&job, 0, Some(Seal { version: 7, ..seal }));
    assert_eq!(newer.issued[0].seal_state(), SealState::Unknown(7));
    let told = of_papers(&newer);
    assert_eq!(told.len(), 1);
    let (level, code, text) = &told[0];
    assert_eq!((*level, *code), (Level::Check, "seal-unknown"));
    assert!(
        text.contains("version 7") && text.contains("newer version"),
        "{text}"
    );
    assert!(!newer.issued[0].is_trusted());
}

#[test]
fn an_order_is_not_held_against_a_changed_quotation_and_its_price_agrees_with_none() {
    let quoted = issue(&ring(), Paper::Quotation, &[(25, "48.20")]);
    let quoted = field(&quoted, Field::Material, "Stainless 316");
    let quoted = field(&quoted, Field::Machine, "Barrow");
    let lines = [(Line::Quantity, "25"), (Line::Each, "1.00")];
    for named in ["", "26-0107-q1 "] {
        let lines: Vec<_> = [(Line::Paper, named)].into_iter().chain(lines).collect();
        let cheap = changed(&pin(&quoted, SlipKind::Order, &lines), 0, "1.00");
        let order = cheap.slips_of::<kind::Order>().next().expect("the order");
        assert_eq!(order::quotation_of(&cheap, order), None);
        assert_eq!(order::quoted_price(&cheap, order), None);
        let differs = Difference::NotTrusted {
            named: "26-0107-Q1".to_owned(),
        };
        assert_eq!(order::differences(&cheap, order), [differs]);
        let shop = Shop::embedded().expect("the shop");
        let found = results_quick(&cheap, shop).found();
        for paper in [Paper::Confirmation, Paper::Traveler, Paper::Certificate] {
            let way = life::blockers(paper, &cheap, &found, None);
            let topics = vec![Topic::Quotation, Topic::Price];
            assert!(
                way.contains(&Blocker::OrderDiffers { topics }),
                "{paper:?} {way:?}"
            );
        }
        let told = notes(&cheap);
        assert!(told.iter().any(|note| note.code() == "order-below-price"));
        let said = told.iter().find(|note| note.code() == "order-differs");
        let said = notes_told::said(&cheap, said.expect("it is told"));
        assert!(
            said.contains("26-0107-Q1") && said.contains("seal"),
            "{said}"
        );
        // Somebody who knows better may say so.
        let word = hands::line(&cheap, order.id(), Line::Accepted, "the owner, by the PDF");
        let order = word.slips_of::<kind::Order>().next().expect("the order");
        assert_eq!(order::open(&word, order), []);
    }
}

#[test]
fn a_changed_confirmation_binds_nobody() {
    let job = field(&ring(), Field::Material, "Stainless 316");
    let job = field(&job, Field::Machine, "Barrow");
    let job = pin(
        &job,
        SlipKind::Order,
        &[(Line::Quantity, "25"), (Line::Each, "1.00")],
    );
    let below = |job: &Job| {
        notes(job)
            .iter()
            .any(|note| note.code() == "order-below-price")
    };
    assert!(below(&job));
    let bound = issue(&job, Paper::Confirmation, &[(25, "1.00")]);
    assert!(!below(&bound));
    let other = issue(&job, Paper::Confirmation, &[(25, "48.20")]);
    assert!(below(&changed(&other, 0, "1.00")));
}

#[test]
fn a_reorder_leaves_a_changed_price_out_and_says_whose() {
    let old = issue(&ring(), Paper::Quotation, &[(25, "48.20")]);
    let old = issue(&old, Paper::Confirmation, &[(25, "47.00")]);
    let last = |job: &Job| {
        let last = reorder::last_price(job, 25)?;
        Some((last.from, last.each.to_string()))
    };
    let price =
        |paper: &str, each: &str| Some((LastFrom::Paper(paper.to_owned()), each.to_owned()));
    assert_eq!(last(&old), price("26-0107-C1", "47.00"));
    assert_eq!(reorder::not_trusted(&old), [""; 0]);
    let broken = changed(&old, 1, "7.00");
    assert_eq!(last(&broken), price("26-0107-Q1", "48.20"));
    assert_eq!(reorder::not_trusted(&broken), ["26-0107-C1"]);
    let both = changed(&broken, 0, "8.20");
    assert_eq!(last(&both), None);
    assert_eq!(reorder::not_trusted(&both), ["26-0107-C1", "26-0107-Q1"]);
}
