//! The cells of a row as they count, each in its own type, or what is wrong with one.

use std::collections::BTreeSet;

use chrono::NaiveDate;
use rust_decimal::prelude::ToPrimitive as _;

use super::ShopFault;
use super::rows::naming;
use crate::shop::disk::OWN_FILE;
use crate::shop::sheet::kind::{MachineRates, ShopValue};
use crate::shop::sheet::lists::{ShopColumn as Column, ShopList as List};
use crate::shop::sheet::page::ShownRow;

/// What is wrong with a row, and in which column.
pub(super) type Wrong = (Option<Column>, ShopFault);

/// The cells of one row.
pub(super) struct Cells<'a> {
    pub(super) list: List,
    pub(super) row: &'a ShownRow,
}

impl<'a> Cells<'a> {
    pub(super) const fn new(list: List, row: &'a ShownRow) -> Self {
        Self { list, row }
    }

    /// That it has a name which no row before it has, by what is `seen`.
    pub(super) fn checked_name(&self, seen: &mut BTreeSet<String>) -> Result<(), Wrong> {
        // What can't be read may be what the name is made of, so it is told first.
        if let Some(wrong) = self.unread().into_iter().next() {
            return Err(wrong);
        }
        let column = naming(self.list);
        let name = self.name()?;
        if seen.insert(name.to_lowercase()) {
            return Ok(());
        }
        Err((Some(column), ShopFault::Twice))
    }

    /// What of it can't be read.
    pub(super) fn unread(&self) -> Vec<Wrong> {
        let own = self.row.own.iter().flat_map(|row| &row.cells);
        let unread = own.filter_map(|(column, entry)| {
            let why = entry.why()?;
            Some((Some(*column), ShopFault::Unread(why.to_owned())))
        });
        unread.collect()
    }

    /// What it is called.
    pub(super) fn name(&self) -> Result<String, Wrong> {
        match self.value(naming(self.list))? {
            Some(ShopValue::Text(name)) => Ok(name),
            Some(ShopValue::Date(day)) => Ok(day.to_string()),
            _ => Err((Some(naming(self.list)), ShopFault::Missing)),
        }
    }

    /// What counts of a cell.
    pub(super) fn value(&self, column: Column) -> Result<Option<ShopValue>, Wrong> {
        let entry = self.row.entry(column);
        match entry.why() {
            Some(why) => Err((Some(column), ShopFault::Unread(why.to_owned()))),
            None => Ok(entry.value().cloned()),
        }
    }

    fn needed<T>(&self, column: Column, value: Option<T>) -> Result<T, Wrong> {
        let _ = self;
        value.ok_or((Some(column), ShopFault::Missing))
    }

    /// One line or word; empty where there is none.
    pub(super) fn text(&self, column: Column) -> Result<String, Wrong> {
        Ok(match self.value(column)? {
            Some(ShopValue::Text(text)) => text,
            _ => String::new(),
        })
    }

    /// A length [mm].
    pub(super) fn mm(&self, column: Column) -> Result<f64, Wrong> {
        let value = self.value(column)?.and_then(|value| match value {
            ShopValue::Length(length) => Some(length.mm()),
            _ => None,
        });
        self.needed(column, value)
    }

    /// A number, a share or an amount.
    pub(super) fn number(&self, column: Column) -> Result<f64, Wrong> {
        let value = self.number_or_none(column)?;
        self.needed(column, value)
    }

    /// The same, where there may be none.
    pub(super) fn number_or_none(&self, column: Column) -> Result<Option<f64>, Wrong> {
        Ok(match self.value(column)? {
            Some(ShopValue::Number(number)) => Some(number),
            Some(ShopValue::Money(amount)) => amount.to_f64(),
            _ => None,
        })
    }

    /// A whole number, where there is one.
    pub(super) fn count_or_none(&self, column: Column) -> Result<Option<u32>, Wrong> {
        Ok(match self.value(column)? {
            Some(ShopValue::Count(count)) => Some(count),
            _ => None,
        })
    }

    /// Yes or no; no where nobody said.
    pub(super) fn yes(&self, column: Column) -> Result<bool, Wrong> {
        Ok(matches!(self.value(column)?, Some(ShopValue::YesNo(true))))
    }

    /// A day, where there is one.
    pub(super) fn day_or_none(&self, column: Column) -> Result<Option<NaiveDate>, Wrong> {
        Ok(match self.value(column)? {
            Some(ShopValue::Date(day)) => Some(day),
            _ => None,
        })
    }

    /// What an hour of the machines costs.
    pub(super) fn machine_rates(&self) -> Result<MachineRates, Wrong> {
        Ok(match self.value(Column::MachineHour)? {
            Some(ShopValue::MachineRates(rates)) => rates,
            _ => MachineRates::default(),
        })
    }

    /// Where the row comes from: what was typed, and where the rest of it does.
    pub(super) fn pedigree(&self) -> Result<String, Wrong> {
        let typed = self.row.typed(Column::Note);
        let own = if typed.is_empty() {
            OWN_FILE.to_owned()
        } else {
            self.text(Column::Note)?
        };
        let usual = self.row.usual(Column::Note);
        Ok(if usual.is_empty() {
            own
        } else {
            format!("{own}; what is not typed: {usual}")
        })
    }
}
