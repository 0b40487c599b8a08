//! A merge is one step: it can be taken back until it is on disk, and then no more.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod hands;

use std::cell::RefCell;
use std::sync::Arc;

use hands::{cells, day, done, issue, pin, put_together, ring};
use quillbore_job::file::{Hash, hash, write_job};
use quillbore_job::history::{Doing, History, MOST_STEPS};
use quillbore_job::{Edit, Field, Job, Line, Paper, SlipKind, Unit};

fn doing(before: u32, after: u32) -> Doing<u32> {
    Doing {
        gesture: None,
        before,
        after,
    }
}

fn notes(text: &str) -> Edit {
    Edit::SetField {
        field: Field::Notes,
        text: text.to_owned(),
        unit: Unit::Mm,
    }
}

/// Somebody saved meanwhile.
#[derive(Debug, PartialEq)]
struct Changed;

/// A job's content that another desk changed since we opened it, with a row and a slip of the
/// identities that ours have too.
struct Shelf {
    there: RefCell<String>,
    opened: Hash,
    base: Job,
    theirs: Job,
}

impl Shelf {
    fn new() -> Self {
        let base = ring();
        let opened = hash(write_job(&base).as_bytes());
        let theirs = cells(&base, 1, &["T", "2", "0.6"]);
        let theirs = pin(&theirs, SlipKind::Call, &[(Line::Who, "they")]);
        Self {
            there: RefCell::new(write_job(&theirs)),
            opened,
            base,
            theirs,
        }
    }

    fn content(&self) -> String {
        self.there.borrow().clone()
    }

    /// As every shelf saves: over the version that was opened, and over no other.
    fn save(&self, job: &Job, opened: Hash) -> Result<(), Changed> {
        if hash(self.content().as_bytes()) != opened {
            return Err(Changed);
        }
        self.there.replace(write_job(job));
        Ok(())
    }

    /// Our desk, with a row, a slip and a note that are not on disk.
    fn ours(&self) -> History<u32> {
        let mut history = History::new(self.base.clone(), true);
        let row = Edit::InsertRows {
            before: 1,
            count: 1,
        };
        let slip = Edit::AddSlip {
            kind: SlipKind::Call,
            lines: vec![(Line::Who, "we".to_owned())],
            unit: Unit::Mm,
        };
        for edit in [row, slip, notes("ours")] {
            history.do_edit(&edit, doing(0, 1)).expect("an edit");
        }
        history
    }

    fn merge(&self, history: &mut History<u32>) {
        let merged = put_together(&self.base, history.now(), &self.theirs);
        assert_eq!(merged.clashes, []);
        history.put_merged(merged.job, doing(3, 4));
    }
}

/// Our state with what only ever grows as it is by now.
fn with_next(job: &Job, now: &Job) -> Job {
    Job {
        next_row: now.next_row,
        next_slip: now.next_slip,
        ..job.clone()
    }
}

#[test]
fn a_merge_that_was_not_saved_is_taken_back_and_our_state_overwrites_nothing() {
    let shelf = Shelf::new();
    let mut history = shelf.ours();
    let before = Arc::clone(history.now());
    assert_eq!(shelf.save(&before, shelf.opened), Err(Changed));
    shelf.merge(&mut history);
    let merged = Arc::clone(history.now());
    assert_eq!(history.undo_label(), Some("merge the other desk's work"));
    assert_eq!((history.merges(), history.is_dirty()), (1, true));
    assert_eq!(merged.rows.len(), 3);

    assert_eq!(history.undo(), Some(3));
    assert_eq!(**history.now(), with_next(&before, &merged));
    assert_eq!((history.merges(), history.is_dirty()), (0, true));
    let there = shelf.content();
    assert_eq!(shelf.save(history.now(), shelf.opened), Err(Changed));
    assert_eq!(shelf.content(), there);

    // No identity of the merge is given again, by either way.
    assert_eq!(history.redo(), Some(4));
    assert_eq!((history.now(), history.merges()), (&merged, 1));
    history.undo();
    let row = Edit::InsertRows {
        before: 0,
        count: 1,
    };
    history.do_edit(&row, doing(0, 0)).expect("a row");
    assert_eq!(history.now().rows[0].id.0, merged.next_row);
    assert_eq!((history.redo_label(), history.merges()), (None, 0));
    // All the way back, to what was opened.
    while history.undo().is_some() {}
    assert_eq!(**history.now(), with_next(&shelf.base, history.now()));
}

