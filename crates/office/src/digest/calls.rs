//! Calls to make.

use chrono::NaiveDate;
use quillbore_job::slip::{View, kind, line};
use quillbore_job::{Field, Job, Line, SlipKind};

use super::matters::line_unread;
use super::open::OpenMatter;

/// Calls to make: until a later slip says that somebody called on the day or after it. A call that
/// comes before the day may be about something else. Where the day can't be read, any later call
/// counts.
pub(super) fn calls(job: &Job) -> Vec<OpenMatter> {
    let calls: Vec<View<'_, kind::Call>> = job.slips_of::<kind::Call>().collect();
    let mut open = Vec::new();
    for (at, slip) in calls.iter().enumerate() {
        let again = slip.entry(line::CallAgain);
        let day = slip.get(line::CallAgain);
        if day.is_none() && again.why().is_none() {
            continue;
        }
        let called = |later: &View<'_, kind::Call>| {
            let date = later.get(line::Date);
            date.is_some_and(|date| day.is_none_or(|day| date >= day))
        };
        if calls[at + 1..].iter().any(called) {
            continue;
        }
        open.push(match day {
            Some(day) => OpenMatter::Call {
                slip: slip.id(),
                day,
                who: slip.get(line::Who).to_owned(),
            },
            None => line_unread(slip.id(), SlipKind::Call, Line::CallAgain, again.text()),
        });
    }
    open
}

/// When to ask what became of the quotation: until somebody calls on that day or after it, or a call
/// promises another one then or later.
pub(super) fn follow_up(job: &Job) -> Option<NaiveDate> {
    let day = job.date(Field::FollowUp)?;
    let settles = |call: View<'_, kind::Call>| {
        let called = call.get(line::Date).is_some_and(|date| date >= day);
        called || call.get(line::CallAgain).is_some_and(|again| again >= day)
    };
    (!job.slips_of::<kind::Call>().any(settles)).then_some(day)
}
