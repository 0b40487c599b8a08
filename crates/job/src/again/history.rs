//! Undo and redo: labelled snapshots that share what didn't change.

use std::collections::VecDeque;
use std::sync::Arc;

use chrono::NaiveDate;

use crate::edits::apply::apply;
use crate::edits::apply::change::Change;
use crate::edits::apply::refused::EditRefused;
use crate::edits::edit::Edit;
use crate::job::{Issued, Job};
use crate::words::edits::label;
use crate::words::merge::LABEL as MERGE;

/// Most steps that can be undone.
pub const MOST_STEPS: usize = 200;

/// A job with the way it came about; `S` is the window's selection, kept and given back.
#[derive(Clone, Debug)]
pub struct History<S = ()> {
    now: Arc<Job>,
    /// Which state this is; no two states of one history have the same.
    state: u64,
    next_state: u64,
    saved: Option<u64>,
    /// Merges in this state that are on no disk yet.
    merges: usize,
    past: VecDeque<Step<S>>,
    future: Vec<Step<S>>,
}

/// One step: a state that can be gone to, and the way there.
#[derive(Clone, Debug)]
struct Step<S> {
    job: Arc<Job>,
    state: u64,
    label: String,
    gesture: Option<u64>,
    /// It puts another desk's work in.
    merge: bool,
    before: S,
    after: S,
}

/// How an edit belongs to what the user does.
#[derive(Clone, Debug)]
pub struct Doing<S> {
    /// Edits with the same key, one after another, are one step: a drag, a held key.
    pub gesture: Option<u64>,
    /// What is selected before the edit.
    pub before: S,
    /// What is selected after it.
    pub after: S,
}

impl<S: Clone> History<S> {
    /// A history that starts with a job just opened, or just made where it is not `saved` yet.
    #[must_use]
    pub fn new(job: Job, saved: bool) -> Self {
        Self {
            now: Arc::new(job),
            state: 0,
            next_state: 1,
            saved: saved.then_some(0),
            merges: 0,
            past: VecDeque::new(),
            future: Vec::new(),
        }
    }

    /// The job as it stands.
    #[must_use]
    pub const fn now(&self) -> &Arc<Job> {
        &self.now
    }

    /// Does an edit; where it changes nothing, no step is kept.
    pub fn do_edit(&mut self, edit: &Edit, doing: Doing<S>) -> Result<Change, EditRefused> {
        let label = label(&self.now, edit);
        self.do_named(edit, label, doing)
    }

    /// Does an edit under a name of its own, such as an import's.
    pub fn do_named(
        &mut self,
        edit: &Edit,
        label: String,
        doing: Doing<S>,
    ) -> Result<Change, EditRefused> {
        let (job, change) = apply(&self.now, edit)?;
        if change.is_nothing() {
            return Ok(change);
        }
        self.step(job, label, false, doing);
        Ok(change)
    }

    /// Puts another state in place, as one more step.
    fn step(&mut self, job: Job, label: String, merge: bool, doing: Doing<S>) {
        let before = std::mem::replace(&mut self.now, Arc::new(job));
        let from = self.state;
        self.state = self.next_state;
        self.next_state += 1;
        self.future.clear();
        match self.past.back_mut() {
            Some(step) if doing.gesture.is_some() && step.gesture == doing.gesture => {
                step.after = doing.after;
            }
            _ => self.past.push_back(Step {
                job: before,
                state: from,
                label,
                gesture: doing.gesture,
                merge,
                before: doing.before,
                after: doing.after,
            }),
        }
        if self.past.len() > MOST_STEPS {
            self.past.pop_front();
        }
    }

    /// What undo would take back, in a few words.
    #[must_use]
    pub fn undo_label(&self) -> Option<&str> {
        self.past.back().map(|step| step.label.as_str())
    }

    /// What redo would do again, in a few words.
    #[must_use]
    pub fn redo_label(&self) -> Option<&str> {
        self.future.last().map(|step| step.label.as_str())
    }

    /// Takes the last step back; what was selected before it, or `None` where there is none.
    pub fn undo(&mut self) -> Option<S> {
        let mut step = self.past.pop_back()?;
        self.go_to(&mut step);
        self.merges -= usize::from(step.merge);
        self.end_gesture();
        let selection = step.before.clone();
        self.future.push(step);
        Some(selection)
    }

