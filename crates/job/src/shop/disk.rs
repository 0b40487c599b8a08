//! The shop file as it stands on disk; the project's assets are written in the same form.

use std::collections::{BTreeMap, BTreeSet};

use chrono::Weekday;
use serde::Deserialize;

use super::error::ShopError;
use super::start::StartFile;
use super::unfit::RowUnfit;
use crate::ground::text::{TextError, decode, format_number, parse};

/// The shop file's newest format.
const NEWEST: u32 = 2;

/// One file: whatever it doesn't give stays as it was.
#[derive(Clone, Debug, Default, PartialEq, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub(super) struct ShopFile {
    pub(super) format: u32,
    pub(super) name: Option<String>,
    pub(super) address: Option<Vec<String>>,
    pub(super) usual_tolerance_mm: Option<f64>,
    pub(super) texts: Option<TextsFile>,
    pub(super) calendar: Option<CalendarFile>,
    /// Names of rows that the shop doesn't have.
    pub(super) without: Vec<String>,
    pub(super) families: BTreeMap<Family, FamilyRow>,
    pub(super) materials: Vec<MaterialRow>,
    pub(super) tubes_pedigree: Option<String>,
    pub(super) tubes: Vec<TubeRow>,
    pub(super) guides_pedigree: Option<String>,
    pub(super) guides: Vec<GuideRow>,
    pub(super) machines: Vec<MachineRow>,
    pub(super) rates: Vec<RateRow>,
    pub(super) start: StartFile,
}

/// Texts of the papers.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TextsFile {
    pub(super) terms: Vec<String>,
    pub(super) exclusions: Vec<String>,
    pub(super) cautions: Vec<String>,
}

/// When the shop works.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CalendarFile {
    pub(super) work_days: Vec<Day>,
    pub(super) hours_per_day: f64,
    pub(super) unattended_hours_per_day: f64,
    pub(super) days_off: Vec<String>,
}

/// A day of the week.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub(super) enum Day {
    Mon,
    Tue,
    Wed,
    Thu,
    Fri,
    Sat,
    Sun,
}

/// Feed and wear of a family of materials.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FamilyRow {
    pub(super) feed_mm_min: (f64, f64),
    pub(super) wear: (f64, f64),
    pub(super) tube: TubeMaterial,
    #[serde(default)]
    pub(super) from_family: bool,
    pub(super) pedigree: String,
}

/// A material; without feed and wear of its own it takes its family's.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct MaterialRow {
    pub(super) name: String,
    #[serde(default)]
    pub(super) also: Vec<String>,
    pub(super) family: Family,
    #[serde(default)]
    pub(super) hazards: Vec<Hazard>,
    pub(super) density_g_cm3: f64,
    #[serde(default)]
    pub(super) resistivity_uohm_cm: Option<(f64, f64)>,
    #[serde(default)]
    pub(super) from_family: bool,
    #[serde(default)]
    pub(super) process: Option<FamilyRow>,
    #[serde(default = "own_file")]
    pub(super) pedigree: String,
}

/// A tube electrode.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TubeRow {
    pub(super) name: String,
    pub(super) material: TubeMaterial,
    pub(super) outer_mm: f64,
    pub(super) bore_mm: f64,
    pub(super) channels: u8,
    pub(super) length_mm: f64,
    pub(super) price: f64,
    #[serde(default)]
    pub(super) stock: Option<u32>,
    #[serde(default)]
    pub(super) pedigree: String,
}

/// A guide.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct GuideRow {
    pub(super) name: String,
    pub(super) tube_mm: f64,
    pub(super) life_holes: f64,
    pub(super) price: f64,
    #[serde(default)]
    pub(super) stock: Option<u32>,
    #[serde(default)]
    pub(super) pedigree: String,
}

