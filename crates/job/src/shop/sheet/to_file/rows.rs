//! The rows of each list as a shop file has them.

use std::collections::{BTreeMap, BTreeSet};

use rust_decimal::prelude::ToPrimitive as _;

use super::cells::{Cells, Wrong};
use super::{ShopFault, ShopNote};
use crate::shop::disk::{
    Family, FamilyRow, GuideRow, MachineRow, MaterialRow, RateRow, Tilts, TubeMaterial, TubeRow,
    hazard_of,
};
use crate::shop::minor_digits;
use crate::shop::sheet::families;
use crate::shop::sheet::kind::ShopValue;
use crate::shop::sheet::kind::words::HEAD;
use crate::shop::sheet::lists::{ShopColumn as Column, ShopList as List};
use crate::shop::sheet::own::ShopSheet;
use crate::shop::sheet::page::{ShownRow, shown_rows};
use crate::shop::sheet::usual::rates_of;
use crate::shop::start::StartFile;

/// The column that a row of a list is known by.
pub(in crate::shop::sheet) const fn naming(list: List) -> Column {
    match list {
        List::Rates => Column::ValidFrom,
        List::DaysOff => Column::Day,
        _ => Column::Name,
    }
}

pub(super) fn tube(cells: &Cells<'_>) -> Result<TubeRow, Wrong> {
    let channels = cells.count_or_none(Column::Channels)?.unwrap_or(1);
    Ok(TubeRow {
        name: cells.name()?,
        material: metal(cells)?,
        outer_mm: cells.mm(Column::Outer)?,
        bore_mm: cells.mm(Column::Bore)?,
        channels: u8::try_from(channels).unwrap_or(u8::MAX),
        length_mm: cells.mm(Column::NewLength)?,
        price: cells.number(Column::Price)?,
        stock: cells.count_or_none(Column::InDrawer)?,
        pedigree: cells.pedigree()?,
    })
}

pub(super) fn guide(cells: &Cells<'_>) -> Result<GuideRow, Wrong> {
    Ok(GuideRow {
        name: cells.name()?,
        tube_mm: cells.mm(Column::ForElectrode)?,
        life_holes: cells.number(Column::Life)?,
        price: cells.number(Column::Price)?,
        stock: cells.count_or_none(Column::InDrawer)?,
        pedigree: cells.pedigree()?,
    })
}

pub(super) fn machine(cells: &Cells<'_>) -> Result<MachineRow, Wrong> {
    let tilt = (
        cells.number_or_none(Column::TiltFrom)?,
        cells.number_or_none(Column::TiltTo)?,
    );
    let tilt_deg = match tilt {
        (None, None) => None,
        (from, Some(to)) => Some((from.unwrap_or(0.0), to)),
        (Some(_), None) => return Err((Some(Column::TiltTo), ShopFault::Missing)),
    };
    let rate = cells.machine_rates()?.all.and_then(|rate| rate.to_f64());
    Ok(MachineRow {
        name: cells.name()?,
        part_mm: (
            cells.mm(Column::PartX)?,
            cells.mm(Column::PartY)?,
            cells.mm(Column::PartZ)?,
        ),
        mass_kg: cells.number(Column::PartMass)?,
        stroke_mm: cells.mm(Column::Stroke)?,
        tube_mm: (
            cells.mm(Column::ElectrodeFrom)?,
            cells.mm(Column::ElectrodeTo)?,
        ),
        tube_length_mm: cells.mm(Column::LongestElectrode)?,
        held_back_mm: cells.mm(Column::HeldBack)?,
        stand_off_mm: cells.mm(Column::StandOff)?,
        head_mm: head(cells)?,
        pressure_bar: cells.number(Column::Pressure)?,
        changer: cells.yes(Column::Changer)?,
        index_axis: cells.yes(Column::IndexAxis)?,
        tilt_deg,
        tilts: tilts(cells)?,
        table_rapid_mm_min: cells.mm(Column::TableRapid)?,
        head_rapid_mm_min: cells.mm(Column::HeadRapid)?,
        attended: cells.number(Column::Attended)?,
        rate_per_hour: rate.ok_or((Some(Column::MachineHour), ShopFault::Missing))?,
        pedigree: cells.pedigree()?,
    })
}

