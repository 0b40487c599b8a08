//! Machines whose hour of their own doesn't count, since a rate card has one for all machines.

use std::collections::BTreeSet;

use chrono::NaiveDate;

use super::{ShopFault, ShopNote};
use crate::shop::sheet::kind::{MachineRates, ShopValue};
use crate::shop::sheet::lists::{ShopColumn as Column, ShopList as List};
use crate::shop::sheet::own::ShopSheet;
use crate::shop::sheet::page::{ShownRow, shown_rows};

/// Of each machine whose own hour the newest cards overrule, a note.
pub(super) fn hours_overruled(sheet: &ShopSheet) -> Vec<ShopNote> {
    let cards = shown_rows(sheet, List::Rates, false);
    let mut cards: Vec<(NaiveDate, MachineRates)> = (cards.iter())
        .filter(|card| card.own.is_some())
        .filter_map(|card| Some((valid_from(card)?, rates(card)?)))
        .collect();
    cards.sort_by_key(|(day, _)| *day);
    let mut for_all = None;
    let said = cards
        .into_iter()
        .fold(MachineRates::default(), |before, (day, rates)| {
            for_all = rates.all.map(|rate| (day, rate)).or(for_all);
            rates.over(before)
        });
    let Some((day, rate)) = for_all else {
        return Vec::new();
    };
    let machines = sheet.own(List::Machines).iter();
    let overruled = machines.filter_map(|row| {
        let id = row.id;
        let row = ShownRow::of(sheet, List::Machines, row);
        let name = row.text(Column::Name);
        let is_named = said
            .named
            .iter()
            .any(|(of, _)| of.eq_ignore_ascii_case(name));
        let own = rates(&row)?.all.filter(|own| *own != rate && !is_named)?;
        Some(ShopNote {
            row: Some((List::Machines, Some(id))),
            name: name.to_owned(),
            column: Some(Column::MachineHour),
            line: None,
            fault: ShopFault::CardForAll { day, rate, own },
        })
    });
    overruled.collect()
}

/// The machines whose row says what their hour costs while no card of the shop's own names them, in small
/// letters: what a sample card says of a machine of their name doesn't count.
pub(super) fn hours_of_machines(sheet: &ShopSheet) -> BTreeSet<String> {
    let cards = shown_rows(sheet, List::Rates, false);
    let named: BTreeSet<String> = (cards.iter())
        .filter(|card| card.own.is_some())
        .filter_map(rates)
        .flat_map(|rates| rates.named)
        .map(|(name, _)| name.to_lowercase())
        .collect();
    let machines = sheet.own(List::Machines).iter();
    let said = machines.filter_map(|row| {
        let row = ShownRow::of(sheet, List::Machines, row);
        rates(&row)?.all?;
        Some(row.text(Column::Name).to_lowercase())
    });
    said.filter(|name| !named.contains(name)).collect()
}

/// The day that a card is valid from, where it can be read.
pub(super) fn valid_from(card: &ShownRow) -> Option<NaiveDate> {
    match card.entry(Column::ValidFrom).value() {
        Some(ShopValue::Date(day)) => Some(*day),
        _ => None,
    }
}

/// What a row's own cell says of machine hours; none where nobody typed it, or it can't be read.
fn rates(row: &ShownRow) -> Option<MachineRates> {
    match row.typed(Column::MachineHour).value() {
        Some(ShopValue::MachineRates(rates)) => Some(rates.clone()),
        _ => None,
    }
}
