//! The shop's sheet: what was typed, and which samples count no more.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use chrono::NaiveDate;

use super::kind::ShopValue;
use super::lists::{ShopColumn, ShopLine, ShopList};
use crate::shop::logo::Logo;
use crate::typed::entry::{Entry, Unit};

/// The shop as it is typed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ShopSheet {
    /// The unit that bare lengths are shown and typed in.
    pub unit: Unit,
    /// Single lines; one that is not here is as in the samples.
    pub lines: Arc<BTreeMap<ShopLine, Entry<ShopValue>>>,
    /// The rows of its own in each list, in the order in which they came.
    pub rows: BTreeMap<ShopList, Vec<Arc<ShopRow>>>,
    /// The identity that the next new row gets.
    pub next_row: u32,
    /// Lists whose samples count no more.
    pub without_samples: BTreeSet<ShopList>,
    /// Single samples that count no more, by their names.
    pub left_out: BTreeSet<(ShopList, String)>,
    /// The logo.
    pub logo: Option<Arc<Logo>>,
    /// What was changed last, the newest last.
    pub changes: Vec<Arc<ShopChange>>,
}

/// A row of a list; its identity is never used again in this sheet.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ShopRow {
    /// Identity in the sheet.
    pub id: u32,
    /// The sample in whose place it stands, by its name: what is not typed is as there.
    pub stands_for: Option<String>,
    /// What was typed.
    pub cells: BTreeMap<ShopColumn, Entry<ShopValue>>,
}

/// What was changed, when, and at which desk.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ShopChange {
    /// The day.
    pub day: NaiveDate,
    /// What the desk calls itself.
    pub by: String,
    /// What was done, in a few words.
    pub what: String,
}

/// Most changes that are told.
pub const MOST_CHANGES: usize = 200;

impl ShopSheet {
    /// What was typed in a single line.
    #[must_use]
    pub fn line(&self, line: ShopLine) -> &Entry<ShopValue> {
        self.lines.get(&line).unwrap_or(&Entry::EMPTY)
    }

    /// The rows of its own in a list.
    #[must_use]
    pub fn own(&self, list: ShopList) -> &[Arc<ShopRow>] {
        self.rows.get(&list).map_or(&[], Vec::as_slice)
    }

    /// A row of its own.
    #[must_use]
    pub fn row(&self, list: ShopList, id: u32) -> Option<&Arc<ShopRow>> {
        self.own(list).iter().find(|row| row.id == id)
    }

    /// The same sheet with other identities of some rows, from the ones that they have.
    #[must_use]
    pub fn renumbered(&self, renumbered: &BTreeMap<u32, u32>) -> Self {
        let mut sheet = self.clone();
        if renumbered.is_empty() {
            return sheet;
        }
        for row in sheet.rows.values_mut().flatten() {
            if let Some(id) = renumbered.get(&row.id) {
                Arc::make_mut(row).id = *id;
                sheet.next_row = sheet.next_row.max(id.saturating_add(1));
            }
        }
        sheet
    }

    /// Whether anything was typed, or a sample left out.
    #[must_use]
    pub fn is_untouched(&self) -> bool {
        let empty = Self {
            unit: self.unit,
            next_row: self.next_row,
            changes: self.changes.clone(),
            ..Self::default()
        };
        *self == empty
    }

    /// Whether a sample counts no more. Rate cards are a whole: a sample of a later day must not come
    /// before a card of the shop's own.
    #[must_use]
    pub fn is_out(&self, list: ShopList, sample: &str) -> bool {
        let own_card = |row: &Arc<ShopRow>| row.stands_for.is_none();
        if list == ShopList::Rates && self.own(list).iter().any(own_card) {
            return true;
        }
        self.without_samples.contains(&list) || self.left_out.contains(&(list, sample.to_owned()))
    }
}

impl ShopRow {
    /// What was typed in a cell.
    #[must_use]
    pub fn cell(&self, column: ShopColumn) -> &Entry<ShopValue> {
        self.cells.get(&column).unwrap_or(&Entry::EMPTY)
    }
}