/// Nose and head of a machine: all of it or nothing.
fn head(cells: &Cells<'_>) -> Result<Option<(f64, f64, f64)>, Wrong> {
    let columns = [
        Column::NoseDiameter,
        Column::NoseLength,
        Column::HeadDiameter,
    ];
    let mut typed = Vec::with_capacity(columns.len());
    for column in columns {
        typed.push(cells.value(column)?.is_some());
    }
    if !typed.contains(&true) {
        return Ok(None);
    }
    let [nose, length, head] = columns;
    Ok(Some((cells.mm(nose)?, cells.mm(length)?, cells.mm(head)?)))
}

pub(super) fn material(cells: &Cells<'_>) -> Result<MaterialRow, Wrong> {
    let names = match cells.value(Column::OtherNames)? {
        Some(ShopValue::Names(names)) => names,
        _ => Vec::new(),
    };
    let hazards = match cells.value(Column::Hazards)? {
        Some(ShopValue::Hazards(hazards)) => hazards,
        _ => Vec::new(),
    };
    let word = cells.text(Column::Family)?;
    let family = families::family(&word);
    let resistivity = (
        cells.number_or_none(Column::ResistivityFrom)?,
        cells.number_or_none(Column::ResistivityTo)?,
    );
    let resistivity_uohm_cm = match resistivity {
        (None, None) => None,
        (Some(one), None) | (None, Some(one)) => Some((one, one)),
        (Some(low), Some(high)) => Some((low, high)),
    };
    Ok(MaterialRow {
        name: cells.name()?,
        also: names,
        family: family.ok_or((Some(Column::Family), ShopFault::Missing))?,
        hazards: hazards.into_iter().map(hazard_of).collect(),
        density_g_cm3: cells.number(Column::Density)?,
        resistivity_uohm_cm,
        from_family: false,
        process: process(cells)?,
        pedigree: cells.pedigree()?,
    })
}

/// Feed and wear of a material's own, where any of them is given; then all have to be.
fn process(cells: &Cells<'_>) -> Result<Option<FamilyRow>, Wrong> {
    let columns = [
        Column::FeedFrom,
        Column::FeedTo,
        Column::WearFrom,
        Column::WearTo,
    ];
    let mut given = false;
    for column in columns {
        given |= cells.number_or_none(column)?.is_some();
    }
    given.then(|| process_row(cells)).transpose()
}

fn process_row(cells: &Cells<'_>) -> Result<FamilyRow, Wrong> {
    Ok(FamilyRow {
        feed_mm_min: (
            cells.number(Column::FeedFrom)?,
            cells.number(Column::FeedTo)?,
        ),
        wear: (
            cells.number(Column::WearFrom)?,
            cells.number(Column::WearTo)?,
        ),
        tube: metal(cells)?,
        from_family: false,
        pedigree: cells.pedigree()?,
    })
}

pub(super) fn family(cells: &Cells<'_>) -> Result<(Family, FamilyRow), Wrong> {
    let family = families::family(&cells.name()?);
    let family = family.ok_or((Some(Column::Name), ShopFault::Missing))?;
    Ok((family, process_row(cells)?))
}

fn tilts(cells: &Cells<'_>) -> Result<Option<Tilts>, Wrong> {
    Ok(match cells.text(Column::Tilts)?.as_str() {
        "" => None,
        HEAD => Some(Tilts::Head),
        _ => Some(Tilts::Table),
    })
}

fn metal(cells: &Cells<'_>) -> Result<TubeMaterial, Wrong> {
    Ok(match cells.text(Column::Metal)?.as_str() {
        "copper" => TubeMaterial::Copper,
        _ => TubeMaterial::Brass,
    })
}

pub(super) fn day_off(cells: &Cells<'_>) -> Result<String, Wrong> {
    cells.name()
}

/// Puts a start value among the others.
pub(super) fn start_value(cells: &Cells<'_>, start: &mut StartFile) -> Result<(), Wrong> {
    let name = cells.name()?;
    let at = Some(Column::Value);
    let Some(ShopValue::Start(value)) = cells.value(Column::Value)? else {
        return Err((at, ShopFault::Missing));
    };
    let put = start.put(&name, &value, cells.pedigree()?);
    put.map_err(|what| (at, ShopFault::Unfit(what)))
}

