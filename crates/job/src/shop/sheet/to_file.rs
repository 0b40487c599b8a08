//! From the shop's sheet to the rows of a shop file, and to the shop: what can't be used is left out
//! and told, row by row.

mod cells;
mod customers;
mod hours;
mod leave_out;
mod rows;
mod stands_in;

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;
use quillbore_calc::tables::Tube;
use rust_decimal::Decimal;

use super::kind::ShopValue;
use super::kind::words::{BOTH_SIDES, LETTER};
use super::lists::{ShopColumn as Column, ShopLine as Line, ShopList as List};
use super::own::ShopSheet;
use super::page::{ShownRow, shown_rows};
use super::samples::{samples, usual_line};
use crate::life::drawer::Thing;
use crate::shop::build::build;
use crate::shop::disk::{CalendarFile, RateRow, ShopFile, TextsFile, day_of};
use crate::shop::error::ShopError;
use crate::shop::load::embedded_file;
use crate::shop::minor::is_step;
use crate::shop::minor_digits;
use crate::shop::rows::{Identity, Shop};
use crate::shop::unfit::RowUnfit;
use crate::typed::form::{Dates, Form, Numbers};
use cells::Cells;
use hours::{hours_of_machines, hours_overruled};
use leave_out::leave_out;
use rows::MachineNames;
pub(super) use rows::has_sample_rates;

/// Something in the shop's sheet that is not used, and why.
#[derive(Clone, Debug, PartialEq)]
pub struct ShopNote {
    /// The list, with the row's identity where it is a row of its own.
    pub row: Option<(List, Option<u32>)>,
    /// The row's name, as far as it has one; or the line's.
    pub name: String,
    /// The column, where it is one.
    pub column: Option<Column>,
    /// The single line, where it is one.
    pub line: Option<Line>,
    /// Why.
    pub fault: ShopFault,
}

/// Why something in the shop's sheet is not used.
#[derive(Clone, Debug, PartialEq)]
pub enum ShopFault {
    /// It can't be read: the sentence that says why.
    Unread(String),
    /// Something that has to be there is not.
    Missing,
    /// A figure that can't be.
    Unfit(RowUnfit),
    /// Another row has the name.
    Twice,
    /// No machine has that name.
    NoSuchMachine(String),
    /// An agreement has one rate for all machines.
    OneRateForAll,
    /// A machine's own hour, where a rate card has one for all machines.
    CardForAll {
        /// The day of the card.
        day: NaiveDate,
        /// What the card says.
        rate: Decimal,
        /// What the machine's row says.
        own: Decimal,
    },
    /// What lies in the drawer was counted on no day: nothing that was used since is taken off it.
    CountUndated,
    /// The whole can't be used.
    Whole(ShopError),
}

impl Shop {
    /// The shop that a sheet says; what can't be used of it stands in [`Shop::not_used`].
    ///
    /// # Errors
    /// Where not even the samples can be used; a test proves that they can.
    pub fn of_sheet(sheet: &ShopSheet) -> Result<Self, ShopError> {
        let mut notes = Vec::new();
        let mut file = file_of(sheet, &mut notes);
        let mut has_cards = true;
        let mut used = BTreeSet::new();
        let mut shop = loop {
            if file.rates.is_empty() {
                has_cards = false;
                file.rates = sample_cards(sheet, &machine_names(&file))?;
            }
            match laid_over_samples(file.clone()) {
                Ok(shop) => {
                    used.extend(file.rates.iter().map(|card| card.valid_from.clone()));
                    break shop;
                }
                // A row that doesn't fit is left out: the others are not to be lost with it.
                Err(error) => {
                    let before = file.clone();
                    leave_out(sheet, &mut file, error.clone(), &mut notes);
                    if file == before {
                        notes.push(ShopNote::whole(error));
                        break laid_over_samples(lines_alone(sheet, &file)?)?;
                    }
                }
            }
        };
        shop.identity = identity(sheet);
        shop.on_letter = on_letter(sheet);
        shop.on_both_sides = line_text(sheet, Line::Sides) == BOTH_SIDES;
        shop.form = form(sheet);
        shop.counted = counted(sheet, &mut notes);
        notes.extend(hours_overruled(sheet));
        put_stubs(sheet, &mut shop.tables.tubes);
        shop.customers = customers::customers(sheet, &mut notes);
        shop.sample_rates = has_sample_rates(sheet) || !has_cards;
        shop.logo.clone_from(&sheet.logo);
        shop.samples_say = stands_in::samples_say(sheet);
        if !has_cards {
            used.clear();
        }
        shop.bad_cards = stands_in::bad_cards(sheet, &used, &shop.tables.machines);
        shop.not_used = notes;
        Ok(shop)
    }
}

