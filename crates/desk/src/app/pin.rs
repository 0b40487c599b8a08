//! A slip pinned to the sheet, with what is known of it already.

use quillbore_job::SlipKind;
use quillbore_job::prefilled::new_slip;

use super::App;

impl App {
    /// Pins a slip with what is known, lays it out, and puts the keyboard on it.
    pub(super) fn pin(&mut self, kind: SlipKind) {
        let desk = self.desk();
        let id = desk.job().next_slip;
        let edit = new_slip(desk.job(), kind, desk.day, &self.settings.desk_name);
        self.edit(&edit);
        let view = self.view_mut();
        view.open_slips.insert(id);
        view.focus_slip = Some(id);
    }
}
