//! When the floor may write on a blank form: once a traveler is released, and of inspection only while
//! the sheet is the one that it was released of.

mod common;

use std::sync::Arc;

use common::{Clerk, day, office, pdf, to_release};
use quillbore_job::results::results_now;
use quillbore_job::{Field, Paper};
use quillbore_office::blank;
use quillbore_office::print::Sitting;
use quillbore_paper::{BlankForm, Sheet};

fn why_not(clerk: &Clerk, form: BlankForm) -> Option<String> {
    let shop = clerk.office.shop_on(day());
    let shop = shop.for_job(&clerk.job);
    let results = results_now(&clerk.job, &shop);
    let sitting = Sitting {
        job: &clerk.job,
        results: &results,
    };
    blank::why_not(form, sitting)
}

#[test]
fn a_form_is_a_preview_until_the_traveler_is_released_and_its_sheet_stands() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let mut clerk = to_release(&office);
    for form in BlankForm::ALL {
        let why_not = why_not(&clerk, *form).expect("not released");
        assert!(why_not.starts_with("not released"), "{why_not}");
    }
    clerk.issue(Paper::Traveler);
    for form in BlankForm::ALL {
        assert_eq!(why_not(&clerk, *form), None, "{form:?}");
    }
    // Limits on the form would be others than those that the floor has.
    clerk.holes(["A", "6", "0.9 +-0.05", "12"]);
    assert_eq!(why_not(&clerk, BlankForm::RunRecord), None);
    let why_not = why_not(&clerk, BlankForm::Inspection).expect("another sheet");
    assert!(why_not.contains("26-0101-T1"), "{why_not}");
}

#[test]
fn printing_a_form_changes_neither_job_nor_papers() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let mut clerk = to_release(&office);
    clerk.issue(Paper::Traveler);
    clerk.field(Field::PartName, "sleeve");
    clerk.save().expect("saved");
    let opened = clerk.opened.clone().expect("a job on the shelf");
    let traveler = std::fs::read(pdf(folder.path(), "26-0101-T1")).expect("the traveler");
    let results = results_now(&clerk.job, &office.shop_on(day()).for_job(&clerk.job));
    let sitting = Sitting {
        job: &clerk.job,
        results: &results,
    };
    let print = |form| office.blank(form, sitting, Sheet::A4, day(), &opened);
    let place = print(BlankForm::RunRecord).expect("a page");
    assert!(place.ends_with("26-0101-blank-run-record.pdf"), "{place}");
    assert_eq!(print(BlankForm::RunRecord).expect("the same page"), place);
    let again = Clerk::opening(&office, "26-0101");
    assert_eq!(Arc::as_ref(&again.job), Arc::as_ref(&clerk.job));
    let there = std::fs::read(pdf(folder.path(), "26-0101-T1")).expect("the traveler");
    assert!(there == traveler);
}
