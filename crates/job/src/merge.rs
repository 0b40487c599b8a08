//! Two desks changed one job: what each of them did put together, line by line.

use std::collections::BTreeSet;
use std::sync::Arc;

use crate::answer::Answer;
use crate::field::Field;
use crate::job::{Job, Overrule};
use crate::row::Row;
use crate::slip::Slip;

/// Both desks' work in one job, and where they met.
#[derive(Clone, Debug, PartialEq)]
pub struct Merged {
    /// The job with both desks' work; where both changed the same thing, ours stands.
    pub job: Job,
    /// What of theirs does not stand.
    pub clashes: Vec<Clash>,
}

/// Something that both desks changed, each in its way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Clash {
    /// A field, with their text.
    Field(Field, String),
    /// A row by its mark on their sheet.
    Row(String),
    /// An overruled figure.
    Overrule,
    /// The answer to a check of a row, by the mark of the row.
    Answer(String),
    /// An answer about a row that the other desk took out, by the mark that the row had.
    AnswerGone(String),
    /// A slip by its identity.
    Slip(u32),
}

/// Puts together what we and they made of `base`: what only one of the two touched is taken as they
/// left it, new rows, slips and papers of both stay.
///
/// New rows and slips of both desks may carry the same identity; ours get new ones, so the result is
/// no edit of either and undo must be barred.
#[must_use]
pub fn merge(base: &Job, ours: &Job, theirs: &Job) -> Merged {
    let mut job = theirs.clone();
    let mut clashes = Vec::new();
    job.unit = ours.unit;
    fields(base, ours, theirs, &mut job, &mut clashes);
    let renumbered = rows(base, ours, theirs, &mut job, &mut clashes);
    overrules(base, ours, theirs, &mut job, &mut clashes, &renumbered);
    answers(base, ours, theirs, &mut job, &mut clashes, &renumbered);
    slips(base, ours, theirs, &mut job, &mut clashes);
    for issued in &ours.issued {
        if !job.issued.iter().any(|there| there.number == issued.number) {
            job.issued.push(Arc::clone(issued));
        }
    }
    for report in &ours.reports {
        if !job.reports.contains(report) {
            job.reports.push(Arc::clone(report));
        }
    }
    Merged { job, clashes }
}

fn fields(base: &Job, ours: &Job, theirs: &Job, job: &mut Job, clashes: &mut Vec<Clash>) {
    for &field in Field::ALL {
        let (old, mine, other) = (base.field(field), ours.field(field), theirs.field(field));
        if mine == old || mine == other {
            continue;
        }
        if other != old {
            clashes.push(Clash::Field(field, other.text().to_owned()));
        }
        let fields = Arc::make_mut(&mut job.fields);
        if mine.is_empty() {
            fields.remove(&field);
        } else {
            fields.insert(field, mine.clone());
        }
    }
}

/// Rows of ours that got a new identity: old and new.
fn rows(
    base: &Job,
    ours: &Job,
    theirs: &Job,
    job: &mut Job,
    clashes: &mut Vec<Clash>,
) -> Vec<(quillbore_calc::RowId, quillbore_calc::RowId)> {
    let mut renumbered = Vec::new();
    let mark = |row: &Row| row.mark.text().trim().to_owned();
    for row in &ours.rows {
        match (base.row(row.id), theirs.row(row.id)) {
            (Some(old), _) if old == row.as_ref() => {}
            (Some(old), Some(other)) => {
                if other != old && other != row.as_ref() {
                    clashes.push(Clash::Row(mark(other)));
                }
                if let Some(at) = job.row_index(row.id) {
                    job.rows[at] = Arc::clone(row);
                }
            }
            // They took out what we changed: it stays, and is told.
            (Some(old), None) => {
                clashes.push(Clash::Row(mark(old)));
                job.rows.push(Arc::clone(row));
            }
            (None, other) => {
                if other == Some(row.as_ref()) {
                    continue;
                }
                let id = quillbore_calc::RowId(job.next_row.max(ours.next_row));
                job.next_row = id.0 + 1;
                renumbered.push((row.id, id));
                job.rows.push(Arc::new(Row {
                    id,
                    ..row.as_ref().clone()
                }));
            }
        }
    }
    // What we took out goes, unless they changed it.
    let kept: BTreeSet<_> = ours.rows.iter().map(|row| row.id).collect();
    for old in &base.rows {
        if kept.contains(&old.id) {
            continue;
        }
        match theirs.row(old.id) {
            Some(other) if other == old.as_ref() => job.rows.retain(|row| row.id != old.id),
            Some(other) => clashes.push(Clash::Row(mark(other))),
            None => {}
        }
    }
    job.next_row = job.next_row.max(ours.next_row);
    renumbered
}