/// The shop of a file that is laid over the samples.
fn laid_over_samples(file: ShopFile) -> Result<Shop, ShopError> {
    build(embedded_file()?.laid_under(file)?)
}

/// What stands at the head of papers and under their prices, over the samples' rows: whatever is wrong
/// with the others, it is the shop's own.
fn lines_alone(sheet: &ShopSheet, file: &ShopFile) -> Result<ShopFile, ShopError> {
    let all = machine_names(&ShopFile::default());
    Ok(ShopFile {
        name: file.name.clone(),
        address: file.address.clone(),
        texts: file.texts.clone(),
        rates: sample_cards(sheet, &all)?,
        ..ShopFile::default()
    })
}

/// The sample cards in the shop's currency, without rates of machines that are not there.
fn sample_cards(sheet: &ShopSheet, machines: &BTreeSet<String>) -> Result<Vec<RateRow>, ShopError> {
    let currency = line_text(sheet, Line::Currency);
    let own_hours = hours_of_machines(sheet);
    let mut cards = embedded_file()?.rates;
    for card in &mut cards {
        card.minor_digits = minor_digits(&currency);
        card.currency.clone_from(&currency);
        card.machines_per_hour
            .retain(|name, _| machines.contains(name) && !own_hours.contains(&name.to_lowercase()));
        let digits = card.minor_digits;
        card.price_step = card.price_step.filter(|step| is_step(*step, digits));
    }
    Ok(cards)
}

impl ShopNote {
    fn whole(error: ShopError) -> Self {
        Self {
            row: None,
            name: String::new(),
            column: None,
            line: None,
            fault: ShopFault::Whole(error),
        }
    }

    pub(super) fn of_row(
        list: List,
        row: &ShownRow,
        column: Option<Column>,
        fault: ShopFault,
    ) -> Self {
        Self {
            row: Some((list, row.own.as_ref().map(|row| row.id))),
            name: row.text(rows::naming(list)).to_owned(),
            column,
            line: None,
            fault,
        }
    }
}

/// The rows and lines of a sheet as a shop file has them; what can't be read is told.
fn file_of(sheet: &ShopSheet, notes: &mut Vec<ShopNote>) -> ShopFile {
    let mut file = ShopFile {
        without: without(sheet),
        ..ShopFile::default()
    };
    lines(sheet, &mut file, notes);
    let currency = line_text(sheet, Line::Currency);
    let rows = |list| -> Vec<ShownRow> {
        let own = sheet.own(list).iter();
        own.map(|row| ShownRow::of(sheet, list, row)).collect()
    };
    macro_rules! list {
        ($list:expr, $make:expr) => {{
            let mut seen = BTreeSet::new();
            let mut made = Vec::new();
            for row in rows($list) {
                let row = without_counts($list, row, notes);
                let cells = Cells::new($list, &row);
                match cells.checked_name(&mut seen).and_then(|()| $make(&cells)) {
                    Ok(row) => made.push(row),
                    Err((column, fault)) => {
                        notes.push(ShopNote::of_row($list, &row, column, fault));
                    }
                }
            }
            made
        }};
    }
    file.tubes = list!(List::Electrodes, rows::tube);
    file.guides = list!(List::Guides, rows::guide);
    file.machines = list!(List::Machines, rows::machine);
    file.materials = list!(List::Materials, rows::material);
    file.families = list!(List::Families, rows::family).into_iter().collect();
    let days = list!(List::DaysOff, rows::day_off);
    if let Some(calendar) = &mut file.calendar {
        calendar.days_off.extend(days);
    }
    for row in rows(List::StartValues) {
        if let Err((column, fault)) =
            rows::start_value(&Cells::new(List::StartValues, &row), &mut file.start)
        {
            notes.push(ShopNote::of_row(List::StartValues, &row, column, fault));
        }
    }
    let machines = MachineNames {
        there: machine_names(&file),
        by_own_hour: hours_of_machines(sheet),
        own: machines_of(sheet),
    };
    // Cards replace all others, so the samples that still count stand among them.
    let mut seen = BTreeSet::new();
    for row in shown_rows(sheet, List::Rates, true) {
        let row = without_unusable(sheet, row, notes);
        let cells = Cells::new(List::Rates, &row);
        let card = cells.checked_name(&mut seen);
        match card.and_then(|()| rows::rate(&cells, &currency, &machines, notes)) {
            Ok(card) => file.rates.push(card),
            Err((column, fault)) => notes.push(ShopNote::of_row(List::Rates, &row, column, fault)),
        }
    }
    file
}

