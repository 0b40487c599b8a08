//! Any sequence of edits: identities, sharing, text and undo hold after each of them.

mod random;

use std::collections::BTreeSet;
use std::sync::Arc;

use proptest::prelude::*;
use quillbore_calc::RowId;
use quillbore_job::history::{Doing, History};
use quillbore_job::read_field::read_field;
use quillbore_job::read_line::read_line;
use quillbore_job::row::put;
use quillbore_job::{Column, Job, Row, apply};
use random::edit;

/// The job without what only ever grows.
fn content(job: &Job) -> Job {
    Job {
        next_row: 0,
        next_slip: 0,
        ..job.clone()
    }
}

fn check_identities(job: &Job) -> Result<(), TestCaseError> {
    let ids: BTreeSet<RowId> = job.rows.iter().map(|row| row.id).collect();
    prop_assert_eq!(ids.len(), job.rows.len());
    prop_assert!(ids.iter().all(|id| id.0 < job.next_row));
    let slips: BTreeSet<u32> = job.slips.iter().map(|slip| slip.id).collect();
    prop_assert_eq!(slips.len(), job.slips.len());
    prop_assert!(slips.iter().all(|id| *id < job.next_slip));
    Ok(())
}

/// What a file would hold, text and unit alone, gives the same job again.
fn check_read_again(job: &Job) -> Result<(), TestCaseError> {
    for row in &job.rows {
        let mut again = Row {
            id: row.id,
            places: Arc::clone(&row.places),
            ..Row::default()
        };
        for column in Column::ALL {
            let cell = row.cell(*column);
            let unit = cell.unit.unwrap_or_default();
            put(&mut again, *column, cell.text, unit, job.angle_basis());
        }
        prop_assert_eq!(&again, row.as_ref());
    }
    for (field, entry) in job.fields.iter() {
        prop_assert!(!entry.is_empty());
        let unit = entry.unit().unwrap_or_default();
        prop_assert_eq!(&read_field(*field, entry.text(), unit), entry);
    }
    for (line, entry) in job.slips.iter().flat_map(|slip| slip.lines.iter()) {
        prop_assert!(!entry.is_empty());
        let unit = entry.unit().unwrap_or_default();
        prop_assert_eq!(&read_line(*line, entry.text(), unit), entry);
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 200,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn after_every_edit(edits in prop::collection::vec(edit(), 1..40)) {
        let mut history: History = History::new(Job::default(), true);
        let mut given: BTreeSet<RowId> = BTreeSet::new();
        let start = Arc::clone(history.now());
        let mut steps = 0;
        for edit in &edits {
            let before = Arc::clone(history.now());
            prop_assert_eq!(apply(&before, edit), apply(&before, edit));
            let doing = Doing { gesture: None, before: (), after: () };
            let Ok(change) = history.do_edit(edit, doing) else {
                prop_assert!(Arc::ptr_eq(&before, history.now()), "a refused edit changed the job");
                continue;
            };
            let after = Arc::clone(history.now());
            check_identities(&after)?;
            check_read_again(&after)?;
            prop_assert!(after.next_row >= before.next_row);
            for added in &change.added {
                prop_assert!(given.insert(*added), "{:?} was given twice", added);
                prop_assert!(after.row(*added).is_some());
            }
            for removed in &change.removed {
                prop_assert!(after.row(*removed).is_none());
            }
            // Rows that are not named in the change are the very same.
            for row in &after.rows {
                if let Some(old) = before.rows.iter().find(|old| old.id == row.id) {
                    let same = Arc::ptr_eq(old, row);
                    prop_assert_eq!(same, old == row, "an equal row is a shared row");
                    prop_assert_eq!(same, !change.rows.contains(&row.id), "{:?}", row.id);
                }
            }
            if change.is_nothing() {
                prop_assert_eq!(content(&after), content(&before));
                continue;
            }
            steps += 1;
            prop_assert!(history.undo().is_some());
            prop_assert_eq!(content(history.now()), content(&before));
            prop_assert_eq!(history.now().next_row, after.next_row);
            prop_assert_eq!(history.now().next_slip, after.next_slip);
            prop_assert!(history.redo().is_some());
            prop_assert_eq!(history.now(), &after);
        }
        let end = Arc::clone(history.now());
        for _ in 0..steps {
            prop_assert!(history.undo().is_some());
        }
        prop_assert_eq!(history.undo(), None);
        prop_assert_eq!(content(history.now()), content(&start));
        prop_assert!(!history.is_dirty());
        for _ in 0..steps {
            prop_assert!(history.redo().is_some());
        }
        prop_assert_eq!(history.now(), &end);
    }
}
