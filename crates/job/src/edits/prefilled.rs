//! Slips with the lines that are known when they are pinned, and lines that take what stands in them
//! already.

use chrono::NaiveDate;

use crate::edits::edit::Edit;
use crate::job::Job;
use crate::pinned::paper::Paper;
use crate::pinned::slip::lists::{Line, SlipKind, kind, line};
use crate::typed::form::Form;

/// A slip of a kind with the lines that are known on `day`, as `form` writes it, for whoever sits at the
/// desk: nobody where `by` is empty.
#[must_use]
pub fn new_slip(job: &Job, kind: SlipKind, day: NaiveDate, form: Form, by: &str) -> Edit {
    let mut lines: Vec<(Line, String)> = Vec::new();
    if kind.lines().contains(&Line::Date) {
        lines.push((Line::Date, form.day(day)));
    }
    if kind.lines().contains(&Line::By) && !by.is_empty() {
        lines.push((Line::By, by.to_owned()));
    }
    match kind {
        // What the order says is typed off the order: filled in from sheet or quotation it would be
        // held against itself.
        SlipKind::Reply | SlipKind::Order => {
            let newest = job.standing(Paper::Quotation).next_back();
            lines.extend(newest.map(|issued| (Line::Paper, issued.number.clone())));
        }
        SlipKind::Run => {
            lines.extend(first_without_run(job).map(|mark| (Line::Mark, mark.to_owned())));
        }
        // What was counted or measured is typed by whoever did it.
        SlipKind::Received
        | SlipKind::Delivery
        | SlipKind::Call
        | SlipKind::Withdrawal
        | SlipKind::Release
        | SlipKind::Hold
        | SlipKind::Inspection
        | SlipKind::Nonconformance => {}
    }
    Edit::AddSlip {
        kind,
        lines,
        unit: job.unit,
    }
}

/// The slip that parts are due by themselves, before the others: their traveler may go to the floor.
#[must_use]
pub fn release_of(job: &Job, parts: u32, day: NaiveDate, form: Form) -> Edit {
    Edit::AddSlip {
        kind: SlipKind::Release,
        lines: vec![
            (Line::Date, form.day(day)),
            (Line::Quantity, parts.to_string()),
        ],
        unit: job.unit,
    }
}

/// Lets an acceptance that stands on an order hold for what differs now, too; none where the line is
/// another one, or nothing stands in it.
#[must_use]
pub fn accept_too(job: &Job, slip: u32, line: Line) -> Option<Edit> {
    let stands = job.slip(slip)?.line(line).text().trim();
    let is_acceptance = line == Line::Accepted && !stands.is_empty();
    is_acceptance.then(|| Edit::SetLine {
        slip,
        line,
        text: stands.to_owned(),
        unit: job.unit,
    })
}

/// The mark of the first row that no run record speaks of yet.
fn first_without_run(job: &Job) -> Option<&str> {
    let told = |mark: &str| {
        let mut runs = job.slips_of::<kind::Run>();
        runs.any(|run| run.get(line::Mark) == mark)
    };
    let mut marks = job.rows.iter().map(|row| row.mark.text().trim());
    marks.find(|mark| !mark.is_empty() && !told(mark))
}
