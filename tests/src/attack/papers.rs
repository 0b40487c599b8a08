//! Papers of any job.

use chrono::NaiveDate;
use quillbore_job::results::results_now;
use quillbore_job::{Paper, Shop};
use quillbore_office::print::{Sitting, draft, pdf_of, why_not};
use quillbore_paper::Sheet;

use super::edits::some_edits;
use super::figures::a_job;
use super::pick::Pick;

/// Whatever is done to a job: each of its papers has a page, and some of them are made as PDF.
pub(super) fn of_any_job(bytes: &[u8]) {
    let Ok(shop) = Shop::embedded() else {
        panic!("the shop of the program");
    };
    let mut pick = Pick::new(bytes);
    let sheet = pick.of(&[Sheet::A4, Sheet::Letter]);
    let as_pdf = pick.below(Paper::ALL.len() * 4);
    let job = some_edits(&a_job(), &mut pick, 12);
    let results = results_now(&job, shop);
    let sitting = Sitting {
        job: &job,
        results: &results,
    };
    let day = NaiveDate::from_ymd_opt(2026, 11, 25).unwrap_or_default();
    for (at, paper) in Paper::ALL.iter().enumerate() {
        let why = why_not(*paper, sitting);
        assert!(!why.contains('\n'), "more than a line: {why}");
        let (document, _) = draft(*paper, sitting, shop, day, sheet);
        assert!(!document.pages.is_empty(), "no page of {}", paper.key());
        if at == as_pdf {
            let bytes = pdf_of(*paper, &document, &job, shop, day);
            assert!(bytes.is_ok_and(|bytes| bytes.starts_with(b"%PDF")));
        }
    }
}
