//! What side notes ask before anything is quoted or released, and how it was answered.

use std::collections::{BTreeMap, BTreeSet};

use quillbore_calc::finding::{About, Finding, Level};
use quillbore_calc::{JobFigures, RowId};

use super::found::found;
use super::kind::NoteKind;
use super::note::{Beside, SideNote};
use crate::asked::question::Question;
use crate::asked::to_input::Asked;
use crate::edits::edit::Edit;
use crate::job::Job;
use crate::pinned::concern::{Concern, Facts, all_asked, asked};
use crate::results::remedy::Offer;
use crate::typed::form::Form;
use crate::words::answers as words;
use crate::words::speaker::Speaker;

/// A note, and where its row stands in the table.
type Placed = (SideNote, Option<usize>);

/// Adds the findings of rows as notes, each with what it asks; what was answered is only a note.
///
/// A finding that vanished since it was answered is told all the same, and so is an answer that
/// nothing asks for any more.
pub(super) fn of_rows(
    speaker: &Speaker<'_>,
    asks: &Asked,
    figures: &JobFigures,
    notes: &mut Vec<Placed>,
) {
    let Speaker { job, form, .. } = *speaker;
    let answered: BTreeSet<RowId> = job.answers.iter().map(|answer| answer.row).collect();
    let mut unanswered: BTreeMap<RowId, Vec<&Finding>> = BTreeMap::new();
    for finding in &asks.unanswered {
        if let About::Row(row) = finding.about {
            unanswered.entry(row).or_default().push(finding);
        }
    }
    for (at, hole) in figures.holes.iter().enumerate() {
        let unanswered = unanswered.get(&hole.row).map_or(&[][..], Vec::as_slice);
        let mut all: Vec<&Finding> = hole.findings.iter().collect();
        // What an answer was given to is what would be found without it.
        let questions = if answered.contains(&hole.row) {
            all.extend(vanished(&hole.findings, unanswered));
            all_asked(unanswered.iter().copied())
        } else {
            all_asked(&hole.findings)
        };
        for finding in all {
            let mut note = found(finding, Some(at));
            ask(job, finding, &questions, &mut note);
            notes.push((note, Some(at)));
        }
    }
    let questions = all_asked(&asks.unanswered);
    notes.extend(job.answers.iter().filter_map(|answer| {
        let key = (answer.row, answer.concern);
        (!questions.contains_key(&key)).then(|| (to_nothing(job, key, form), None))
    }));
}

/// How many notes [`of_rows`] adds at most.
pub(super) fn at_most(job: &Job, asks: &Asked, figures: &JobFigures) -> usize {
    let found_in_rows = figures.holes.iter().map(|hole| hole.findings.len());
    found_in_rows.sum::<usize>() + asks.unanswered.len() + job.answers.len()
}

/// What is found in a row only as long as nobody has answered it.
fn vanished<'a>(
    there: &[Finding],
    unanswered: &[&'a Finding],
) -> impl Iterator<Item = &'a Finding> {
    let concern = |finding: &Finding| asked(finding).map(|(_, concern, _)| concern);
    let there: BTreeSet<Concern> = there.iter().filter_map(concern).collect();
    let of_row = unanswered.iter().copied();
    of_row.filter(move |finding| concern(finding).is_some_and(|c| !there.contains(&c)))
}

fn ask(
    job: &Job,
    finding: &Finding,
    questions: &BTreeMap<(RowId, Concern), Facts>,
    note: &mut SideNote,
) {
    let Some((row, concern, facts)) = asked(finding) else {
        return;
    };
    let facts = questions.get(&(row, concern)).cloned().unwrap_or(facts);
    let question = Question::of(job, row, concern, facts);
    if question.answer.is_some() {
        note.level = Level::Note;
    }
    note.question = Some(Box::new(question));
}

/// An answer about something that is no longer found.
fn to_nothing(job: &Job, (row, concern): (RowId, Concern), form: Form) -> SideNote {
    let answer = job.answer(row, concern);
    let said = answer.map_or_else(String::new, |answer| words::to_nothing(answer, form));
    let beside = Beside::Row(row, None);
    SideNote::new(Level::Note, NoteKind::AnswerToNothing, beside, said).offering(Some(Offer {
        words: words::DELETE.to_owned(),
        edit: Edit::WithdrawAnswer { row, concern },
    }))
}
