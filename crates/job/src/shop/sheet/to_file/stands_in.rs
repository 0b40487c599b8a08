//! What of a sheet is not said, or can't be read, so that a sample or an older card stands in its place.

use std::collections::BTreeSet;

use chrono::NaiveDate;

use super::line_text;
use crate::ground::stands_in::{NotSaid, ShopSays, StandsIn};
use crate::shop::bad_cards::BadCard;
use crate::shop::minor_digits;
use crate::shop::rows::Shop;
use crate::shop::sheet::kind::ShopValue;
use crate::shop::sheet::lists::{ShopColumn as Column, ShopLine as Line, ShopList as List};
use crate::shop::sheet::own::{ShopRow, ShopSheet};
use crate::shop::sheet::page::shown_rows;
use crate::shop::sheet::usual::goes_on;

/// What papers would print of a sample, or leave out, since nobody typed it or it can't be read.
///
/// Terms and exclusions of the samples may stand where nobody typed any: the shop's page tells that they
/// are still samples.
pub(super) fn samples_say(sheet: &ShopSheet) -> Vec<StandsIn> {
    let lines = [
        (Line::Name, ShopSays::Name),
        (Line::Address, ShopSays::Address),
        (Line::Currency, ShopSays::Currency),
        (Line::Contact, ShopSays::Reached),
        (Line::Phone, ShopSays::Reached),
        (Line::Email, ShopSays::Reached),
        (Line::Registration, ShopSays::Reached),
        (Line::Terms, ShopSays::Terms),
        (Line::Exclusions, ShopSays::Exclusions),
        (Line::Cautions, ShopSays::Cautions),
    ];
    let needed = |says| {
        matches!(
            says,
            ShopSays::Name | ShopSays::Address | ShopSays::Currency
        )
    };
    let said = lines.into_iter().filter_map(|(line, says)| {
        let typed = sheet.line(line);
        if typed.why().is_some() {
            return Some(StandsIn::Said(says, NotSaid::Unread));
        }
        let missing = typed.is_empty() && needed(says);
        missing.then_some(StandsIn::Said(says, NotSaid::NotTyped))
    });
    let mut said: Vec<StandsIn> = said.collect();
    said.dedup();
    said
}

/// The cards that can't be used as they are typed; `shop` has those that can.
///
/// What a card doesn't say goes on from those before it, so a cell that can't be read goes on, too, until a
/// later card says that itself.
pub(super) fn bad_cards(sheet: &ShopSheet, shop: &Shop) -> Vec<BadCard> {
    let used: BTreeSet<NaiveDate> = {
        let cards = shop.earlier_rates.iter().chain([&shop.newest_rates]);
        cards.map(|card| card.valid_from).collect()
    };
    let digits = minor_digits(&line_text(sheet, Line::Currency));
    let rows = shown_rows(sheet, List::Rates, false);
    let mut cards: Vec<_> = rows.iter().filter_map(|row| row.own.as_ref()).collect();
    cards.sort_by_key(|card| (day_of(card), card.id));
    let mut days = BTreeSet::new();
    let mut unread = BTreeSet::new();
    let mut bad = Vec::new();
    for card in cards {
        let from = day_of(card);
        let typed = card.cells.iter().filter(|(_, entry)| !entry.is_empty());
        // A note is no rate.
        for (column, entry) in typed.filter(|(column, _)| **column != Column::Note) {
            if from.is_some() && !goes_on(*column, entry, digits) {
                unread.insert(*column);
            } else {
                unread.remove(column);
            }
        }
        // Of two cards of a day, only the first one counts.
        let is_used = from.is_some_and(|day| used.contains(&day) && days.insert(day));
        if !is_used || !unread.is_empty() {
            let columns = unread.iter().map(|column| column.key());
            bad.push(BadCard {
                from,
                columns: columns.filter(|_| is_used).collect(),
            });
        }
    }
    bad
}

fn day_of(card: &ShopRow) -> Option<NaiveDate> {
    match card.cell(Column::ValidFrom).value() {
        Some(ShopValue::Date(day)) => Some(*day),
        _ => None,
    }
}
