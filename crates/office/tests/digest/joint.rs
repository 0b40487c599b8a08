//! Quotations of several jobs that a crash left half done.

use std::sync::Arc;

use quillbore_job::{Job, Line, SlipKind};
use quillbore_office::digest::{HalfJoint, ShelfLine, half_joint};

use crate::jobs::{job, key, line, with_quotation, with_slip};

const ALL: &[&str] = &["26-0107", "26-0108", "26-0109"];

fn keeper() -> Job {
    with_quotation(&job("26-0107", &[]), "26-0107-Q1", None, ALL)
}

fn knowing(number: &str) -> Job {
    with_quotation(&job(number, &[]), "26-0107-Q1", Some("26-0107"), ALL)
}

fn half(jobs: &[Job]) -> Vec<HalfJoint> {
    half_joint(&jobs.iter().map(line).collect::<Vec<_>>())
}

fn missing(jobs: &[&str]) -> [HalfJoint; 1] {
    [HalfJoint {
        paper: "26-0107-Q1".to_owned(),
        keeper: key("26-0107"),
        missing_in: jobs.iter().map(|job| key(job)).collect(),
    }]
}

#[test]
fn a_joint_quotation_is_half_done_as_long_as_one_of_its_jobs_does_not_know_of_it() {
    let [second, third] = ["26-0108", "26-0109"].map(|number| job(number, &[]));
    let found = half(&[keeper(), second.clone(), third.clone()]);
    assert_eq!(found, missing(&["26-0108", "26-0109"]));
    let found = half(&[keeper(), knowing("26-0108"), third]);
    assert_eq!(found, missing(&["26-0109"]));
    let found = half(&[keeper(), knowing("26-0108"), knowing("26-0109")]);
    assert_eq!(found, []);
    // Its own quotation of another number doesn't make it know of the joint one.
    let own = with_quotation(&second, "26-0108-Q1", None, &["26-0108"]);
    let found = half(&[keeper(), own, knowing("26-0109")]);
    assert_eq!(found, missing(&["26-0108"]));
}

#[test]
fn what_no_longer_stands_is_not_half_done() {
    let others = ["26-0108", "26-0109"].map(|number| job(number, &[]));
    let back = [(Line::Paper, "26-0107-Q1"), (Line::Why, "wrong customer")];
    let withdrawn = with_slip(&keeper(), SlipKind::Withdrawal, &back);
    assert_eq!(half(&[&[withdrawn][..], &others].concat()), []);
    // A job that took its own part back knew of it.
    let back = with_slip(&knowing("26-0108"), SlipKind::Withdrawal, &back);
    assert_eq!(half(&[keeper(), back, knowing("26-0109")]), []);
}

#[test]
fn nothing_is_said_of_jobs_that_are_gone_or_cannot_be_read() {
    let broken = ShelfLine {
        name: "26-0108".to_owned(),
        job: Some(key("26-0108")),
        says: Err("not text".to_owned()),
    };
    assert_eq!(half_joint(&[line(&keeper()), Arc::new(broken)]), []);
}

#[test]
fn a_copy_under_another_name_keeps_nothing() {
    let single = with_quotation(&job("26-0107", &[]), "26-0107-Q1", None, &["26-0107"]);
    let copy = Job {
        number: "26-0107-ours".to_owned(),
        ..single.clone()
    };
    assert_eq!(half(&[single, copy]), []);
}
