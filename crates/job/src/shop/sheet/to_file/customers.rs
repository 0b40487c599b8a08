//! The customers of the shop's sheet.

use std::collections::BTreeSet;

use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive as _;

use super::cells::{Cells, Wrong};
use super::{ShopFault, ShopNote};
use crate::shop::customer::{Customer, Exchange};
use crate::shop::minor_digits;
use crate::shop::sheet::kind::ShopValue;
use crate::shop::sheet::lists::{ShopColumn as Column, ShopList as List};
use crate::shop::sheet::own::ShopSheet;
use crate::shop::sheet::page::ShownRow;

/// The customers that can be used, by their names; the others are told.
pub(super) fn customers(sheet: &ShopSheet, notes: &mut Vec<ShopNote>) -> Vec<Customer> {
    let mut seen = BTreeSet::new();
    let mut customers = Vec::new();
    for row in sheet.own(List::Customers) {
        let row = ShownRow::of(sheet, List::Customers, row);
        let cells = Cells::new(List::Customers, &row);
        let customer = cells
            .checked_name(&mut seen)
            .and_then(|()| customer(&cells));
        // Without a rate quotations are in the shop's currency; the address is as good as before.
        let exchange = exchange(&cells).unwrap_or_else(|(column, fault)| {
            notes.push(ShopNote::of_row(List::Customers, &row, column, fault));
            None
        });
        match customer {
            Ok(customer) => customers.push(Customer {
                exchange,
                ..customer
            }),
            Err((column, fault)) => {
                notes.push(ShopNote::of_row(List::Customers, &row, column, fault));
            }
        }
    }
    customers.sort_by_key(|customer| customer.name.to_lowercase());
    customers
}

fn customer(cells: &Cells<'_>) -> Result<Customer, Wrong> {
    let lines = |column| -> Result<Vec<String>, Wrong> {
        let text = cells.text(column)?;
        let ends: &[char] = match column {
            Column::Address => &['\n', ';'],
            _ => &['\n'],
        };
        let lines = text
            .split(ends)
            .map(str::trim)
            .filter(|line| !line.is_empty());
        Ok(lines.map(str::to_owned).collect())
    };
    let amount = |column| -> Result<Option<Decimal>, Wrong> {
        Ok(match cells.value(column)? {
            Some(ShopValue::Money(amount)) => Some(amount),
            Some(ShopValue::MachineRates(rates)) => rates.all,
            _ => None,
        })
    };
    Ok(Customer {
        name: cells.name()?,
        contact: cells.text(Column::Contact)?,
        address: lines(Column::Address)?,
        email: cells.text(Column::Email)?,
        phone: cells.text(Column::Phone)?,
        their_number: cells.text(Column::TheirNumber)?,
        exchange: None,
        margin: cells.number_or_none(Column::Margin)?,
        machine_hour: amount(Column::MachineHour)?,
        labor_hour: amount(Column::LaborHour)?,
        sampling: cells.text(Column::Sampling)?,
        clauses: lines(Column::Clauses)?,
        payment: cells.text(Column::Payment)?,
        delivery: cells.text(Column::Delivery)?,
    })
}

/// The currency of a customer's quotations; without rate and day there is none to quote in.
fn exchange(cells: &Cells<'_>) -> Result<Option<Exchange>, Wrong> {
    let currency = cells.text(Column::Currency)?;
    let rate = cells.number_or_none(Column::ExchangeRate)?;
    let dated = cells.day_or_none(Column::ExchangeDay)?;
    if currency.is_empty() && rate.is_none() && dated.is_none() {
        return Ok(None);
    }
    if currency.is_empty() {
        return Err((Some(Column::Currency), ShopFault::Missing));
    }
    let rate = rate.and_then(Decimal::from_f64);
    Ok(Some(Exchange {
        minor_digits: minor_digits(&currency),
        currency,
        rate: rate.ok_or((Some(Column::ExchangeRate), ShopFault::Missing))?,
        dated: dated.ok_or((Some(Column::ExchangeDay), ShopFault::Missing))?,
    }))
}
