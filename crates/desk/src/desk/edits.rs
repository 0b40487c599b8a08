//! Edits of the job on the desk, taken back and done again.

use quillbore_job::agreed::with_customer;
use quillbore_job::amounts_in::with_currencies;
use quillbore_job::history::Doing;
use quillbore_job::only_machine::with_only_machine;
use quillbore_job::words::edits::label;
use quillbore_job::{Edit, Field};

use super::state::Desk;
use crate::grid::GridAt;
use crate::words::desk as words;

impl Desk {
    /// Does an edit; a refusal is told in the notice and changes nothing.
    ///
    /// With the customer goes what the shop has agreed with them, and with the first holes the machine
    /// of a shop that has but one, in the same step; with an amount the currency that it is typed in.
    pub fn edit(&mut self, edit: &Edit, before: GridAt, after: GridAt) {
        let agreed = self.with_what_was_agreed(edit);
        let taken = agreed.as_ref().map_or(Vec::new(), taken_on);
        let now = self.history.now();
        let with_machine = with_only_machine(now, &self.shop, edit);
        let machine = with_machine.as_ref().map(|(name, _)| name.clone());
        let done = agreed.or(with_machine.map(|(_, edit)| edit));
        let with = with_currencies(now, &self.shop, done.as_ref().unwrap_or(edit));
        let done = with.or(done);
        let label = label(now, edit);
        match self.history.do_named(
            done.as_ref().unwrap_or(edit),
            label,
            Doing {
                gesture: None,
                before,
                after,
            },
        ) {
            Ok(_) => {
                let typed = self.history.now().text(Field::Machine);
                self.notice = match machine {
                    // A table that was pasted may have named another.
                    Some(name) if name == typed => words::only_machine(&name),
                    _ if taken.is_empty() => String::new(),
                    _ => words::taken_on(&taken),
                };
                self.refresh();
                self.take_replies();
            }
            Err(refused) => self.notice = words::with_hint(&refused.to_string(), refused.hint()),
        }
    }

    /// The customer that an edit names, with what was agreed; `None` for any other edit.
    fn with_what_was_agreed(&self, edit: &Edit) -> Option<Edit> {
        let Edit::SetField {
            field: Field::Customer,
            text,
            unit,
        } = edit
        else {
            return None;
        };
        with_customer(self.history.now(), &self.shop, text, *unit)
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

/// The fields that an edit sets or empties beside the customer's own.
fn taken_on(edit: &Edit) -> Vec<Field> {
    let Edit::Together { edits } = edit else {
        return Vec::new();
    };
    let fields = edits.iter().filter_map(|edit| match edit {
        Edit::SetField { field, .. } if *field != Field::Customer => Some(*field),
        _ => None,
    });
    fields.collect()
}
