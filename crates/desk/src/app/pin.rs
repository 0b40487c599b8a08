//! A slip pinned to the sheet, with what is known of it already.

use quillbore_job::slip::{kind, line};
use quillbore_job::{Edit, Job, Line, Paper, SlipKind};

use super::App;

impl App {
    /// Pins a slip with what is known, lays it out, and puts the keyboard on it.
    pub(super) fn pin(&mut self, kind: SlipKind) {
        let desk = self.desk();
        let id = desk.job().next_slip;
        let edit = new_slip(kind, desk.job(), desk.day, &self.settings.desk_name);
        self.edit(&edit);
        let view = self.view_mut();
        view.open_slips.insert(id);
        view.focus_slip = Some(id);
    }
}

/// A slip of a kind with the lines that are known when it is pinned.
fn new_slip(kind: SlipKind, job: &Job, day: chrono::NaiveDate, name: &str) -> Edit {
    let mut lines: Vec<(Line, String)> = Vec::new();
    if kind.lines().contains(&Line::Date) {
        lines.push((Line::Date, day.to_string()));
    }
    if kind.lines().contains(&Line::By) && !name.is_empty() {
        lines.push((Line::By, name.to_owned()));
    }
    let newest = job.standing(Paper::Quotation).next_back();
    match kind {
        SlipKind::Reply => {
            lines.extend(newest.map(|issued| (Line::Paper, issued.number.clone())));
        }
        // What the order says is typed off the order: filled in from sheet or quotation it would be
        // held against itself.
        SlipKind::Order => {
            lines.extend(newest.map(|issued| (Line::Paper, issued.number.clone())));
        }
        SlipKind::Run => {
            // The first row that no run record speaks of yet.
            let told = |mark: &str| {
                job.slips_of::<kind::Run>()
                    .any(|run| run.get(line::Mark) == mark)
            };
            let next = job.rows.iter().map(|row| row.mark.text().trim());
            if let Some(mark) = next
                .into_iter()
                .find(|mark| !mark.is_empty() && !told(mark))
            {
                lines.push((Line::Mark, mark.to_owned()));
            }
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
