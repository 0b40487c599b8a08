//! Jobs put away and the window closed: nothing of them or of the shop that is not saved goes unasked.

use egui::{Context, ViewportCommand};

use super::{App, OpenJob};
use crate::view::{Next, Waiting};
use crate::words::messages as words;

impl App {
    /// Keeps the window open while something is being written, or a job or the shop is not saved, and asks.
    pub(super) fn guard_close(&mut self, ctx: &Context) {
        let asked = ctx.input(|input| input.viewport().close_requested()) && !self.closing;
        if asked {
            self.put_typed_of_shop();
        }
        let is_busy = self.jobs.iter().any(|job| job.desk.is_busy()) || self.shop.saving.is_some();
        if self.close_when_done && !is_busy {
            self.close_when_done = false;
            ctx.send_viewport_cmd(ViewportCommand::Close);
            return;
        }
        if !asked {
            return;
        }
        if is_busy && !self.close_when_done {
            // A paper that is on its way out is not cut short; a shelf that hangs must not hold the
            // window for ever, so who asks twice is let go.
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            self.close_when_done = true;
            self.desk_mut().notice = words::CLOSES_WHEN_WRITTEN.to_owned();
            return;
        }
        // Who asks anew is asked about everything anew.
        self.shop.let_go = false;
        for job in &mut self.jobs {
            job.let_go = None;
        }
        if self.asks_about_unsaved() {
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
        }
    }

    /// Asks about the first job that closing the window would lose, which is laid on top, then about the
    /// shop; whether there is anything.
    fn asks_about_unsaved(&mut self) -> bool {
        if let Some(at) = self.jobs.iter().position(OpenJob::would_be_lost) {
            self.at = at;
            self.view_mut().wait_for(Waiting::Guard(Next::CloseWindow));
            return true;
        }
        let asks = self.shop.is_unsaved() && !self.shop.let_go;
        if asks {
            self.view_mut().wait_for(Waiting::GuardShop);
        }
        asks
    }

    /// Closes the window, once nothing is left to ask about.
    pub(super) fn go_on_closing(&mut self, ctx: &Context) {
        if !self.asks_about_unsaved() {
            self.drop_drafts();
            self.closing = true;
            ctx.send_viewport_cmd(ViewportCommand::Close);
        }
    }

    /// Puts the job on top away; where it is not saved, that is asked first.
    pub(super) fn close_job(&mut self) {
        if !self.desk().is_busy() && self.desk().history.is_dirty() {
            self.view_mut().wait_for(Waiting::Guard(Next::CloseJob));
        } else {
            self.put_away();
        }
    }

    fn put_away(&mut self) {
        if self.desk().is_busy() {
            self.desk_mut().notice = words::WAIT_FOR_WRITING.to_owned();
            return;
        }
        let gone = self.jobs.remove(self.at);
        if let Some(drafts) = &mut self.drafts {
            drafts.drop_draft(gone.id);
        }
        if self.jobs.is_empty() {
            self.add_sheet();
        }
        self.at = self.at.min(self.jobs.len() - 1);
    }

    /// Goes on with what waited for the job on top to be saved or let go of.
    pub(super) fn leave(&mut self, ctx: &Context, next: Next) {
        match next {
            Next::CloseJob => self.put_away(),
            Next::CloseWindow => {
                let top = &mut self.jobs[self.at];
                top.let_go = Some(top.desk.history.state());
                self.go_on_closing(ctx);
            }
        }
    }
}
