//! What of a shop is still as in the samples.

use super::kind::ShopValue;
use super::lists::{ShopColumn, ShopLine, ShopList};
use super::own::ShopSheet;
use super::page::shown_rows;
use super::to_file::has_sample_rates;

/// Something that a shop has to say itself before it goes by its own figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Still {
    /// Name or address.
    Name,
    /// The currency.
    Currency,
    /// What an hour of machine or labor costs.
    Rates,
    /// Margin and minimum charge.
    Margin,
    /// What an hour of dielectric or power costs.
    Running,
    /// No machine of its own.
    Machines,
    /// Electrodes that are not its own.
    Electrodes,
    /// Guides that are not its own.
    Guides,
    /// Prices of so many electrodes of its own.
    ElectrodePrices(usize),
    /// The terms that quotations print.
    Terms,
    /// What quotations leave out.
    Exclusions,
}

/// What is still as in the samples, in the order of the sheet.
#[must_use]
pub fn still_sample(sheet: &ShopSheet) -> Vec<Still> {
    let mut still = Vec::new();
    let typed = |line| !sheet.line(line).is_empty();
    if !typed(ShopLine::Name) || !typed(ShopLine::Address) {
        still.push(Still::Name);
    }
    if !typed(ShopLine::Currency) {
        still.push(Still::Currency);
    }
    if has_sample_rates(sheet) {
        still.push(Still::Rates);
    }
    let cards = shown_rows(sheet, ShopList::Rates, true);
    let is_own = |column| cards.iter().any(|card| !card.typed(column).is_empty());
    if !is_own(ShopColumn::Margin) || !is_own(ShopColumn::Minimum) {
        still.push(Still::Margin);
    }
    if !is_own(ShopColumn::DielectricHour) || !is_own(ShopColumn::PowerHour) {
        still.push(Still::Running);
    }
    if shown_rows(sheet, ShopList::Machines, true)
        .iter()
        .any(|row| row.own.is_none())
    {
        still.push(Still::Machines);
    }
    let electrodes = shown_rows(sheet, ShopList::Electrodes, true);
    if electrodes.iter().any(|row| row.own.is_none()) {
        still.push(Still::Electrodes);
    }
    let guides = shown_rows(sheet, ShopList::Guides, true);
    if guides.iter().any(|row| row.own.is_none()) {
        still.push(Still::Guides);
    }
    let own = electrodes.iter().filter(|row| row.own.is_some());
    let unpriced = own.filter(|row| {
        !matches!(
            row.typed(ShopColumn::Price).value(),
            Some(ShopValue::Money(_))
        )
    });
    let unpriced = unpriced.count();
    if unpriced > 0 {
        still.push(Still::ElectrodePrices(unpriced));
    }
    for (line, text) in [
        (ShopLine::Terms, Still::Terms),
        (ShopLine::Exclusions, Still::Exclusions),
    ] {
        if !typed(line) {
            still.push(text);
        }
    }
    still
}
