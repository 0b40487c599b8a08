//! The shop followed while the window stands open: what another desk changed counts here, too, and what
//! could not be saved is tried again.

use std::sync::Arc;
use std::time::Duration;

use egui::Context;
use quillbore_job::shop::sheet::ShopChange;
use quillbore_office::office::shop_watch::ShopWatch;

use super::App;
use crate::words::shop as words;

/// Between two looks at the shop's sheet on the shelf.
pub(crate) const SHOP_EVERY: Duration = Duration::from_secs(3);

impl App {
    /// Looks at the shop's sheet again where it changed; every few seconds where nobody watches it, or
    /// something waits for the shelf to answer. The last look has to be answered first.
    pub(super) fn look_at_shop_again(&mut self, ctx: &Context) {
        let now = ctx.input(|input| input.time);
        let is_time = now - self.shop_looked >= SHOP_EVERY.as_secs_f64();
        let waits = self.shop.failed.is_some() || self.shop.is_unsaved();
        let is_watched = self.shop_watch.is_some() && !waits;
        if !self.shop.looking {
            let changed = self
                .shop_watch
                .as_ref()
                .is_some_and(ShopWatch::take_changed);
            if changed || (is_time && !is_watched) {
                self.shop_looked = now;
                self.look_at_shop();
                self.take_replies(ctx);
            }
        }
        if !is_watched {
            ctx.request_repaint_after(SHOP_EVERY);
        }
    }

    /// Says once that the shop's file is an older one than was there, and which change it lacks.
    pub(super) fn tell_lacks(&mut self, lacks: Option<ShopChange>) {
        if let Some(lacks) = lacks.as_ref().filter(|_| self.shop.lacks != lacks) {
            let said = words::lacks(lacks, self.desk().shop.form);
            self.desk_mut().notice.clone_from(&said);
            self.shop.notice = said;
        }
        self.shop.lacks = lacks;
    }

    /// Has every job on the desk go by the shop as the office knows it, where that is another one than it
    /// was reckoned by; says so where that moved a figure of the job on top.
    pub(super) fn follow_shop(&mut self) {
        // What is being saved from here comes with the answer.
        if self.shop.saving.is_some() {
            return;
        }
        let version = self.office.shop_version();
        let was_known = std::mem::replace(&mut self.shop_known, self.shop.stands.is_some());
        if self
            .jobs
            .iter()
            .all(|job| job.desk.shop_version() == version)
        {
            return;
        }
        let before = Arc::clone(self.desk().results());
        self.shop_is_new();
        if was_known && self.desk().results().figures != before.figures {
            let form = self.desk().shop.form;
            let lacks = self.shop.lacks.as_ref();
            let said = lacks.map(|change| words::lacks(change, form));
            let said = said.unwrap_or_else(|| words::OTHER_DESK_CHANGED.to_owned());
            self.desk_mut().notice = said;
        }
    }
}
