//! Drafts of what is not saved: kept every few seconds, offered after a crash.

use egui::Context;
use quillbore_office::drafts::{Keeper, Left, Told};
use quillbore_office::words::drafts as words;
use std::time::Duration;

use super::App;
use crate::view::{Decision, Waiting};

/// Seconds between two drafts.
const EVERY_S: f64 = 2.0;

impl App {
    /// Keeps a draft of every job that is not saved, and throws away those of jobs that are.
    pub(super) fn keep_drafts(&mut self, ctx: &Context) {
        let Some(drafts) = &mut self.drafts else {
            return;
        };
        let now = ctx.input(|input| input.time);
        let due = now - self.last_kept >= EVERY_S;
        let (mut waits, mut kept) = (false, false);
        for job in &self.jobs {
            let (desk, id) = (&job.desk, job.id);
            if !desk.history.is_dirty() {
                drafts.drop_draft(id);
            } else if !drafts.wants(id, desk.history.state()) {
                // It is kept as it stands.
            } else if due {
                drafts.keep(id, desk.history.state(), desk.job(), desk.opened.as_ref());
                kept = true;
            } else {
                waits = true;
            }
        }
        if kept {
            self.last_kept = now;
        }
        if waits {
            ctx.request_repaint_after(Duration::from_secs_f64(EVERY_S));
        }
    }

    /// Takes in what the keeper of drafts tells.
    pub(super) fn take_drafts_told(&mut self) {
        let told = self.drafts.as_mut().map_or_else(Vec::new, Keeper::told);
        for told in told {
            match told {
                Told::NotKept(why) => self.desk_mut().notice = why,
                Told::LeftBehind(left, damaged) => {
                    if let [first, ..] = damaged.as_slice() {
                        self.desk_mut().notice = words::damaged(first);
                    }
                    self.left = left;
                }
            }
        }
        self.offer_left();
    }

    /// Offers the first draft that an earlier run left behind, once nothing else is asked.
    fn offer_left(&mut self) {
        if !self.left.is_empty() && self.view().waiting.is_none() {
            let first = self.left.remove(0);
            self.view_mut().wait_for(Waiting::Left(Box::new(first)));
        }
    }

    /// Takes a draft back onto the desk, throws it away, or leaves it for the next start.
    pub(super) fn answer_left(&mut self, left: Left, answer: Decision) {
        if answer == Decision::Yes {
            let at = self.free_place();
            let desk = &mut self.jobs[at].desk;
            desk.put_back(left.job.as_ref().clone(), left.opened.clone());
            let (id, state) = (self.jobs[at].id, self.jobs[at].desk.history.state());
            // It is kept as this run's own before the old one goes.
            if let Some(drafts) = &mut self.drafts {
                drafts.keep(id, state, &left.job, left.opened.as_ref());
            }
            self.at = at;
        }
        if answer != Decision::Stay
            && let Some(drafts) = &mut self.drafts
        {
            drafts.forget(left);
        }
    }

    /// Throws all drafts away: everything is saved, or was left on purpose.
    pub(super) fn drop_drafts(&mut self) {
        if let Some(drafts) = &mut self.drafts {
            drafts.drop_all();
        }
    }
}
