//! Edits of the job on the desk, taken back and done again.

use quillbore_job::Edit;
use quillbore_job::history::Doing;

use super::state::Desk;
use crate::grid::GridAt;
use crate::words::desk as words;

impl Desk {
    /// Does an edit; a refusal is told in the notice and changes nothing.
    pub fn edit(&mut self, edit: &Edit, before: GridAt, after: GridAt) {
        match self.history.do_edit(
            edit,
            Doing {
                gesture: None,
                before,
                after,
            },
        ) {
            Ok(_) => {
                self.notice.clear();
                self.refresh();
                self.take_replies();
            }
            Err(refused) => self.notice = words::with_hint(&refused.to_string(), refused.hint()),
        }
    }

    /// Takes the last step back; where the cursor was before it.
    pub fn undo(&mut self) -> Option<GridAt> {
        let merges = self.history.merges();
        if self.is_merge_under_way() {
            return None;
        }
        let at = self.history.undo();
        self.opened_goes_with(merges);
        self.refresh();
        self.take_replies();
        at
    }

    /// Does the last step taken back again; where the cursor was after it.
    pub fn redo(&mut self) -> Option<GridAt> {
        let merges = self.history.merges();
        if self.is_merge_under_way() {
            return None;
        }
        let at = self.history.redo();
        self.opened_goes_with(merges);
        self.refresh();
        self.take_replies();
        at
    }

    /// Whether the clerk saves a job with another desk's work in it: until that is done nobody can
    /// say what a state without it would rest on.
    fn is_merge_under_way(&mut self) -> bool {
        let waits = self.busy.is_some() && self.history.merges() > 0;
        if waits {
            self.notice = words::WAIT_FOR_MERGE.to_owned();
        }
        waits
    }

    /// Where a merge was taken back or done again since there were `merges`, the job rests on another
    /// version: one without the other desk's work must not be saved over it.
    fn opened_goes_with(&mut self, merges: usize) {
        let now = self.history.merges();
        if now != merges
            && let Some(other) = self.across_merges.get_mut(now.min(merges))
        {
            std::mem::swap(&mut self.opened, other);
        }
    }
}