/// The machines that a rate card may name; names are in small letters but for those of `there`.
pub(super) struct MachineNames {
    /// Those that can be used.
    pub(super) there: BTreeSet<String>,
    /// Those whose own hour counts before what a sample says of them.
    pub(super) by_own_hour: BTreeSet<String>,
    /// The sheet's own ones: one that can't be used is told by itself.
    pub(super) own: BTreeSet<String>,
}

/// A rate card; the rate of a machine that is not there is told where somebody typed it, and counts for
/// nothing.
pub(super) fn rate(
    cells: &Cells<'_>,
    currency: &str,
    machines: &MachineNames,
    notes: &mut Vec<ShopNote>,
) -> Result<RateRow, Wrong> {
    let before = rates_of(cells.row.usual(Column::MachineHour));
    let own = cells.machine_rates()?;
    let is_typed = |name: &String| {
        let typed = !cells.row.typed(Column::MachineHour).is_empty();
        typed && own.named.iter().any(|(known, _)| known == name)
    };
    let rates = own.clone().over(before);
    let mut machines_per_hour = BTreeMap::new();
    if let Some(all) = rates.all.and_then(|rate| rate.to_f64()) {
        machines_per_hour.extend(machines.there.iter().map(|name| (name.clone(), all)));
    }
    for (name, rate) in rates.named {
        if machines.by_own_hour.contains(&name.to_lowercase()) {
            continue;
        }
        let known = machines
            .there
            .iter()
            .find(|known| known.to_lowercase() == name.to_lowercase());
        match known.zip(rate.to_f64()) {
            Some((known, rate)) => {
                machines_per_hour.insert(known.clone(), rate);
            }
            None if !is_typed(&name) || machines.own.contains(&name.to_lowercase()) => {}
            None => {
                let fault = ShopFault::NoSuchMachine(name);
                let column = Some(Column::MachineHour);
                notes.push(ShopNote::of_row(List::Rates, cells.row, column, fault));
            }
        }
    }
    Ok(RateRow {
        valid_from: cells.name()?,
        currency: currency.to_owned(),
        minor_digits: minor_digits(currency),
        labor_per_hour: cells.number(Column::LaborHour)?,
        machines_per_hour,
        dielectric_per_hour: cells.number(Column::DielectricHour)?,
        power_per_hour: cells.number(Column::PowerHour)?,
        margin: cells.number(Column::Margin)?,
        minimum_charge: cells.number(Column::Minimum)?,
        try_charge: cells.number_or_none(Column::TryCharge)?,
        price_step: cells
            .number_or_none(Column::PriceStep)?
            .filter(|step| *step > 0.0),
        redo_share: cells.number(Column::Redo)?,
        part_risk_share: cells.number(Column::PartRisk)?,
        pedigree: cells.pedigree()?,
    })
}

/// Whether what an hour costs is still as in the samples, of labor or of any machine.
pub(in crate::shop::sheet) fn has_sample_rates(sheet: &ShopSheet) -> bool {
    let cards: Vec<ShownRow> = shown_rows(sheet, List::Rates, true);
    let typed = |row: &ShownRow, column| row.typed(column).value().is_some();
    // What a card doesn't say goes on from those before it.
    let labor = cards.iter().any(|card| typed(card, Column::LaborHour));
    let all_machines = cards.iter().any(|card| {
        let entry = card.typed(Column::MachineHour);
        matches!(entry.value(), Some(ShopValue::MachineRates(rates)) if rates.all.is_some())
    });
    let named: BTreeSet<String> = {
        let entries = cards.iter().map(|card| card.typed(Column::MachineHour));
        let rates = entries.filter_map(|entry| match entry.value() {
            Some(ShopValue::MachineRates(rates)) => Some(&rates.named),
            _ => None,
        });
        rates
            .flatten()
            .map(|(name, _)| name.to_lowercase())
            .collect()
    };
    let mut machines = shown_rows(sheet, List::Machines, true).into_iter();
    let all_rated = all_machines
        || machines.all(|machine| {
            let name = machine.text(Column::Name).to_lowercase();
            typed(&machine, Column::MachineHour) || named.contains(&name)
        });
    !(labor && all_rated)
}