/// A row without what can't be read of its count, which is told: what lies in the drawer changes no plan.
fn without_counts(list: List, row: ShownRow, notes: &mut Vec<ShopNote>) -> ShownRow {
    let is_count = |column| matches!(column, Column::InDrawer | Column::Counted | Column::Stubs);
    let mut columns = Vec::new();
    for (column, fault) in Cells::new(list, &row).unread() {
        if let Some(count) = column.filter(|column| is_count(*column)) {
            columns.push(count);
            notes.push(ShopNote::of_row(list, &row, column, fault));
        }
    }
    row.without(&columns)
}

/// A card without what of it can't be used, which is told: that goes on from the cards before, as what
/// is not typed does, and its other cells stand.
fn without_unusable(sheet: &ShopSheet, row: ShownRow, notes: &mut Vec<ShopNote>) -> ShownRow {
    let own = row.own.as_ref();
    let unusable = own.map_or_else(Vec::new, |own| stands_in::unusable(own, sheet));
    let mut columns = Vec::new();
    for (column, fault) in unusable {
        columns.push(column);
        notes.push(ShopNote::of_row(List::Rates, &row, Some(column), fault));
    }
    row.without(&columns)
}

/// Names of samples that count no more: those that were taken out, and those for which a row of the sheet
/// stands or whose name one has. Where that row can't be used nothing has the name, since papers would
/// leave under a sample's figures otherwise.
fn without(sheet: &ShopSheet) -> Vec<String> {
    let lists = [
        List::Electrodes,
        List::Guides,
        List::Machines,
        List::Materials,
    ];
    let mut names = Vec::new();
    for list in lists {
        let replaced: BTreeSet<&String> = {
            let own = sheet.own(list).iter();
            own.filter_map(|row| row.stands_for.as_ref()).collect()
        };
        let named: BTreeSet<String> = {
            let own = sheet.own(list).iter();
            let rows = own.map(|row| ShownRow::of(sheet, list, row));
            rows.map(|row| row.text(rows::naming(list)).to_lowercase())
                .collect()
        };
        let gone = samples().list(list).iter().filter(|sample| {
            sheet.is_out(list, &sample.name)
                || replaced.contains(&sample.name)
                || named.contains(&sample.name.to_lowercase())
        });
        names.extend(gone.map(|sample| sample.name.clone()));
    }
    names
}

/// The names of the machines that there are.
fn machine_names(file: &ShopFile) -> BTreeSet<String> {
    let samples = samples().list(List::Machines).iter();
    let left = samples.filter(|sample| !file.without.contains(&sample.name));
    let own = file.machines.iter().map(|machine| machine.name.clone());
    left.map(|sample| sample.name.clone()).chain(own).collect()
}

/// The names of the sheet's own machines in small letters, whether or not they can be used.
fn machines_of(sheet: &ShopSheet) -> BTreeSet<String> {
    let own = sheet.own(List::Machines).iter();
    let rows = own.map(|row| ShownRow::of(sheet, List::Machines, row));
    rows.map(|row| row.text(Column::Name).trim().to_lowercase())
        .collect()
}

/// A single line as it counts.
pub(super) fn line_text(sheet: &ShopSheet, line: Line) -> String {
    let typed = sheet.line(line);
    match typed.value() {
        Some(ShopValue::Text(text)) => text.clone(),
        _ => usual_line(line).to_owned(),
    }
}

