//! Putting figures in place of computed ones, and taking them back.

use super::change::Change;
use super::length::check_length;
use super::refused::EditRefused;
use crate::job::Job;
use crate::typed::entry::Unit;
use crate::typed::overrule::{FigureKey, Overrule};
use crate::typed::read_overrule::read_overrule;

pub(super) fn put(
    job: &mut Job,
    figure: &FigureKey,
    text: &str,
    reason: &str,
    unit: Unit,
) -> Result<Change, EditRefused> {
    check_length(text)?;
    check_length(reason)?;
    if let Some(row) = figure.row()
        && job.row(row).is_none()
    {
        return Err(EditRefused::NoSuchRow { row });
    }
    let value = read_overrule(figure, text, unit);
    if value.is_empty() {
        return Err(EditRefused::ValueMissing);
    }
    let reason = reason.trim().to_owned();
    if reason.is_empty() {
        return Err(EditRefused::ReasonMissing);
    }
    let new = Overrule {
        figure: figure.clone(),
        value,
        reason,
    };
    let mut change = Change {
        read: usize::from(new.value.value().is_some()),
        unread: usize::from(new.value.why().is_some()),
        other: true,
        ..Change::default()
    };
    match job.overrules.place(figure) {
        Some(at) if job.overrules[at] == new => change.other = false,
        Some(at) => job.overrules.replace(at, new),
        None => job.overrules.push(new),
    }
    Ok(change)
}

pub(super) fn withdraw(job: &mut Job, figure: &FigureKey) -> Result<Change, EditRefused> {
    let before = job.overrules.len();
    job.overrules.retain(|old| old.figure != *figure);
    if job.overrules.len() == before {
        return Err(EditRefused::NotOverruled);
    }
    Ok(Change {
        other: true,
        ..Change::default()
    })
}
