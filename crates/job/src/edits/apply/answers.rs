//! Answers to checks that concern the customer: given, and taken back.

use quillbore_calc::RowId;

use super::change::Change;
use super::refused::EditRefused;
use crate::ground::limits::LONGEST_ANSWER;
use crate::job::Job;
use crate::pinned::answer::Answer;
use crate::pinned::concern::Concern;

pub(super) fn put(job: &mut Job, answer: &Answer) -> Result<Change, EditRefused> {
    if job.row(answer.row).is_none() {
        return Err(EditRefused::NoSuchRow { row: answer.row });
    }
    let facts = &answer.facts;
    if !facts
        .given
        .iter()
        .chain([&facts.by])
        .all(|fact| fact.is_finite())
    {
        return Err(EditRefused::FactsUnusable);
    }
    let said = in_one_line(&answer.said)?;
    if said.is_empty() {
        return Err(EditRefused::AnswerMissing { how: answer.how });
    }
    let new = Answer {
        said,
        by: in_one_line(&answer.by)?,
        ..answer.clone()
    };
    let old = job.answers.place(&(new.row, new.concern));
    let other = old.is_none_or(|at| job.answers[at] != new);
    match old {
        Some(at) if other => job.answers.replace(at, new),
        Some(_) => {}
        None => job.answers.push(new),
    }
    Ok(Change {
        other,
        ..Change::default()
    })
}

pub(super) fn withdraw(job: &mut Job, row: RowId, concern: Concern) -> Result<Change, EditRefused> {
    let before = job.answers.len();
    job.answers
        .retain(|answer| answer.row != row || answer.concern != concern);
    if job.answers.len() == before {
        return Err(EditRefused::NotAnswered);
    }
    Ok(Change {
        other: true,
        ..Change::default()
    })
}

/// The text with every run of blanks and line breaks as one blank, and nothing that can't be printed.
fn in_one_line(text: &str) -> Result<String, EditRefused> {
    let most = LONGEST_ANSWER;
    crate::typed::read_quantity::line(text, most).map_err(|_| EditRefused::AnswerUnfit { most })
}
