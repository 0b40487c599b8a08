//! Drafts of what is not saved: kept every few seconds, offered after a crash.

use egui::Context;
use std::time::Duration;

use super::{App, OnDesk};
use crate::drafts::{self, Draft};
use crate::view::{Answer, Waiting};

/// Seconds between two drafts.
const EVERY_S: f64 = 2.0;

impl App {
    /// Keeps a draft of every job that is not saved, and throws away those of jobs that are.
    pub(super) fn keep_drafts(&mut self, ctx: &Context) {
        let Some(folder) = self.places.drafts.clone() else {
            return;
        };
        let now = ctx.input(|input| input.time);
        let due = now - self.last_kept >= EVERY_S;
        let (mut waits, mut kept) = (false, false);
        for job in &mut self.jobs {
            let OnDesk { desk, draft, .. } = job;
            if !desk.history.is_dirty() {
                if let Some(draft) = draft {
                    draft.drop_it();
                }
                continue;
            }
            if !due {
                waits = true;
                continue;
            }
            let draft = draft.get_or_insert_with(|| {
                self.next_draft += 1;
                Draft::new(&folder, &format!("{}-{}", self.places.run, self.next_draft))
            });
            kept = true;
            if let Err(error) = draft.keep(desk.history.state(), desk.job(), desk.file.as_ref()) {
                desk.notice = format!(
                    "No draft can be kept, so save often: {error}: {}",
                    folder.display()
                );
            }
        }
        if kept {
            self.last_kept = now;
        }
        if waits {
            ctx.request_repaint_after(Duration::from_secs_f64(EVERY_S));
        }
    }

    /// Offers the first draft that an earlier run left behind.
    pub(super) fn offer_left(&mut self) {
        let Some(folder) = &self.places.drafts else {
            return;
        };
        let mut left = drafts::left_behind(folder);
        if let [first, ..] = drafts::damaged(folder).as_slice() {
            let said = format!(
                "A draft of an earlier run can't be read and was left where it is: {}",
                first.display()
            );
            self.view_mut();
            self.desk_mut().notice = said;
        }
        if !left.is_empty() {
            let first = left.swap_remove(0);
            self.view_mut().waiting = Some(Waiting::Left(Box::new(first)));
        }
    }

    /// Takes a draft back onto the desk, throws it away, or leaves it for the next start.
    pub(super) fn answer_left(&mut self, left: drafts::Left, answer: Answer) {
        match answer {
            Answer::Stay => return,
            Answer::Leave => drafts::forget(&left),
            Answer::Yes => {
                drafts::forget(&left);
                let at = self.free_place();
                self.jobs[at].desk.put_back(left.job, left.file);
            }
        }
        self.offer_left();
    }

    /// Throws all drafts away: everything is saved, or was left on purpose.
    pub(super) fn drop_drafts(&mut self) {
        for job in &mut self.jobs {
            if let Some(draft) = &mut job.draft {
                draft.drop_it();
            }
        }
    }
}
