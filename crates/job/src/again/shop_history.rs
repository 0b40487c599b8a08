//! Undo and redo of the shop's sheet, and the line of what was changed that each edit leaves.

use std::sync::Arc;

use chrono::NaiveDate;

use crate::shop::sheet::{MOST_CHANGES, ShopChange, ShopEdit, ShopRefused, ShopSheet, apply_shop};
use crate::words::shop_sheet::{label, undone};

/// Most steps that can be undone.
const MOST_STEPS: usize = 200;

/// A sheet with the way it came about.
#[derive(Clone, Debug, Default)]
pub struct ShopHistory {
    now: Arc<ShopSheet>,
    past: Vec<(Arc<ShopSheet>, String)>,
    future: Vec<(Arc<ShopSheet>, String)>,
}

/// Who changes the sheet, and when.
#[derive(Clone, Copy, Debug)]
pub struct Changing<'a> {
    /// Today.
    pub day: NaiveDate,
    /// What the desk calls itself.
    pub by: &'a str,
}

impl ShopHistory {
    /// A history that starts with a sheet just read.
    #[must_use]
    pub fn new(sheet: ShopSheet) -> Self {
        Self {
            now: Arc::new(sheet),
            past: Vec::new(),
            future: Vec::new(),
        }
    }

    /// The sheet as it stands.
    #[must_use]
    pub const fn now(&self) -> &Arc<ShopSheet> {
        &self.now
    }

    /// Does an edit; true where it changed anything.
    ///
    /// # Errors
    /// Where the edit can't be done; nothing is changed then.
    pub fn do_edit(&mut self, edit: &ShopEdit, who: Changing<'_>) -> Result<bool, ShopRefused> {
        let mut sheet = apply_shop(&self.now, edit)?;
        if sheet == *self.now {
            return Ok(false);
        }
        let what = label(&self.now, edit);
        note(&mut sheet, who, &what);
        self.step(sheet, what);
        Ok(true)
    }

    fn step(&mut self, sheet: ShopSheet, label: String) {
        let before = std::mem::replace(&mut self.now, Arc::new(sheet));
        self.past.push((before, label));
        self.future.clear();
        if self.past.len() > MOST_STEPS {
            self.past.remove(0);
        }
    }

    /// What undo would take back, in a few words.
    #[must_use]
    pub fn undo_label(&self) -> Option<&str> {
        self.past.last().map(|(_, label)| label.as_str())
    }

    /// What redo would do again, in a few words.
    #[must_use]
    pub fn redo_label(&self) -> Option<&str> {
        self.future.last().map(|(_, label)| label.as_str())
    }

    /// Takes the last step back; what was changed says so. True where there was one.
    pub fn undo(&mut self, who: Changing<'_>) -> bool {
        let Some((before, label)) = self.past.pop() else {
            return false;
        };
        let after = self.go_to(&before, who, &undone(&label));
        self.future.push((after, label));
        true
    }

    /// Does the step that was taken back again. True where there was one.
    pub fn redo(&mut self, who: Changing<'_>) -> bool {
        let Some((after, label)) = self.future.pop() else {
            return false;
        };
        let before = self.go_to(&after, who, &label);
        self.past.push((before, label));
        true
    }

    /// Puts what a sheet says in place; identities are never given out twice, and what was changed stays.
    fn go_to(&mut self, to: &ShopSheet, who: Changing<'_>, what: &str) -> Arc<ShopSheet> {
        let mut sheet = ShopSheet {
            next_row: self.now.next_row.max(to.next_row),
            changes: self.now.changes.clone(),
            ..to.clone()
        };
        note(&mut sheet, who, what);
        std::mem::replace(&mut self.now, Arc::new(sheet))
    }

    /// Puts the sheet in place that stands on the shelf now. What another desk did can't be taken back
    /// here, so undo is barred where it did anything.
    pub fn put(&mut self, sheet: ShopSheet) {
        if sheet != *self.now {
            *self = Self::new(sheet);
        }
    }
}

/// Notes a change; one that says the same as the last of that day and desk is told once.
fn note(sheet: &mut ShopSheet, who: Changing<'_>, what: &str) {
    let change = ShopChange {
        day: who.day,
        by: who.by.to_owned(),
        what: what.to_owned(),
    };
    if sheet.changes.last().is_some_and(|last| **last == change) {
        return;
    }
    sheet.changes.push(Arc::new(change));
    let too_many = sheet.changes.len().saturating_sub(MOST_CHANGES);
    sheet.changes.drain(..too_many);
}