    /// Does the last step again that was taken back; what was selected after it.
    pub fn redo(&mut self) -> Option<S> {
        let mut step = self.future.pop()?;
        self.go_to(&mut step);
        self.merges += usize::from(step.merge);
        let selection = step.after.clone();
        self.past.push_back(step);
        Some(selection)
    }

    /// Changes places with a step's state; the step is closed to further edits of its gesture.
    fn go_to(&mut self, step: &mut Step<S>) {
        std::mem::swap(&mut self.state, &mut step.state);
        std::mem::swap(&mut self.now, &mut step.job);
        step.gesture = None;
        self.carry(step);
    }

    /// The next identities, number and day are no edits: they stay as they were last. Number and day
    /// that came with another desk's work go with it.
    fn carry(&mut self, last: &Step<S>) {
        let next_row = self.now.next_row.max(last.job.next_row);
        let next_slip = self.now.next_slip.max(last.job.next_slip);
        let of = if last.merge { &self.now } else { &last.job };
        let (number, opened) = (of.number.clone(), of.opened);
        let same = self.now.next_row == next_row
            && self.now.next_slip == next_slip
            && self.now.number == number
            && self.now.opened == opened;
        if !same {
            let now = Arc::make_mut(&mut self.now);
            now.next_row = next_row;
            now.next_slip = next_slip;
            now.number = number;
            now.opened = opened;
        }
    }

    /// Gives the job its number and the day it was opened; no undo takes that back.
    pub fn put_number(&mut self, number: String, opened: Option<NaiveDate>) {
        let now = Arc::make_mut(&mut self.now);
        now.number = number;
        now.opened = opened;
    }

    /// Takes an issued paper into the job; what was issued can't be taken back, so it bars undo.
    pub fn put_issued(&mut self, issued: Issued) {
        Arc::make_mut(&mut self.now).issued.push(Arc::new(issued));
        self.state = self.next_state;
        self.next_state += 1;
        self.bar_undo();
    }

    /// Puts the job in place that holds another desk's work too, as a step of its own. Until it is
    /// saved it can be taken back; who saves has to know which file a state rests on, by
    /// [`merges`](Self::merges).
    pub fn put_merged(&mut self, job: Job, doing: Doing<S>) {
        self.step(job, MERGE.to_owned(), true, doing);
        self.merges += 1;
    }

    /// How many merges that are on no disk yet the job as it stands holds.
    #[must_use]
    pub const fn merges(&self) -> usize {
        self.merges
    }

    /// Notes that the job as it stands is on disk.
    pub fn mark_saved(&mut self) {
        self.saved = Some(self.state);
        self.settle_merges();
    }

    /// Bars the way over every merge: once one is on disk, a state without it would take the other
    /// desk's work away again.
    pub fn settle_merges(&mut self) {
        self.merges = 0;
        if let Some(last) = self.past.iter().rposition(|step| step.merge) {
            self.past.drain(..=last);
        }
        if let Some(next) = self.future.iter().rposition(|step| step.merge) {
            self.future.drain(..=next);
        }
    }

    /// Notes that the job as it was in a state is on disk; it may have been edited since.
    pub fn mark_saved_in(&mut self, state: u64) {
        self.saved = Some(state);
        self.settle_merges();
    }

    /// Puts another state of the job in place for good, such as a copy under another number; undo is
    /// barred.
    pub fn put_for_good(&mut self, job: Job) {
        self.now = Arc::new(job);
        self.state = self.next_state;
        self.next_state += 1;
        self.bar_undo();
    }

    /// Which state the job is in; no two states of one history have the same.
    #[must_use]
    pub const fn state(&self) -> u64 {
        self.state
    }

    /// True where the job differs from what is on disk.
    #[must_use]
    pub fn is_dirty(&self) -> bool {
        self.saved != Some(self.state)
    }

    /// Forgets every step: what has been issued can't be taken back.
    pub fn bar_undo(&mut self) {
        self.past.clear();
        self.future.clear();
        self.merges = 0;
    }

    /// Ends the gesture under way, so that the next edit is a step of its own.
    pub fn end_gesture(&mut self) {
        if let Some(step) = self.past.back_mut() {
            step.gesture = None;
        }
    }
}