fn overrules(
    base: &Job,
    ours: &Job,
    theirs: &Job,
    job: &mut Job,
    clashes: &mut Vec<Clash>,
    renumbered: &[(quillbore_calc::RowId, quillbore_calc::RowId)],
) {
    let of = |job: &Job, wanted: &Overrule| -> Option<Overrule> {
        let found = job.overrules.iter().find(|o| o.figure == wanted.figure);
        found.cloned()
    };
    for mine in &ours.overrules {
        let old = of(base, mine);
        if old.as_ref() == Some(mine) {
            continue;
        }
        let mut new = mine.clone();
        for &(from, to) in renumbered {
            new.figure = new.figure.renumbered(from, to);
        }
        match of(theirs, mine) {
            Some(other) if Some(&other) != old.as_ref() && other != *mine => {
                clashes.push(Clash::Overrule);
            }
            _ => {}
        }
        job.overrules.retain(|there| there.figure != new.figure);
        job.overrules.push(new);
    }
    for old in &base.overrules {
        if of(ours, old).is_some() {
            continue;
        }
        match of(theirs, old) {
            Some(other) if other == *old => {
                job.overrules.retain(|there| there.figure != old.figure);
            }
            Some(_) => clashes.push(Clash::Overrule),
            None => {}
        }
    }
}

/// Answers go with the rows that they are about: one about a row that is gone is told.
fn answers(
    base: &Job,
    ours: &Job,
    theirs: &Job,
    job: &mut Job,
    clashes: &mut Vec<Clash>,
    renumbered: &[(quillbore_calc::RowId, quillbore_calc::RowId)],
) {
    let of = |job: &Job, wanted: &Answer| job.answer(wanted.row, wanted.concern).cloned();
    let mark = |answer: &Answer| {
        let rows = [ours, theirs, base].into_iter();
        let mut rows = rows.filter_map(|job| job.row(answer.row));
        let found = rows.next();
        found.map_or_else(String::new, |row| row.mark.text().trim().to_owned())
    };
    for mine in &ours.answers {
        let old = of(base, mine);
        if old.as_ref() == Some(mine) {
            continue;
        }
        let new_row = renumbered.iter().find(|(from, _)| *from == mine.row);
        let new = Answer {
            row: new_row.map_or(mine.row, |(_, to)| *to),
            ..mine.clone()
        };
        // A row of ours that got a new identity never had an answer of theirs.
        let other = new_row.is_none().then(|| of(theirs, mine)).flatten();
        if other.is_some_and(|other| Some(&other) != old.as_ref() && other != *mine) {
            clashes.push(Clash::Answer(mark(mine)));
        }
        if job.row(new.row).is_none() {
            clashes.push(Clash::AnswerGone(mark(mine)));
            continue;
        }
        job.answers
            .retain(|there| there.row != new.row || there.concern != new.concern);
        job.answers.push(new);
    }
    for old in &base.answers {
        if of(ours, old).is_some() {
            continue;
        }
        match of(theirs, old) {
            Some(other) if other == *old => {
                job.answers
                    .retain(|there| there.row != old.row || there.concern != old.concern);
            }
            Some(_) => clashes.push(Clash::Answer(mark(old))),
            None => {}
        }
    }
    // What they answered about a row that we took out.
    let rows: BTreeSet<_> = job.rows.iter().map(|row| row.id).collect();
    let gone = |answer: &&Answer| !rows.contains(&answer.row);
    let lost = job.answers.iter().filter(gone);
    clashes.extend(lost.map(|answer| Clash::AnswerGone(mark(answer))));
    job.answers.retain(|answer| rows.contains(&answer.row));
}

fn slips(base: &Job, ours: &Job, theirs: &Job, job: &mut Job, clashes: &mut Vec<Clash>) {
    for slip in &ours.slips {
        match (base.slip(slip.id), theirs.slip(slip.id)) {
            (Some(old), _) if old == slip.as_ref() => {}
            (Some(old), other) => {
                if other.is_none_or(|other| other != old && other != slip.as_ref()) {
                    clashes.push(Clash::Slip(slip.id));
                }
                match job.slips.iter_mut().find(|there| there.id == slip.id) {
                    Some(there) => *there = Arc::clone(slip),
                    None => job.slips.push(Arc::clone(slip)),
                }
            }
            (None, Some(other)) if other == slip.as_ref() => {}
            (None, _) => {
                let id = job.next_slip.max(ours.next_slip);
                job.next_slip = id + 1;
                job.slips.push(Arc::new(Slip {
                    id,
                    ..slip.as_ref().clone()
                }));
            }
        }
    }
    for old in &base.slips {
        if ours.slip(old.id).is_some() {
            continue;
        }
        match theirs.slip(old.id) {
            Some(other) if other == old.as_ref() => job.slips.retain(|slip| slip.id != old.id),
            Some(_) => clashes.push(Clash::Slip(old.id)),
            None => {}
        }
    }
    job.next_slip = job.next_slip.max(ours.next_slip);
}
