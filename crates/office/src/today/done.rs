//! A line of the day's list, seen to by one key.

use chrono::NaiveDate;
use quillbore_job::prefilled::new_slip;
use quillbore_job::{Edit, Field, Form, Job, Line, SlipKind};

use super::group::Group;
use super::spot::Spot;
use super::waiting::Waiting;

/// The edit of its job that says that a line is done: of a call the slip that somebody called on this
/// day, `by` whoever sits at the desk. `None` for all else, which is done where it stands: somebody has
/// to say how a quotation ended, what was decided, how many parts came.
#[must_use]
pub fn done(waiting: &Waiting, job: &Job, day: NaiveDate, form: Form, by: &str) -> Option<Edit> {
    if waiting.matter.group != Group::CallToday {
        return None;
    }
    let who = match &waiting.spot {
        Spot::Line { slip, .. } => job.slip(*slip)?.line(Line::Who).text(),
        _ => job.text(Field::Contact),
    };
    let mut edit = new_slip(job, SlipKind::Call, day, form, by);
    if let Edit::AddSlip { lines, .. } = &mut edit
        && !who.trim().is_empty()
    {
        lines.push((Line::Who, who.trim().to_owned()));
    }
    Some(edit)
}
