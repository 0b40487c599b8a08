//! A job again, from the words of the order.

use quillbore_job::order_text::order_edits;
use quillbore_job::{Job, reorder};

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
        for edit in order_edits(order, old.unit, day) {
            desk.edit(&edit, GridAt::default(), GridAt::default());
        }
        desk.save();
    }
}
