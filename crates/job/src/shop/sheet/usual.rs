//! What a row says where nothing is typed: the sample that it stands for, else what is usual.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive as _;

use super::kind::{MachineRates, ShopKind, ShopValue, read_shop};
use super::lists::{ShopColumn as Column, ShopLine, ShopList as List};
use super::own::{ShopRow, ShopSheet};
use super::samples::{sample, samples};
use super::text_rows::{TextRow, plain};
use super::to_file::line_text;
use crate::ground::limits::is_of_a_shop;
use crate::shop::minor::is_step;
use crate::shop::minor_digits;
use crate::typed::entry::{Entry, Unit};

/// The length of new electrodes that is usual [mm].
const USUAL_LENGTH_MM: f64 = 300.0;

/// What a row's empty cells say; nothing where there is nothing usual.
pub(super) fn usual(sheet: &ShopSheet, list: List, row: &ShopRow) -> BTreeMap<Column, String> {
    // A sample card that was given another day goes on from the card before that day.
    let is_later = list == List::Rates && has_own_before(sheet, row);
    if let Some(sample) = row.stands_for.as_ref().and_then(|name| sample(list, name))
        && !is_later
    {
        return sample.cells.clone();
    }
    match list {
        List::Rates => card_before(sheet, row),
        List::Electrodes => electrode(row),
        List::Guides => guide(row),
        List::Machines => machine(),
        List::Materials => material(row),
        List::Customers | List::Families | List::DaysOff | List::StartValues => BTreeMap::new(),
    }
}

/// Whether a card has a day typed, and another one of the shop's own stands before it.
fn has_own_before(sheet: &ShopSheet, row: &ShopRow) -> bool {
    let own = card_day(row);
    let mut others = sheet.own(List::Rates).iter();
    own.is_some() && others.any(|card| card_day(card).is_some_and(|day| Some(day) < own))
}

/// The day that a card is typed to be valid from.
fn card_day(row: &ShopRow) -> Option<NaiveDate> {
    match row.cell(Column::ValidFrom).value() {
        Some(ShopValue::Date(day)) => Some(*day),
        _ => None,
    }
}

/// A new card goes on with what the one before it says.
fn card_before(sheet: &ShopSheet, row: &ShopRow) -> BTreeMap<Column, String> {
    let own = card_day(row);
    let before = sheet
        .own(List::Rates)
        .iter()
        .filter(|card| card.id != row.id);
    let before = before.filter(|card| card_day(card) < own && card_day(card).is_some());
    let newest = before.max_by_key(|card| (card_day(card), card.id));
    let mut cells = match newest {
        Some(card) => {
            let mut cells = usual(sheet, List::Rates, card);
            // What can't be there takes nothing with it here.
            let digits = minor_digits(&line_text(sheet, ShopLine::Currency));
            let typed = card.cells.iter();
            let typed = typed.filter(|(column, entry)| goes_on(**column, entry, digits));
            let before = cells.get(&Column::MachineHour).map(|text| rates_of(text));
            cells.extend(typed.map(|(column, entry)| (*column, entry.text().to_owned())));
            // A card that says the rate of one machine says nothing of the others.
            if let Some((said, before)) = cells.get_mut(&Column::MachineHour).zip(before) {
                *said = rates_of(said).over(before).text();
            }
            cells
        }
        None => {
            let newest = samples().list(List::Rates).last();
            let mut cells = newest.map_or_else(BTreeMap::new, |card| card.cells.clone());
            // The sample's machines may be no machines of this shop.
            cells.remove(&Column::MachineHour);
            cells
        }
    };
    cells.remove(&Column::ValidFrom);
    cells.remove(&Column::Note);
    cells
}

/// What a text says of the machines' rates; nothing where it can't be read.
pub(super) fn rates_of(text: &str) -> MachineRates {
    match read_shop(ShopKind::MachineRates, text, Unit::Mm).value() {
        Some(ShopValue::MachineRates(rates)) => rates.clone(),
        _ => MachineRates::default(),
    }
}

/// Whether a cell of a card can be used, so that later cards go on with it.
pub(super) fn goes_on(column: Column, entry: &Entry<ShopValue>, minor_digits: u32) -> bool {
    let can_be = |value: f64| match column {
        Column::PriceStep => value <= 0.0 || is_step(value, minor_digits),
        Column::Margin => (0.0..1.0).contains(&value),
        Column::Redo | Column::PartRisk => (0.0..=1.0).contains(&value),
        _ => value >= 0.0 && is_of_a_shop(value),
    };
    let is_amount = |amount: &Decimal| amount.to_f64().is_some_and(can_be);
    match entry.value() {
        None => false,
        Some(ShopValue::Money(amount)) => is_amount(amount),
        Some(ShopValue::Number(number)) => can_be(*number),
        Some(ShopValue::MachineRates(rates)) => {
            let named = rates.named.iter().map(|(_, rate)| rate);
            rates.all.iter().chain(named).all(is_amount)
        }
        Some(_) => true,
    }
}