#[test]
fn once_the_merge_is_on_disk_nothing_before_it_can_be_reached() {
    let shelf = Shelf::new();
    let mut history = shelf.ours();
    shelf.merge(&mut history);
    let merged = Arc::clone(history.now());
    for text in ["since", "and more"] {
        history.do_edit(&notes(text), doing(5, 6)).expect("an edit");
    }
    history.undo();
    let theirs = hash(write_job(&shelf.theirs).as_bytes());
    shelf
        .save(history.now(), theirs)
        .expect("it is theirs that stands there");
    history.mark_saved();
    assert_eq!((history.merges(), history.is_dirty()), (0, false));
    // What was done since the merge holds their work: that can be taken back, and done again.
    assert_eq!(history.redo_label(), Some("type notes"));
    assert_eq!(history.undo(), Some(5));
    assert_eq!(*history.now(), merged);
    assert_eq!(history.undo(), None);
    assert_eq!(
        (history.redo(), history.redo(), history.redo()),
        (Some(6), Some(6), None)
    );
    assert_eq!(history.now().text(Field::Notes), "and more");
}

/// It stands on disk, but nobody is sure of that: it is not saved, and can't be taken back either.
#[test]
fn a_merge_that_may_be_on_disk_is_settled_but_not_saved() {
    let shelf = Shelf::new();
    let mut history = shelf.ours();
    shelf.merge(&mut history);
    history.settle_merges();
    assert_eq!((history.merges(), history.is_dirty()), (0, true));
    assert_eq!(history.undo(), None);
}

/// Our state was saved elsewhere: the merge with a file that it no longer has to do with is gone.
#[test]
fn a_merge_taken_back_is_not_done_again_over_another_file() {
    let shelf = Shelf::new();
    let mut history = shelf.ours();
    shelf.merge(&mut history);
    history
        .do_edit(&notes("since"), doing(0, 0))
        .expect("an edit");
    history.undo();
    history.undo();
    assert_eq!(history.redo_label(), Some("merge the other desk's work"));
    history.undo();
    history.mark_saved();
    assert_eq!(
        (history.redo(), history.redo()),
        (Some(1), None),
        "our own edit alone"
    );
    assert_eq!(history.now().text(Field::Notes), "ours");
    assert_eq!(history.undo_label(), Some("type notes"));
}

#[test]
fn merges_are_counted_over_other_steps_and_forgotten_with_them() {
    let shelf = Shelf::new();
    let mut history = shelf.ours();
    shelf.merge(&mut history);
    history
        .do_edit(&notes("between"), doing(0, 0))
        .expect("an edit");
    let again = done(history.now(), &notes("of a third desk"));
    history.put_merged(again, doing(0, 0));
    let mut counted = vec![history.merges()];
    while history.undo().is_some() {
        counted.push(history.merges());
    }
    assert_eq!(counted, [2, 1, 1, 0, 0, 0, 0]);
    while history.redo().is_some() {}
    assert_eq!(history.merges(), 2);
    for at in 0..MOST_STEPS {
        history
            .do_edit(&notes(&at.to_string()), doing(0, 0))
            .expect("an edit");
    }
    while history.undo().is_some() {}
    assert_eq!(
        history.merges(),
        2,
        "what can't be taken back any more is in it still"
    );
    let issued = issue(history.now(), Paper::Traveler, &[]).issued[0]
        .as_ref()
        .clone();
    history.put_issued(issued);
    assert_eq!((history.merges(), history.undo()), (0, None));
}

#[test]
fn number_and_day_that_came_with_a_merge_go_with_it() {
    let mut history: History<u32> = History::new(ring(), true);
    history
        .do_edit(&notes("ours"), doing(0, 0))
        .expect("an edit");
    let theirs = Job {
        number: "26-0109".to_owned(),
        opened: Some(day(3, 9)),
        ..ring()
    };
    let before = Arc::clone(history.now());
    history.put_merged(put_together(&ring(), &before, &theirs).job, doing(0, 0));
    assert_eq!(history.now().number, "26-0109");
    history.undo();
    assert_eq!(*history.now(), before);
    history.undo();
    assert_eq!(history.now().number, "26-0107");
    history.redo();
    history.redo();
    assert_eq!(
        (history.now().number.as_str(), history.now().opened),
        ("26-0109", Some(day(3, 9)))
    );
}
