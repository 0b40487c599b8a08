//! What the window wants done about the job on the desk, and what it hears of it.

use super::errand::Errand;
use super::news::News;
use super::state::Desk;
use crate::grid::GridAt;
use crate::words::desk as words;

impl Desk {
    /// Has something done about the job; how it ends is told in the notice, and as news.
    pub fn wants(&mut self, errand: Errand) {
        if let Errand::Issue { paper, .. } = &errand {
            if let Some((under_way, _)) = self.issuing {
                self.notice = words::still_issuing(under_way);
                return;
            }
            self.issuing = Some((*paper, self.history.state()));
            self.notice = words::issuing(*paper);
        }
        self.todo.push_back(errand);
        self.take_replies();
    }

    /// Saves the job where it was opened, or on the shelf under the next number.
    pub fn save(&mut self) {
        // What waits to be saved is saved as it stands then: asking twice is asking once.
        let waits = self
            .todo
            .iter()
            .any(|errand| matches!(errand, Errand::Save));
        if !waits {
            self.wants(Errand::Save);
        }
    }

    /// Puts the other desk's work and this one's together and saves it; until that is done it can be
    /// undone, with the cursor where it is now.
    pub fn merge(&mut self, cursor: GridAt) {
        self.cursor = cursor;
        self.wants(Errand::Merge);
    }

    /// Saves what another desk's save is in the way of as a new job, under the next number.
    pub fn save_as_next(&mut self) {
        self.wants(Errand::SaveAsNext);
    }

    /// Takes in what clerk and searches have done meanwhile, and what day it is.
    pub fn poll(&mut self) {
        let today = self.clock.today();
        if today != self.day {
            // Another day may have other rates.
            self.day = today;
            self.reckon_by_shop();
        }
        self.take_replies();
        if self.take_answers() {
            self.recompute();
        }
    }

    /// Goes by the shop as the office knows it now.
    pub fn take_shop(&mut self) {
        self.reckon_by_shop();
        self.look_at_records();
        self.take_replies();
    }

    /// Reckons everything anew by the shop as the office knows it now.
    pub(super) fn reckon_by_shop(&mut self) {
        self.shop_version = self.office.shop_version();
        self.shop = self.office.shop_on(self.day);
        self.learned_of = None;
        self.refresh();
    }

    /// What happened to this job since the last look, for the window to act on.
    pub fn take_news(&mut self) -> Vec<News> {
        std::mem::take(&mut self.news)
    }
}