/// As the sample nearest in size, of the same metal and channels where those are typed; the bore in the
/// same proportion.
fn electrode(row: &ShopRow) -> BTreeMap<Column, String> {
    let Some(outer) = length(row, Column::Outer) else {
        return BTreeMap::new();
    };
    let wanted_length = length(row, Column::NewLength).unwrap_or(USUAL_LENGTH_MM);
    let typed = |column| row.cell(column).text().trim().to_lowercase();
    let (metal, channels) = (typed(Column::Metal), typed(Column::Channels));
    let metal = if metal.is_empty() { "brass" } else { &metal };
    let channels = if channels.is_empty() { "1" } else { &channels };
    let has = |sample: &&TextRow| {
        let says =
            |column: Column, word: &str| sample.cells.get(&column).is_some_and(|text| text == word);
        says(Column::Metal, metal) && says(Column::Channels, channels)
    };
    let alike: Vec<&TextRow> = samples()
        .list(List::Electrodes)
        .iter()
        .filter(has)
        .collect();
    let distance = |sample: &TextRow| {
        let size = number(sample, Column::Outer).unwrap_or(f64::INFINITY);
        let length = number(sample, Column::NewLength).unwrap_or(f64::INFINITY);
        (
            libm::fabs(libm::log(size / outer)),
            libm::fabs(length - wanted_length),
        )
    };
    let nearest = alike.into_iter().min_by(|one, other| {
        let ((size, length), (other_size, other_length)) = (distance(one), distance(other));
        size.total_cmp(&other_size)
            .then(length.total_cmp(&other_length))
    });
    let Some(nearest) = nearest else {
        return BTreeMap::from([
            (Column::Metal, metal.to_owned()),
            (Column::Channels, channels.to_owned()),
        ]);
    };
    let mut cells = nearest.cells.clone();
    for column in [Column::Outer, Column::Note, Column::InDrawer] {
        cells.remove(&column);
    }
    let proportion = number(nearest, Column::Bore).zip(number(nearest, Column::Outer));
    if let Some((bore, of)) = proportion {
        let bore = libm::round(outer * bore / of * 1000.0) / 1000.0;
        cells.insert(Column::Bore, plain(bore));
    }
    let length = length(row, Column::NewLength);
    let length = length.or_else(|| number(nearest, Column::NewLength));
    let name = electrode_name(metal, channels, outer, length.unwrap_or(USUAL_LENGTH_MM));
    cells.insert(Column::Name, name);
    cells
}

/// What an electrode is called that nobody named: `brass 0.50 x 300`.
fn electrode_name(metal: &str, channels: &str, outer_mm: f64, length_mm: f64) -> String {
    let size = two_decimals(outer_mm);
    let many = match channels {
        "1" => String::new(),
        channels => format!(", {channels} channels"),
    };
    format!("{metal} {size} x {length_mm}{many}")
}

/// As the sample nearest in size.
fn guide(row: &ShopRow) -> BTreeMap<Column, String> {
    let Some(size) = length(row, Column::ForElectrode) else {
        return BTreeMap::new();
    };
    let distance = |sample: &&TextRow| {
        let of = number(sample, Column::ForElectrode).unwrap_or(f64::INFINITY);
        libm::fabs(libm::log(of / size))
    };
    let all = samples().list(List::Guides).iter();
    let nearest = all.min_by(|one, other| distance(one).total_cmp(&distance(other)));
    let mut cells = nearest.map_or_else(BTreeMap::new, |sample| sample.cells.clone());
    for column in [Column::ForElectrode, Column::Note, Column::InDrawer] {
        cells.remove(&column);
    }
    cells.insert(Column::Name, format!("guide {}", two_decimals(size)));
    cells
}

fn two_decimals(size: f64) -> String {
    if libm::round(size * 100.0) / 100.0 == size {
        format!("{size:.2}")
    } else {
        plain(size)
    }
}

/// A common machine; what not every one has it hasn't either until somebody says so.
fn machine() -> BTreeMap<Column, String> {
    let first = samples().list(List::Machines).first();
    let mut cells = first.map_or_else(BTreeMap::new, |sample| sample.cells.clone());
    for column in [
        Column::Name,
        Column::Note,
        Column::TiltFrom,
        Column::TiltTo,
        Column::Tilts,
        // Another machine's nose tells nothing of this one's.
        Column::NoseDiameter,
        Column::NoseLength,
        Column::HeadDiameter,
    ] {
        cells.remove(&column);
    }
    for column in [Column::Changer, Column::IndexAxis] {
        cells.insert(column, "no".to_owned());
    }
    cells
}

/// Density and dangers as the first sample of the family has them; feed and wear come from the family
/// itself.
fn material(row: &ShopRow) -> BTreeMap<Column, String> {
    let Some(ShopValue::Text(family)) = row.cell(Column::Family).value() else {
        return BTreeMap::new();
    };
    let same = |sample: &&TextRow| sample.cells.get(&Column::Family) == Some(family);
    let first = samples().list(List::Materials).iter().find(same);
    let mut cells = first.map_or_else(BTreeMap::new, |sample| sample.cells.clone());
    cells.retain(|column, _| matches!(column, Column::Density | Column::Hazards));
    cells
}

fn length(row: &ShopRow, column: Column) -> Option<f64> {
    match row.cell(column).value() {
        Some(ShopValue::Length(length)) => Some(length.mm()),
        _ => None,
    }
}

fn number(sample: &TextRow, column: Column) -> Option<f64> {
    let text = sample.cells.get(&column)?;
    match read_shop(column.kind(), text, Unit::Mm).value() {
        Some(ShopValue::Length(length)) => Some(length.mm()),
        Some(ShopValue::Number(number)) => Some(*number),
        _ => None,
    }
}
