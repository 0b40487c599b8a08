//! A job again, from the words of the order.

use quillbore_job::{Edit, Field, Job, Line, SlipKind, reorder};

use super::App;
use crate::grid::GridAt;
use crate::words::messages as words;

impl App {
    /// Begins the job on top again for an order, typed as number; quantity; price each; revision. The
    /// new job takes its number at once.
    pub(super) fn begin_again(&mut self, order: &str) {
        let old: Job = self.desk().job().as_ref().clone();
        let old_name = self.desk().file_name();
        if old.number.is_empty() || self.desk().history.is_dirty() {
            self.desk_mut().notice = words::save_before_again(&old_name);
            return;
        }
        let day = self.desk().day;
        let job = reorder::again(&old, day);
        let at = self.free_place();
        self.at = at;
        let desk = &mut self.jobs[at].desk;
        desk.put(job);
        for edit in order_edits(order, &old, day) {
            desk.edit(&edit, GridAt::default(), GridAt::default());
        }
        desk.save();
    }
}

/// The edits that an order's words come to: the slip, and the quantity of the sheet.
fn order_edits(order: &str, old: &Job, day: chrono::NaiveDate) -> Vec<Edit> {
    if order.trim().is_empty() {
        // Somebody only asks again: there is no order yet.
        return Vec::new();
    }
    let mut parts = order.split(';').map(|part| part.trim().to_owned());
    let mut next = || parts.next().unwrap_or_default();
    let (number, quantity, each, revision) = (next(), next(), next(), next());
    let mut lines = vec![
        (Line::Date, day.to_string()),
        (Line::Number, number.clone()),
        (Line::Quantity, quantity.clone()),
        (Line::Each, each),
        (Line::Revision, revision),
    ];
    lines.retain(|(_, text)| !text.is_empty());
    let field = |field, text: String| Edit::SetField {
        field,
        text,
        unit: old.unit,
    };
    let mut edits = vec![Edit::AddSlip {
        kind: SlipKind::Order,
        lines,
        unit: old.unit,
    }];
    if !quantity.is_empty() {
        edits.push(field(Field::Quantity, quantity));
    }
    if !number.is_empty() {
        edits.push(field(Field::CustomerReference, number));
    }
    edits
}
