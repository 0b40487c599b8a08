//! Job files and shop files.

use chrono::NaiveDate;
use quillbore_job::file::{read_job, write_job};
use quillbore_job::{Job, Shop};
use quillbore_office::files;

/// Whatever the bytes: a job or one sentence; a job that was read is written, and read the same.
pub(super) fn job(bytes: &[u8]) {
    match read_job(bytes) {
        Ok(job) => comes_back(&job),
        Err(error) => is_sentence(&error.to_string(), error.hint()),
    }
}

/// Whatever the bytes: a shop with rates that are numbers, or one sentence.
pub(super) fn shop(bytes: &[u8]) {
    match Shop::with_file(bytes) {
        Ok(shop) => {
            let day = NaiveDate::from_ymd_opt(2026, 11, 25).unwrap_or_default();
            let shop = files::shop_on(&shop, day);
            if bytes.iter().fold(0_u8, |sum, byte| sum.wrapping_add(*byte)) % 16 == 0 {
                super::figures::are_numbers(&super::figures::a_job(), &shop);
            }
        }
        Err(error) => is_sentence(&error.to_string(), error.hint()),
    }
}

/// A job is written so that it is read the same.
pub(super) fn comes_back(job: &Job) {
    let text = write_job(job);
    let again = read_job(text.as_bytes());
    assert!(
        again.as_ref() == Ok(job),
        "{:?} of {text}",
        again.as_ref().err()
    );
    assert!(write_job(job) == text, "written differently: {text}");
}

fn is_sentence(says: &str, hint: &str) {
    assert!(!says.is_empty() && !hint.is_empty(), "no reason");
    assert!(!says.contains('\n'), "more than a sentence: {says}");
}