fn lines(sheet: &ShopSheet, file: &mut ShopFile, notes: &mut Vec<ShopNote>) {
    for (line, entry) in sheet.lines.iter() {
        if let Some(why) = entry.why() {
            notes.push(ShopNote {
                row: None,
                name: String::new(),
                column: None,
                line: Some(*line),
                fault: ShopFault::Unread(why.to_owned()),
            });
        }
    }
    let many = |line| -> Vec<String> {
        let text = line_text(sheet, line);
        // An address may stand in one line, with semicolons between.
        let ends: &[char] = match line {
            Line::Address => &['\n', ';'],
            _ => &['\n'],
        };
        let lines = text
            .split(ends)
            .map(str::trim)
            .filter(|line| !line.is_empty());
        lines.map(str::to_owned).collect()
    };
    file.name = Some(line_text(sheet, Line::Name));
    file.address = Some(many(Line::Address));
    file.texts = Some(TextsFile {
        terms: many(Line::Terms),
        exclusions: many(Line::Exclusions),
        cautions: many(Line::Cautions),
    });
    if let Some(ShopValue::Length(length)) = sheet.line(Line::UsualTolerance).value() {
        file.usual_tolerance_mm = Some(length.mm());
    }
    let hours = |line, usual: f64| match sheet.line(line).value() {
        Some(ShopValue::Number(hours)) => *hours,
        _ => usual,
    };
    let sample = embedded_file().ok().and_then(|file| file.calendar);
    file.calendar = sample.map(|usual| CalendarFile {
        work_days: match sheet.line(Line::WorkDays).value() {
            Some(ShopValue::WorkDays(days)) => days.iter().map(|day| day_of(*day)).collect(),
            _ => usual.work_days,
        },
        hours_per_day: hours(Line::HoursPerDay, usual.hours_per_day),
        unattended_hours_per_day: hours(Line::UnattendedHours, usual.unattended_hours_per_day),
        days_off: usual.days_off,
    });
}

/// The days on which electrodes and guides were counted.
fn counted(sheet: &ShopSheet, notes: &mut Vec<ShopNote>) -> BTreeMap<(Thing, String), NaiveDate> {
    let mut counted = BTreeMap::new();
    for thing in Thing::ALL {
        let list = List::of(thing);
        for row in sheet.own(list) {
            let id = row.id;
            let row = ShownRow::of(sheet, list, row);
            let typed = row.typed(Column::Counted);
            if let Some(ShopValue::Date(day)) = typed.value() {
                counted.insert((thing, row.text(Column::Name).to_owned()), *day);
            } else if typed.is_empty() && row.typed(Column::InDrawer).value().is_some() {
                notes.push(ShopNote {
                    row: Some((list, Some(id))),
                    name: row.text(Column::Name).to_owned(),
                    column: Some(Column::Counted),
                    line: None,
                    fault: ShopFault::CountUndated,
                });
            }
        }
    }
    counted
}

/// Puts the pieces left of used electrodes beside the new ones.
fn put_stubs(sheet: &ShopSheet, tubes: &mut [Tube]) {
    for row in sheet.own(List::Electrodes) {
        let row = ShownRow::of(sheet, List::Electrodes, row);
        let Some(ShopValue::Stubs(stubs)) = row.typed(Column::Stubs).value() else {
            continue;
        };
        let name = row.text(Column::Name);
        if let Some(tube) = tubes.iter_mut().find(|tube| tube.name == name) {
            tube.stubs = stubs.iter().map(|(n, length)| (*n, length.mm())).collect();
        }
    }
}

/// What somebody typed, not what is usual: a desk may have its own until then.
fn on_letter(sheet: &ShopSheet) -> Option<bool> {
    match sheet.line(Line::PaperSize).value() {
        Some(ShopValue::Text(text)) => Some(text == LETTER),
        _ => None,
    }
}

/// How it writes numbers and days; what is none of the choices is told, and the usual form stands.
fn form(sheet: &ShopSheet) -> Form {
    Form {
        numbers: Numbers::of_key(&line_text(sheet, Line::Numbers)).unwrap_or_default(),
        dates: Dates::of_key(&line_text(sheet, Line::Dates)).unwrap_or_default(),
    }
}

fn identity(sheet: &ShopSheet) -> Identity {
    let text = |line| line_text(sheet, line);
    Identity {
        contact: text(Line::Contact),
        phone: text(Line::Phone),
        email: text(Line::Email),
        registration: text(Line::Registration),
    }
}
