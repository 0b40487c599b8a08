//! What checks ask of rows, and which answers to them count.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;
use quillbore_calc::finding::Finding;
use quillbore_calc::input::JobInput;
use quillbore_calc::{RowId, Tables, assemble};

use crate::edits::edit::Edit;
use crate::job::Job;
use crate::pinned::answer::{Answer, How};
use crate::pinned::concern::{Concern, Facts, all_asked};

/// What a check beside a row asks, and how it was answered.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// The row.
    pub row: RowId,
    /// What is asked.
    pub concern: Concern,
    /// On what facts.
    pub facts: Facts,
    /// The answer that counts.
    pub answer: Option<Box<Answer>>,
    /// An answer that was given for other facts and doesn't count.
    pub outdated: Option<Box<Answer>>,
}

/// An answer as it is typed.
#[derive(Clone, Copy, Debug)]
pub struct Given<'a> {
    /// Agreed, or accepted.
    pub how: How,
    /// Who agreed, or why it is accepted.
    pub said: &'a str,
    /// Who types it.
    pub by: &'a str,
    /// The day.
    pub date: NaiveDate,
}

impl Question {
    /// A question with what a job says to it.
    #[must_use]
    pub fn of(job: &Job, row: RowId, concern: Concern, facts: Facts) -> Self {
        let given = job.answer(row, concern).cloned().map(Box::new);
        let counts = given.as_ref().is_some_and(|a| a.facts.cover(&facts));
        let (answer, outdated) = if counts { (given, None) } else { (None, given) };
        Self {
            row,
            concern,
            facts,
            answer,
            outdated,
        }
    }
}

/// The edit that answers those of the questions asked now that are `wanted`, each once and with its
/// facts as they are now; none where nothing of it is asked any more.
#[must_use]
pub fn answer_edit<'a>(
    asked: impl Iterator<Item = &'a Question>,
    wanted: &[(RowId, Concern)],
    given: &Given<'_>,
) -> Option<Edit> {
    let mut wanted: BTreeSet<(RowId, Concern)> = wanted.iter().copied().collect();
    let asked = asked.filter(|question| wanted.remove(&(question.row, question.concern)));
    let edits = asked.map(|question| {
        Edit::Answer(Answer {
            row: question.row,
            concern: question.concern,
            facts: question.facts.clone(),
            how: given.how,
            said: given.said.to_owned(),
            by: given.by.to_owned(),
            date: given.date,
        })
    });
    Edit::together(edits.collect())
}

/// What the calculation finds in rows that have answers, as if nobody had answered: an answer can
/// make the very finding vanish that it was given to.
#[must_use]
pub fn unanswered_findings(job: &Job, input: &JobInput, tables: &Tables) -> Vec<Finding> {
    let answered: BTreeSet<RowId> = job.answers.iter().map(|answer| answer.row).collect();
    let rows = input.rows.iter().filter(|row| answered.contains(&row.id));
    let rows: Vec<_> = rows.cloned().collect();
    if rows.is_empty() {
        return Vec::new();
    }
    let alone = JobInput {
        rows,
        ..input.clone()
    };
    let figures = assemble::quick(&alone, tables);
    let holes = figures.holes.iter();
    holes
        .flat_map(|hole| hole.findings.iter().cloned())
        .collect()
}

/// Puts the answers that count into what the calculation is asked.
pub(crate) fn put_answers(job: &Job, unanswered: &[Finding], input: &mut JobInput) {
    let asked = all_asked(unanswered);
    let given: BTreeMap<(RowId, Concern), How> = asked
        .into_iter()
        .filter_map(|((row, concern), facts)| {
            let answer = Question::of(job, row, concern, facts).answer?;
            Some(((row, concern), answer.how))
        })
        .collect();
    if given.is_empty() {
        return;
    }
    for row in &mut input.rows {
        let how = |concern| given.get(&(row.id, concern)).copied();
        row.risk_agreed = how(Concern::Limits) == Some(How::Agreed);
        row.wall_waived = how(Concern::WallBehind).is_some();
    }
}
