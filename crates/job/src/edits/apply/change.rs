//! What an edit touched.

use std::collections::BTreeMap;
use std::sync::Arc;

use quillbore_calc::RowId;

use crate::job::Job;
use crate::typed::field::Field;
use crate::typed::row::Row;

/// What an edit touched, in the table's order; nothing at all where it changed nothing.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Change {
    /// Rows whose cells or places may differ from before, new ones too.
    pub rows: Vec<RowId>,
    /// Those of them that are new.
    pub added: Vec<RowId>,
    /// Rows that are gone.
    pub removed: Vec<RowId>,
    /// Fields that may differ from before.
    pub fields: Vec<Field>,
    /// Cells and fields of this edit that were read.
    pub read: usize,
    /// Cells and fields of this edit that can't be read and keep their text.
    pub unread: usize,
    /// The job's unit, an overrule, an answer, a slip or a report differs from before.
    pub other: bool,
}

impl Change {
    /// True where the job is as it was.
    #[must_use]
    pub fn is_nothing(&self) -> bool {
        self.rows.is_empty()
            && self.added.is_empty()
            && self.removed.is_empty()
            && self.fields.is_empty()
            && !self.other
    }

    /// What differs between two states of a job; nothing is known of how it was read.
    pub(super) fn between(before: &Job, after: &Job) -> Self {
        let old: BTreeMap<RowId, &Arc<Row>> = by_id(before);
        let new = by_id(after);
        let same = |row: &Arc<Row>| {
            old.get(&row.id)
                .is_some_and(|old| Arc::ptr_eq(old, row) || *old == row)
        };
        let ids = |rows: &[Arc<Row>], wanted: &dyn Fn(&Arc<Row>) -> bool| {
            let wanted = rows.iter().filter(|row| wanted(row));
            wanted.map(|row| row.id).collect()
        };
        Self {
            rows: ids(&after.rows, &|row| !same(row)),
            added: ids(&after.rows, &|row| !old.contains_key(&row.id)),
            removed: ids(&before.rows, &|row| !new.contains_key(&row.id)),
            fields: Field::ALL
                .iter()
                .copied()
                .filter(|field| before.field(*field) != after.field(*field))
                .collect(),
            read: 0,
            unread: 0,
            other: before.unit != after.unit
                || before.overrules != after.overrules
                || before.answers != after.answers
                || before.slips != after.slips
                || before.reports != after.reports,
        }
    }
}

fn by_id(job: &Job) -> BTreeMap<RowId, &Arc<Row>> {
    job.rows.iter().map(|row| (row.id, row)).collect()
}