/// A machine.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct MachineRow {
    pub(super) name: String,
    pub(super) part_mm: (f64, f64, f64),
    pub(super) mass_kg: f64,
    pub(super) stroke_mm: f64,
    pub(super) tube_mm: (f64, f64),
    pub(super) tube_length_mm: f64,
    pub(super) held_back_mm: f64,
    pub(super) stand_off_mm: f64,
    /// Nose, its length, the head above it: diameter, length, diameter.
    #[serde(default)]
    pub(super) head_mm: Option<(f64, f64, f64)>,
    pub(super) pressure_bar: f64,
    pub(super) changer: bool,
    pub(super) index_axis: bool,
    pub(super) tilt_deg: Option<(f64, f64)>,
    #[serde(default)]
    pub(super) tilts: Option<Tilts>,
    pub(super) table_rapid_mm_min: f64,
    pub(super) head_rapid_mm_min: f64,
    pub(super) attended: f64,
    pub(super) rate_per_hour: f64,
    #[serde(default = "own_file")]
    pub(super) pedigree: String,
}

/// A rate card.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RateRow {
    pub(super) valid_from: String,
    pub(super) currency: String,
    pub(super) minor_digits: u32,
    pub(super) labor_per_hour: f64,
    #[serde(default)]
    pub(super) machines_per_hour: BTreeMap<String, f64>,
    pub(super) dielectric_per_hour: f64,
    pub(super) power_per_hour: f64,
    pub(super) margin: f64,
    pub(super) minimum_charge: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) try_charge: Option<f64>,
    #[serde(default)]
    pub(super) price_step: Option<f64>,
    pub(super) redo_share: f64,
    pub(super) part_risk_share: f64,
    #[serde(default = "own_file")]
    pub(super) pedigree: String,
}

/// Where a row comes from that a shop's own file gives without a pedigree: data, as the pedigrees of
/// the assets are.
pub(super) const OWN_FILE: &str = "the shop's own file";

fn own_file() -> String {
    OWN_FILE.to_owned()
}

/// A day of the week as the calendar has it.
pub(super) const fn weekday(day: Day) -> Weekday {
    match day {
        Day::Mon => Weekday::Mon,
        Day::Tue => Weekday::Tue,
        Day::Wed => Weekday::Wed,
        Day::Thu => Weekday::Thu,
        Day::Fri => Weekday::Fri,
        Day::Sat => Weekday::Sat,
        Day::Sun => Weekday::Sun,
    }
}

/// A day of the week as files have it.
pub(super) const fn day_of(day: Weekday) -> Day {
    match day {
        Weekday::Mon => Day::Mon,
        Weekday::Tue => Day::Tue,
        Weekday::Wed => Day::Wed,
        Weekday::Thu => Day::Thu,
        Weekday::Fri => Day::Fri,
        Weekday::Sat => Day::Sat,
        Weekday::Sun => Day::Sun,
    }
}

/// A danger as files have it.
pub(super) const fn hazard_of(hazard: quillbore_calc::tables::Hazard) -> Hazard {
    use quillbore_calc::tables::Hazard as Known;
    match hazard {
        Known::BurningFines => Hazard::BurningFines,
        Known::Nickel => Hazard::Nickel,
        Known::Cobalt => Hazard::Cobalt,
        Known::Chromium => Hazard::Chromium,
        Known::Beryllium => Hazard::Beryllium,
        Known::CopperLead => Hazard::CopperLead,
    }
}

