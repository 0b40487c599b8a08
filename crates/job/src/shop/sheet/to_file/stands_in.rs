//! What of a sheet is not said, or can't be read, so that a sample or an older card stands in its place.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;
use quillbore_calc::tables::Machine;

use super::hours::valid_from;
use super::{ShopFault, line_text, machines_of};
use crate::ground::stands_in::{NotSaid, ShopSays, StandsIn};
use crate::shop::bad_cards::BadCard;
use crate::shop::minor_digits;
use crate::shop::sheet::kind::ShopValue;
use crate::shop::sheet::lists::{ShopColumn as Column, ShopLine as Line, ShopList as List};
use crate::shop::sheet::own::{ShopRow, ShopSheet};
use crate::shop::sheet::page::shown_rows;
use crate::shop::sheet::usual::goes_on;
use crate::shop::unfit::{FigureNamed, RowUnfit};

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
        // Signs alone, or ones that nobody sees, say nothing.
        let is_silent = !typed.text().chars().any(char::is_alphanumeric);
        let missing = is_silent && needed(says);
        missing.then_some(StandsIn::Said(says, NotSaid::NotTyped))
    });
    let mut said: Vec<StandsIn> = said.collect();
    said.dedup();
    said
}

/// What of a card can't be used, cell by cell; a note is no rate.
pub(super) fn unusable(card: &ShopRow, sheet: &ShopSheet) -> Vec<(Column, ShopFault)> {
    let digits = minor_digits(&line_text(sheet, Line::Currency));
    let typed = card.cells.iter().filter(|(_, entry)| !entry.is_empty());
    let bad = typed.filter_map(|(column, entry)| {
        let fault = match entry.why() {
            Some(why) => ShopFault::Unread(why.to_owned()),
            None if *column == Column::Note || goes_on(*column, entry, digits) => return None,
            None => ShopFault::Unfit(match column {
                Column::PriceStep => RowUnfit::PriceStep,
                Column::Margin => RowUnfit::Margin,
                _ => RowUnfit::BeyondAll {
                    figure: FigureNamed::It,
                },
            }),
        };
        Some((*column, fault))
    });
    bad.collect()
}

/// The cards that can't be used as they are typed; `used` are the days of the sheet's cards that can,
/// `machines` the names of those that there are.
///
/// What a card doesn't say goes on from those before it, so a cell that can't be used goes on, too, until a
/// later card says that itself.
pub(super) fn bad_cards(
    sheet: &ShopSheet,
    used: &BTreeSet<String>,
    machines: &[Machine],
) -> Vec<BadCard> {
    // A machine that can't be used is told by itself, and says nothing against the card.
    let mut known = machines_of(sheet);
    known.extend(machines.iter().map(|row| row.name.to_lowercase()));
    let rows = shown_rows(sheet, List::Rates, false);
    let mut cards: Vec<_> = rows.iter().filter(|row| row.own.is_some()).collect();
    // One that stands for a sample may have that one's day.
    cards.sort_by_key(|row| (valid_from(row), row.own.as_ref().map(|own| own.id)));
    let mut days = BTreeSet::new();
    let mut unread: BTreeMap<Column, NaiveDate> = BTreeMap::new();
    let mut bad = Vec::new();
    for row in cards {
        let (Some(own), from) = (&row.own, valid_from(row)) else {
            continue;
        };
        let wrong: BTreeSet<Column> = {
            let cells = unusable(own, sheet).into_iter();
            let unknown = names_unknown(own, &known).then_some(Column::MachineHour);
            cells.map(|(column, _)| column).chain(unknown).collect()
        };
        let typed = own.cells.iter().filter(|(_, entry)| !entry.is_empty());
        for (column, _) in typed.filter(|(column, _)| **column != Column::Note) {
            match from {
                Some(day) if wrong.contains(column) => _ = unread.insert(*column, day),
                // The rate of one machine says nothing of the others.
                _ if *column == Column::MachineHour && !says_all(own) => {}
                _ => _ = unread.remove(column),
            }
        }
        // Of two cards of a day, only the first one counts.
        let is_used = from.is_some_and(|day| used.contains(&day.to_string()) && days.insert(day));
        if !is_used || !unread.is_empty() {
            let columns = unread.iter().map(|(column, day)| (column.key(), *day));
            bad.push(BadCard {
                from,
                columns: columns.filter(|_| is_used).collect(),
            });
        }
    }
    bad
}

/// Whether a card has the rate of a machine that is not there.
fn names_unknown(card: &ShopRow, known: &BTreeSet<String>) -> bool {
    match card.cell(Column::MachineHour).value() {
        Some(ShopValue::MachineRates(rates)) => {
            let mut named = rates.named.iter();
            named.any(|(name, _)| !known.contains(&name.to_lowercase()))
        }
        _ => false,
    }
}

/// Whether a card has one rate for all machines.
fn says_all(card: &ShopRow) -> bool {
    matches!(
        card.cell(Column::MachineHour).value(),
        Some(ShopValue::MachineRates(rates)) if rates.all.is_some()
    )
}
