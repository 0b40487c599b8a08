//! A newer table, drawing or solid beside the rows that are there.

use quillbore_intake::compare::{Became, Comparison, compare};
use quillbore_intake::drawn::{Drawn, Shows};
use quillbore_intake::{Foreign, Taken};
use quillbore_job::{EditRefused, Job, RowsAt, Unit, apply};

use super::files::comes_back;
use super::tables::say_all;

/// Whatever two files hold, parted by a zero byte: what one says beside the rows of the other is an edit that
/// can be done, every row is the same, changed, gone or added, and once done nothing differs any more. One file
/// alone is compared with itself.
pub(super) fn two(bytes: &[u8]) {
    let mut parts = bytes.splitn(2, |byte| *byte == 0);
    let before = parts.next().unwrap_or_default();
    let after = parts.next();
    let Some(taken) = take(before, &Job::default()) else {
        return;
    };
    let Ok((job, _)) = apply(&Job::default(), &taken.edit) else {
        return;
    };
    let newer = after.unwrap_or(before);
    let Some((comparison, done)) = compared(&job, newer) else {
        return;
    };
    let of = |became| comparison.count(became);
    let (changed, gone, added) = (of(Became::Changed), of(Became::Gone), of(Became::Added));
    let accounted = comparison.same + changed + gone;
    assert!(
        accounted == job.rows.len(),
        "{accounted} rows of {}",
        job.rows.len()
    );
    assert!(
        done.rows.len() == job.rows.len() - gone + added,
        "rows are lost"
    );
    if after.is_none() {
        is_nothing(&comparison, &job, "compared with itself");
    }
    comes_back(&done);
    let Some((again, still)) = compared(&done, newer) else {
        panic!("done, but not to be compared again");
    };
    is_nothing(&again, &done, "compared again");
    assert!(still.rows == done.rows, "done again, rows are others");
}

fn is_nothing(comparison: &Comparison, job: &Job, when: &str) {
    let lines = &comparison.lines;
    assert!(lines.is_empty(), "{when}: {lines:?}");
    assert!(comparison.same == job.rows.len(), "{when}: rows are lost");
}

/// What a file says beside a job's rows, with the job after it was done; `None` where the file has no holes.
fn compared(job: &Job, bytes: &[u8]) -> Option<(Comparison, Job)> {
    let taken = take(bytes, job)?;
    let comparison = match compare(job, &taken) {
        Ok(comparison) => comparison,
        Err(refused) => {
            is_sentence(&refused);
            return None;
        }
    };
    match apply(job, &comparison.edit) {
        Ok((done, _)) => Some((comparison, done)),
        Err(refused) => panic!("an edit that can't be done: {refused}"),
    }
}

fn is_sentence(refused: &EditRefused) {
    assert!(!refused.to_string().is_empty() && !refused.hint().is_empty());
}

fn take(bytes: &[u8], job: &Job) -> Option<Taken> {
    let begins = bytes.trim_ascii_start();
    let is_drawing = begins.starts_with(b"0\n") || begins.starts_with(b"0\r\n");
    let name = if is_drawing { "holes.dxf" } else { "holes.csv" };
    if let Some(shows) = Shows::of(bytes, name) {
        let mut drawn = Drawn::read(shows, bytes, name, &|_| false).ok()?;
        drawn.say_unit(Unit::Mm);
        // One of several is left out, another with other bytes.
        let holes = drawn.seen().holes.len();
        if holes > 1 && bytes.len() % 2 == 1 {
            drawn.choose(bytes.len() / 2 % holes, false);
        }
        return drawn.take(job, RowsAt::Replace).ok();
    }
    let mut table = Foreign::of_file(bytes, name).ok()?;
    say_all(&mut table, bytes);
    table.take(job, RowsAt::Replace, Unit::Mm).ok()
}
