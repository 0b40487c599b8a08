//! Numbers of days that are possible, and hardly meant.

use quillbore_calc::finding::Level;

use super::kind::NoteKind;
use super::note::{Beside, SideNote};
use crate::job::Job;
use crate::typed::field::Field;
use crate::typed::form::Form;
use crate::words::promise as words;

/// From this many days on, nearly three years, a number is more likely a slip: 3000 for 30.
const HARDLY_MEANT: u32 = 1000;

/// Lead time and validity that are hardly meant; a lead time of none is told once, with how long the lot
/// takes where that is known (`is_told`).
pub(super) fn odd(job: &Job, is_told: bool, form: Form) -> Vec<SideNote> {
    let note =
        |field, said| SideNote::new(Level::Check, NoteKind::DaysOdd, Beside::Field(field), said);
    let lead = job.count(Field::LeadDays).and_then(|days| match days {
        0 if is_told => None,
        0 => Some(words::no_lead_time().to_owned()),
        HARDLY_MEANT.. => Some(words::lead_time_odd(days, form)),
        _ => None,
    });
    let valid = job.count(Field::ValidDays);
    let valid = valid.filter(|days| *days >= HARDLY_MEANT);
    let valid = valid.map(|days| note(Field::ValidDays, words::validity_odd(days, form)));
    let lead = lead.map(|said| note(Field::LeadDays, said));
    lead.into_iter().chain(valid).collect()
}
