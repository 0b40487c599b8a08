//! The number of the next paper: above every entry of the job and every file beside it.

use quillbore_job::{Job, Paper};

use crate::failure::Failure;
use crate::names::AttachmentName;
use crate::words::issue as words;

/// The highest revision of a paper.
const HIGHEST: u32 = 999_999;

/// The number that the next paper of a kind gets; a file whose entry a crash prevented keeps its own.
///
/// # Errors
/// Where no revision is left.
pub(super) fn next(job: &Job, paper: Paper, beside: &[AttachmentName]) -> Result<String, Failure> {
    let stem = format!("{}-{}", job.number, paper.letter());
    let entries = job.issued.iter().map(|issued| issued.number.as_str());
    let files = beside.iter().map(AttachmentName::as_str);
    let taken = entries
        .chain(files)
        .filter_map(|name| revision(name, &stem));
    let next = taken.max().unwrap_or(0) + 1;
    let next = (next <= HIGHEST).then_some(next);
    next.map(|next| format!("{stem}{next}"))
        .ok_or_else(words::no_number_left)
}

/// The revision that a number or the name of a file has, in any case and with any ending.
fn revision(name: &str, stem: &str) -> Option<u32> {
    let (start, rest) = name.split_at_checked(stem.len())?;
    if !start.eq_ignore_ascii_case(stem) {
        return None;
    }
    let digits = rest.bytes().take_while(u8::is_ascii_digit).count();
    let (digits, _) = rest.split_at(digits);
    // A number that no hand came to must not carry the count off.
    digits.parse().ok().filter(|revision| *revision <= HIGHEST)
}

/// The paper and number that a file's name says, where it is one of a job's papers.
pub(super) fn of_file(name: &AttachmentName, job: &Job) -> Option<(Paper, String)> {
    let stem = name.as_str().strip_suffix(".pdf")?;
    let rest = stem.strip_prefix(job.number.as_str())?.strip_prefix('-')?;
    let letter = rest.chars().next()?;
    let paper = Paper::ALL.iter().find(|paper| paper.letter() == letter)?;
    let digits = &rest[letter.len_utf8()..];
    let is_number = !digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit());
    is_number.then(|| (*paper, stem.to_owned()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_is_above_every_entry_and_every_file() {
        let job = Job {
            number: "26-0107".to_owned(),
            ..Job::default()
        };
        let names = |names: &[&str]| -> Vec<AttachmentName> {
            names
                .iter()
                .map(|name| AttachmentName::new(name).expect("a name"))
                .collect()
        };
        let next = |beside: &[&str]| next(&job, Paper::Traveler, &names(beside)).ok();
        assert_eq!(next(&[]).as_deref(), Some("26-0107-T1"));
        let beside = [
            "26-0107-T4.pdf",
            "26-0107-Q9.pdf",
            "26-0107-traveler.pdf",
            "26-01071-T8.pdf",
        ];
        assert_eq!(next(&beside).as_deref(), Some("26-0107-T5"));
        assert_eq!(next(&["26-0107-t7.PDF"]).as_deref(), Some("26-0107-T8"));
        let odd = next(&["26-0107-T4.pdf", "26-0107-T4294967295.pdf"]);
        assert_eq!(odd.as_deref(), Some("26-0107-T5"));
        assert_eq!(next(&["26-0107-T999999.pdf"]), None);
        let of = |name: &str| of_file(&AttachmentName::new(name).expect("a name"), &job);
        assert_eq!(
            of("26-0107-T4.pdf"),
            Some((Paper::Traveler, "26-0107-T4".to_owned()))
        );
        for other in [
            "26-0107-traveler.pdf",
            "26-0107-T.pdf",
            "26-0108-T1.pdf",
            "26-0107-T1.jpg",
        ] {
            assert_eq!(of(other), None, "{other}");
        }
    }
}
