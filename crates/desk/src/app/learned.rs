//! The page of what the shop has learned: asked for, laid over the sheet, and the way from it to a job.

use egui::Context;
use quillbore_job::Line;
use quillbore_office::clerk::Request;
use quillbore_office::names::JobKey;
use quillbore_office::office::Wanted;

use super::App;
use crate::spot::Spot;

impl App {
    /// Lays the page over the sheet, or puts it away.
    pub(super) fn lay_out_learned(&mut self) {
        let open = !self.learned.open;
        self.close_pages();
        self.learned.open = open;
        self.learned.is_fresh = true;
        self.ask_learned();
    }

    /// Asks for what the page shows, where it is to be seen.
    pub(super) fn ask_learned(&mut self) {
        if self.learned.open {
            let day = self.desk().day;
            self.clerk.ask(Request::Learned { day });
        }
    }

    /// Opens the job of a record; its line takes the keyboard once the job is there.
    pub(super) fn open_record(&mut self, ctx: &Context, job: JobKey, slip: u32, line: Line) {
        self.learned.open = false;
        self.to_record = Some((job.clone(), slip, line));
        self.open(ctx, Wanted::Key(job));
        self.go_to_record();
    }

    /// Puts the keyboard on the record's line that somebody came for, where its job is on top.
    pub(super) fn go_to_record(&mut self) {
        let opened = self.desk().opened.as_ref();
        let here = opened.map(|opened| opened.key.clone());
        let is_here = |(job, ..): &mut (JobKey, u32, Line)| here.as_ref() == Some(job);
        if let Some((_, slip, line)) = self.to_record.take_if(is_here) {
            let view = self.view_mut();
            view.open_slips.insert(slip);
            view.focus = Some(Spot::Line(slip, line));
        }
    }
}