macro_rules! mirrored {
    ($(#[doc = $doc:literal])+ $name:ident { $($variant:ident)+ }) => {
        $(#[doc = $doc])+
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
        pub(super) enum $name { $($variant,)+ }

        impl From<$name> for quillbore_calc::tables::$name {
            fn from(on_disk: $name) -> Self {
                match on_disk { $($name::$variant => Self::$variant,)+ }
            }
        }
    };
}

mirrored! {
    /// A family as the file names it.
    Family {
        Steel ToolSteel Stainless Nickel Cobalt Titanium Aluminum Copper Magnesium Refractory
        Zirconium Carbide Special Graphite Hard Precious
    }
}
mirrored! {
    /// A danger as the file names it.
    Hazard { BurningFines Nickel Cobalt Chromium Beryllium CopperLead }
}
mirrored! {
    /// A tube's material as the file names it.
    TubeMaterial { Brass Copper }
}
mirrored! {
    /// What of a machine tilts, as the file names it.
    Tilts { Head Table }
}

/// A row that is known by its name.
trait Named: Sized {
    const LIST: &'static str;
    fn name(&self) -> &str;
    fn pedigree(&mut self) -> &mut String;
}

macro_rules! named {
    ($($row:ty => $list:literal;)+) => { $(
        impl Named for $row {
            const LIST: &'static str = $list;
            fn name(&self) -> &str {
                &self.name
            }
            fn pedigree(&mut self) -> &mut String {
                &mut self.pedigree
            }
        }
    )+ };
}
named! {
    MaterialRow => "materials";
    TubeRow => "tubes";
    GuideRow => "guides";
    MachineRow => "machines";
}

/// Reads one file.
pub(super) fn read(bytes: &[u8]) -> Result<ShopFile, ShopError> {
    let text = decode(bytes)?;
    match format_number(text)? {
        1 => {
            let mut file: ShopFile = parse(text)?;
            file.start = file.start.with_format_1();
            finished(file)
        }
        2 => {
            let file: ShopFile = parse(text)?;
            if file.start.has_format_1() {
                return Err(ShopError::Row {
                    list: "start",
                    name: "handling_scatter".to_owned(),
                    what: RowUnfit::SaidInTwo,
                });
            }
            finished(file)
        }
        0 => Err(TextError::UnknownFormat { found: 0 }.into()),
        found => Err(TextError::NewerFormat {
            found,
            newest: NEWEST,
        }
        .into()),
    }
}

/// Gives rows the pedigree of their list, and refuses a name that stands twice.
fn finished(mut file: ShopFile) -> Result<ShopFile, ShopError> {
    let tubes = file.tubes_pedigree.take().unwrap_or_else(own_file);
    let guides = file.guides_pedigree.take().unwrap_or_else(own_file);
    check_names(&mut file.materials, "")?;
    check_names(&mut file.tubes, &tubes)?;
    check_names(&mut file.guides, &guides)?;
    check_names(&mut file.machines, "")?;
    Ok(file)
}

fn check_names<R: Named>(rows: &mut [R], pedigree: &str) -> Result<(), ShopError> {
    let mut seen = BTreeSet::new();
    for row in rows {
        if !seen.insert(row.name().to_lowercase()) {
            return Err(ShopError::Twice {
                list: R::LIST,
                name: row.name().to_owned(),
            });
        }
        if row.pedigree().is_empty() {
            pedigree.clone_into(row.pedigree());
        }
    }
    Ok(())
}

impl ShopFile {
    /// This file with another one's rows in the place of those of the same name, or added.
    pub(super) fn laid_under(mut self, over: Self) -> Result<Self, ShopError> {
        for name in &over.without {
            let before = self.rows();
            self.materials.retain(|row| !same(&row.name, name));
            self.tubes.retain(|row| !same(&row.name, name));
            self.guides.retain(|row| !same(&row.name, name));
            self.machines.retain(|row| !same(&row.name, name));
            if self.rows() == before {
                return Err(ShopError::NothingToLeaveOut { name: name.clone() });
            }
        }
        self.families.extend(over.families);
        Ok(Self {
            format: self.format,
            name: over.name.or(self.name),
            address: over.address.or(self.address),
            usual_tolerance_mm: over.usual_tolerance_mm.or(self.usual_tolerance_mm),
            texts: over.texts.or(self.texts),
            calendar: over.calendar.or(self.calendar),
            without: Vec::new(),
            families: self.families,
            materials: merged(self.materials, over.materials),
            tubes_pedigree: None,
            tubes: merged(self.tubes, over.tubes),
            guides_pedigree: None,
            guides: merged(self.guides, over.guides),
            machines: merged(self.machines, over.machines),
            // Cards are a whole: a start card of a later day must not come before the shop's own.
            rates: if over.rates.is_empty() {
                self.rates
            } else {
                over.rates
            },
            start: self.start.laid_under(over.start),
        })
    }

    fn rows(&self) -> usize {
        self.materials.len() + self.tubes.len() + self.guides.len() + self.machines.len()
    }
}

fn same(one: &str, other: &str) -> bool {
    one.to_lowercase() == other.to_lowercase()
}

fn merged<R: Named>(mut rows: Vec<R>, over: Vec<R>) -> Vec<R> {
    for row in over {
        match rows.iter_mut().find(|old| same(old.name(), row.name())) {
            Some(old) => *old = row,
            None => rows.push(row),
        }
    }
    rows
}
