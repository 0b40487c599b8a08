//! A job again, from the words of the order.

use egui::Context;
use quillbore_job::order_text::order_edits;
use quillbore_job::{Job, reorder};
use quillbore_office::names::JobKey;

use super::{App, Wanted};
use crate::grid::GridAt;
use crate::view::Waiting;
use crate::words::messages as words;

impl App {
    /// Asks for the order that a job is done again for: the one on the shelf whose line has the keyboard,
    /// which is opened first, else the one on top.
    pub(super) fn ask_for_order(&mut self, ctx: &Context) {
        match self.on_shelf.take() {
            Some(key) => {
                self.to_reorder = Some(key.clone());
                self.open(ctx, Wanted::Key(key));
                self.go_to_reorder();
            }
            None => self.wait_for(Waiting::Again(String::new())),
        }
    }

    /// Asks for the order of the job that somebody came for, where it is on top.
    pub(super) fn go_to_reorder(&mut self) {
        let opened = self.desk().opened.as_ref();
        let here = opened.map(|opened| opened.key.clone());
        let is_here = |key: &mut JobKey| here.as_ref() == Some(key);
        if self.to_reorder.take_if(is_here).is_some() {
            self.wait_for(Waiting::Again(String::new()));
        }
    }

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
        let job = reorder::again_in(&self.desk().shop, &old, day);
        // What can't be read is told before a number is taken.
        let edits = match order_edits(order, &old, day, self.desk().shop.form) {
            Ok(edits) => edits,
            Err(why) => {
                self.desk_mut().notice = why.to_string();
                self.wait_for(Waiting::Again(order.to_owned()));
                return;
            }
        };
        let at = self.free_place();
        self.at = at;
        let desk = &mut self.jobs[at].desk;
        desk.put(job);
        for edit in edits {
            desk.edit(&edit, GridAt::default(), GridAt::default());
        }
        desk.save();
    }
}
