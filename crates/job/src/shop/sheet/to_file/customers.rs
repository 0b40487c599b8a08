//! The customers of the shop's sheet.

use std::collections::{BTreeMap, BTreeSet};

use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive as _;

use super::cells::{Cells, Wrong};
use super::{ShopFault, ShopNote};
use crate::shop::customer::{Customer, Exchange};
use crate::shop::sheet::kind::ShopValue;
use crate::shop::sheet::lists::{ShopColumn as Column, ShopList as List};
use crate::shop::sheet::own::ShopSheet;
use crate::shop::sheet::page::ShownRow;
use crate::typed::field::Field;
use crate::typed::language::Language;

/// The customers by their names. What of a row can't be read is told, and takes nothing else with it.
pub(super) fn customers(sheet: &ShopSheet, notes: &mut Vec<ShopNote>) -> Vec<Customer> {
    let mut seen = BTreeSet::new();
    let mut customers = Vec::new();
    for row in sheet.own(List::Customers) {
        let row = ShownRow::of(sheet, List::Customers, row);
        let cells = Cells::new(List::Customers, &row);
        let mut tell = |column, fault| {
            notes.push(ShopNote::of_row(List::Customers, &row, column, fault));
        };
        let name = match cells.name() {
            Ok(name) => name,
            Err((column, fault)) => {
                tell(column, fault);
                continue;
            }
        };
        if !seen.insert(name.to_lowercase()) {
            tell(Some(Column::Name), ShopFault::Twice);
            continue;
        }
        let mut wrong = cells.unread();
        let exchange = exchange(&cells, &mut wrong);
        wrong.extend(hours_of_machines(&cells));
        let told = wrong.iter().map(|(column, _)| *column);
        let unread = told.filter_map(|column| typed(&cells, column?)).collect();
        for (column, fault) in wrong {
            tell(column, fault);
        }
        customers.push(customer(&cells, name, exchange, unread));
    }
    customers.sort_by_key(|customer| customer.name.to_lowercase());
    customers
}

/// What a customer's row says; what can't be read is as if nothing stood there.
fn customer(
    cells: &Cells<'_>,
    name: String,
    exchange: Option<Exchange>,
    unread: BTreeMap<Field, String>,
) -> Customer {
    let text = |column| cells.text(column).unwrap_or_default();
    let lines = |column| {
        let text = text(column);
        let ends: &[char] = match column {
            Column::Address => &['\n', ';'],
            _ => &['\n'],
        };
        let lines = text.split(ends).map(str::trim);
        let lines = lines.filter(|line| !line.is_empty());
        lines.map(str::to_owned).collect()
    };
    let amount = |column| match cells.value(column).ok().flatten() {
        Some(ShopValue::Money(amount)) => Some(amount),
        Some(ShopValue::MachineRates(rates)) => rates.all,
        _ => None,
    };
    Customer {
        name,
        contact: text(Column::Contact),
        address: lines(Column::Address),
        email: text(Column::Email),
        phone: text(Column::Phone),
        their_number: text(Column::TheirNumber),
        language: Language::of_key(&text(Column::Language)),
        exchange,
        margin: cells.number_or_none(Column::Margin).ok().flatten(),
        machine_hour: amount(Column::MachineHour),
        labor_hour: amount(Column::LaborHour),
        sampling: text(Column::Sampling),
        clauses: lines(Column::Clauses),
        payment: text(Column::Payment),
        delivery: text(Column::Delivery),
        unread,
    }
}

/// The currency of a customer's quotations. One that stands there counts also without a rate and its day,
/// which are told as missing: nothing is quoted in the shop's own currency instead.
fn exchange(cells: &Cells<'_>, wrong: &mut Vec<Wrong>) -> Option<Exchange> {
    let is_empty = |column| cells.row.text(column).trim().is_empty();
    let [currency, rate, day] = [Column::Currency, Column::ExchangeRate, Column::ExchangeDay];
    if [currency, rate, day].into_iter().all(is_empty) {
        return None;
    }
    let missing = [currency, rate, day]
        .into_iter()
        .filter(|column| is_empty(*column));
    wrong.extend(missing.map(|column| (Some(column), ShopFault::Missing)));
    let rate = cells.number_or_none(rate).ok().flatten();
    Some(Exchange {
        currency: cells.text(currency).unwrap_or_default(),
        rate: rate.and_then(Decimal::from_f64),
        dated: cells.day_or_none(day).ok().flatten(),
    })
}

/// A rate of single machines, which no agreement has: it is one amount for all of them.
fn hours_of_machines(cells: &Cells<'_>) -> Option<Wrong> {
    let rates = cells.machine_rates().ok()?;
    (!rates.named.is_empty()).then_some((Some(Column::MachineHour), ShopFault::OneRateForAll))
}

/// What was typed of an agreement, and the field of a job that it goes into.
fn typed(cells: &Cells<'_>, column: Column) -> Option<(Field, String)> {
    let field = match column {
        Column::Language => Field::Language,
        Column::Margin => Field::Margin,
        Column::MachineHour => Field::AgreedMachineHour,
        Column::LaborHour => Field::AgreedLaborHour,
        Column::Currency => Field::Currency,
        Column::ExchangeRate => Field::ExchangeRate,
        Column::ExchangeDay => Field::ExchangeDay,
        _ => return None,
    };
    let text = cells.row.text(column).trim();
    (!text.is_empty()).then(|| (field, text.to_owned()))
}
