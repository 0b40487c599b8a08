//! The shop followed while the window stands open: what another desk changed counts here, too, and what
//! could not be saved is tried again.

use std::sync::Arc;
use std::time::Duration;

use egui::Context;

use super::App;
use crate::words::shop as words;

/// Seconds between two looks at the shop's sheet on the shelf.
const EVERY_S: f64 = 3.0;

impl App {
    /// Looks at the shop's sheet again every few seconds, once the last look is answered.
    pub(super) fn look_at_shop_again(&mut self, ctx: &Context) {
        let now = ctx.input(|input| input.time);
        if !self.shop.looking && now - self.shop_looked >= EVERY_S {
            self.shop_looked = now;
            self.look_at_shop();
            self.take_replies(ctx);
        }
        ctx.request_repaint_after(Duration::from_secs_f64(EVERY_S));
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
            words::OTHER_DESK_CHANGED.clone_into(&mut self.desk_mut().notice);
        }
    }
}
