//! What an edit touched.

use quillbore_calc::RowId;

use crate::field::Field;

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
    /// The job's unit or an overrule differs from before.
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

    /// Takes in what a further edit touched.
    pub(super) fn add(&mut self, later: Self) {
        fn join<T: PartialEq>(all: &mut Vec<T>, more: Vec<T>) {
            for one in more {
                if !all.contains(&one) {
                    all.push(one);
                }
            }
        }
        self.rows.retain(|row| !later.removed.contains(row));
        self.added.retain(|row| !later.removed.contains(row));
        join(&mut self.rows, later.rows);
        join(&mut self.added, later.added);
        join(&mut self.removed, later.removed);
        join(&mut self.fields, later.fields);
        self.read += later.read;
        self.unread += later.unread;
        self.other |= later.other;
    }
}
