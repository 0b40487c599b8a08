//! Inquiry, quotation, order, parts, release, run, delivery, reorder: a job's life at the office, on
//! every form of the shelf that holds more than one job.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod common;

use std::sync::Arc;

use common::{Clerk, day, inquiry, office, office_in_memory};
use quillbore_job::life::{State, state};
use quillbore_job::{Field, Form, Line, Paper, SlipKind, reorder};
use quillbore_office::Office;
use quillbore_office::office::reprint::reprint;

#[test]
fn a_life_in_a_folder() {
    let folder = tempfile::tempdir().expect("a folder");
    live(&office(folder.path()));
}

#[test]
fn a_life_in_memory() {
    live(&office_in_memory().0);
}

fn live(office: &Arc<Office>) {
    let mut job = inquiry(office);
    job.save().expect("saved");
    assert_eq!((job.number(), state(&job.job)), ("26-0101", State::Inquiry));
    assert!(
        job.refused(Paper::Confirmation)
            .contains("the order is not here")
    );
    let quotation = job.issue(Paper::Quotation);
    assert_eq!(
        (quotation.number.as_str(), state(&job.job)),
        ("26-0101-Q1", State::Quoted)
    );
    let each = quotation.lines[0].each.expect("a price");

    job.pin(
        SlipKind::Order,
        &[
            (Line::Number, "PO 71"),
            (Line::Quantity, "12"),
            (Line::Each, &each.to_string()),
        ],
    );
    let confirmation = job.issue(Paper::Confirmation);
    assert_eq!(confirmation.number, "26-0101-C1");
    assert_eq!(state(&job.job), State::Ordered);
    assert!(
        job.refused(Paper::Traveler)
            .contains("the parts are not here")
    );

    job.pin(
        SlipKind::Received,
        &[(Line::Count, "12"), (Line::Heat, "H-4471")],
    );
    assert_eq!(job.issue(Paper::Receiving).number, "26-0101-R1");
    assert_eq!(state(&job.job), State::PartsHere);
    let traveler = job.issue(Paper::Traveler);
    assert_eq!(
        (traveler.number.as_str(), state(&job.job)),
        ("26-0101-T1", State::OnTheFloor)
    );

    assert!(job.refused(Paper::Certificate).contains("delivery"));
    job.pin(
        SlipKind::Run,
        &[
            (Line::Mark, "A"),
            (Line::Good, "12"),
            (Line::FloorMinutes, "180"),
            (Line::NextTime, "rinse after every part"),
        ],
    );
    job.pin(SlipKind::Delivery, &[(Line::Count, "12")]);
    for (paper, number) in [
        (Paper::Certificate, "26-0101-F1"),
        (Paper::Packing, "26-0101-P1"),
        (Paper::Label, "26-0101-B1"),
    ] {
        assert_eq!(job.issue(paper).number, number);
    }
    assert_eq!(state(&job.job), State::Delivered);

    // A year later: found by its number, done again, with what it taught.
    let old = Clerk::opening(office, "26-0101");
    assert_eq!(old.job, job.job, "nothing was lost on the way");
    let mut again = Clerk::with(office, reorder::again(&old.job, day()));
    again.save().expect("saved");
    assert_eq!(again.number(), "26-0102");
    let before = office.before(&again.job).expect("the job before");
    assert_eq!(before.number, "26-0101");
    assert!(again.job.text(Field::Lessons).contains("rinse"));
    assert_eq!(again.issue(Paper::Quotation).number, "26-0102-Q1");

    // Every paper is there to the byte that was issued.
    let opened = old.opened.as_ref().expect("it stands on the shelf");
    assert_eq!(old.job.issued.len(), 7);
    for issued in &old.job.issued {
        let (_, bytes) =
            reprint(&old.job, opened, &issued.number, Form::default()).expect("the paper");
        assert!(bytes.starts_with(b"%PDF"), "{}", issued.number);
    }
}
