//! The rows of a list as a page shows them: samples with what stands in their place, then new ones.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::Arc;

use super::edit::ShopRowAt;
use super::kind::{ShopValue, read_shop};
use super::lists::{ShopColumn, ShopList};
use super::own::{ShopRow, ShopSheet};
use super::samples::samples;
use super::usual::usual;
use crate::typed::entry::{Entry, Unit};

/// A row of a list as it counts.
#[derive(Clone, Debug, PartialEq)]
pub struct ShownRow {
    /// Which row it is.
    pub at: ShopRowAt,
    /// What was typed of it; nothing of a sample.
    pub own: Option<Arc<ShopRow>>,
    /// What its empty cells say.
    usual: Cow<'static, BTreeMap<ShopColumn, String>>,
}

impl ShownRow {
    /// A row of the sheet's own.
    #[must_use]
    pub(super) fn of(sheet: &ShopSheet, list: ShopList, row: &Arc<ShopRow>) -> Self {
        Self {
            at: ShopRowAt::Own(row.id),
            own: Some(Arc::clone(row)),
            usual: Cow::Owned(usual(sheet, list, row)),
        }
    }

    /// The same row, as if nothing stood in these columns.
    pub(super) fn without(mut self, columns: &[ShopColumn]) -> Self {
        if !columns.is_empty()
            && let Some(own) = &mut self.own
        {
            let own = Arc::make_mut(own);
            own.cells.retain(|column, _| !columns.contains(column));
        }
        self
    }

    /// What was typed in a cell.
    #[must_use]
    pub fn typed(&self, column: ShopColumn) -> &Entry<ShopValue> {
        let own = self.own.as_ref();
        own.map_or(&Entry::EMPTY, |row| row.cell(column))
    }

    /// What an empty cell says, in millimeters; empty where nothing is usual.
    #[must_use]
    pub fn usual(&self, column: ShopColumn) -> &str {
        self.usual.get(&column).map_or("", String::as_str)
    }

    /// What counts of a cell: what was typed, else what is usual.
    #[must_use]
    pub fn text(&self, column: ShopColumn) -> &str {
        let typed = self.typed(column);
        if typed.is_empty() {
            self.usual(column)
        } else {
            typed.text()
        }
    }

    /// What counts of a cell as it is read; empty where there is nothing.
    pub(super) fn entry(&self, column: ShopColumn) -> Entry<ShopValue> {
        let typed = self.typed(column);
        if !typed.is_empty() {
            return typed.clone();
        }
        read_shop(column.kind(), self.usual(column), Unit::Mm)
    }
}

/// The rows of a list in the order of its page: samples that count, each with what stands in its place,
/// where `with_samples`; then the others of its own as they came. Without samples those that stand in
/// for one stay where they are.
#[must_use]
pub fn shown_rows(sheet: &ShopSheet, list: ShopList, with_samples: bool) -> Vec<ShownRow> {
    let own = sheet.own(list);
    let mut by_sample: BTreeMap<&str, &Arc<ShopRow>> = BTreeMap::new();
    for row in own {
        if let Some(sample) = &row.stands_for {
            by_sample.entry(sample).or_insert(row);
        }
    }
    let mut rows = Vec::new();
    for sample in samples().list(list) {
        if let Some(row) = by_sample.get(sample.name.as_str()) {
            rows.push(ShownRow::of(sheet, list, row));
        } else if with_samples && !sheet.is_out(list, &sample.name) {
            rows.push(ShownRow {
                at: ShopRowAt::Sample(sample.name.clone()),
                own: None,
                usual: Cow::Borrowed(&sample.cells),
            });
        }
    }
    let first = |row: &Arc<ShopRow>| {
        let stands_for = row.stands_for.as_deref();
        let known = stands_for.and_then(|name| by_sample.get(name));
        known.is_some_and(|first| first.id == row.id)
            && samples()
                .list(list)
                .iter()
                .any(|sample| Some(sample.name.as_str()) == stands_for)
    };
    let others = own.iter().filter(|row| !first(row));
    rows.extend(others.map(|row| ShownRow::of(sheet, list, row)));
    rows
}
