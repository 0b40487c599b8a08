//! Papers that lie beside a job without an entry: a crash came between the paper and the job.

use quillbore_job::slip::{kind, line};

use super::number;
use crate::save::Opened;

/// One sentence for each paper beside a job that no entry names and nobody wrote off; nothing where
/// the folder can't be listed, since then nothing is known.
#[must_use]
pub fn told(opened: &Opened) -> Vec<String> {
    let job = &opened.base;
    if opened.key.as_str() != job.number {
        return Vec::new();
    }
    let Ok(beside) = opened.shelf.attachments(&opened.key) else {
        return Vec::new();
    };
    let is_known = |number: &str| {
        let entry = job
            .issued
            .iter()
            .any(|issued| issued.number.eq_ignore_ascii_case(number));
        let mut slips = job.slips_of::<kind::Withdrawal>();
        entry || slips.any(|slip| slip.get(line::Paper).trim().eq_ignore_ascii_case(number))
    };
    beside
        .iter()
        .filter_map(|name| Some((name, number::of_file(name, job)?)))
        .filter(|(_, (_, number))| !is_known(number))
        .map(|(name, (paper, number))| {
            let place = opened.shelf.place_of(&opened.key, name);
            crate::words::issue::interrupted(paper, &number, &place)
        })
        .collect()
}
