//! The rows of shop files as texts, as somebody would have typed them.

use std::collections::BTreeMap;
use std::str::FromStr as _;

use rust_decimal::Decimal;

use super::families;
use super::kind::words::{HAZARDS, HEAD, NO_HAZARD, TABLE, WEEK};
use super::lists::{ShopColumn as Column, ShopLine as Line, ShopList as List};
use crate::shop::disk::{
    self, CalendarFile, FamilyRow, GuideRow, MachineRow, MaterialRow, OWN_FILE, RateRow, ShopFile,
    Tilts, TubeMaterial, TubeRow,
};

/// A row as texts, by the name that it has in its list.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct TextRow {
    pub(super) name: String,
    pub(super) cells: BTreeMap<Column, String>,
}

/// A whole file as texts.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct TextRows {
    pub(super) lines: BTreeMap<Line, String>,
    pub(super) lists: BTreeMap<List, Vec<TextRow>>,
}

impl TextRows {
    pub(super) fn list(&self, list: List) -> &[TextRow] {
        self.lists.get(&list).map_or(&[], Vec::as_slice)
    }
}

/// The rows of a file, in its order.
pub(super) fn text_rows(file: &ShopFile) -> TextRows {
    let mut lists = BTreeMap::new();
    lists.insert(List::Rates, file.rates.iter().map(rate).collect());
    lists.insert(List::Electrodes, file.tubes.iter().map(tube).collect());
    lists.insert(List::Guides, file.guides.iter().map(guide).collect());
    lists.insert(List::Machines, file.machines.iter().map(machine).collect());
    lists.insert(
        List::Materials,
        file.materials.iter().map(material).collect(),
    );
    let families = file.families.iter();
    let families = families.map(|(family, row)| {
        let mut cells = process(row);
        let name = families::word(*family).to_owned();
        cells.insert(Column::Name, name.clone());
        cells.insert(Column::Note, note(&row.pedigree));
        TextRow { name, cells }
    });
    lists.insert(List::Families, families.collect());
    let days = file.calendar.iter().flat_map(|calendar| &calendar.days_off);
    lists.insert(List::DaysOff, days.map(|day| day_off(day)).collect());
    let values = file.start.typed().into_iter();
    let values = values.map(|(name, value, source)| TextRow {
        name: name.to_owned(),
        cells: BTreeMap::from([
            (Column::Name, name.to_owned()),
            (Column::Value, value.text()),
            (Column::Note, note(source)),
        ]),
    });
    lists.insert(List::StartValues, values.collect());
    TextRows {
        lines: lines(file),
        lists,
    }
}

fn lines(file: &ShopFile) -> BTreeMap<Line, String> {
    let mut lines = BTreeMap::new();
    let mut put = |line, text: Option<String>| {
        lines.extend(text.map(|text| (line, text)));
    };
    put(Line::Name, file.name.clone());
    put(
        Line::Address,
        file.address.as_ref().map(|lines| lines.join("\n")),
    );
    put(
        Line::Currency,
        file.rates.first().map(|card| card.currency.clone()),
    );
    put(Line::UsualTolerance, file.usual_tolerance_mm.map(plain));
    if let Some(texts) = &file.texts {
        put(Line::Terms, Some(texts.terms.join("\n")));
        put(Line::Exclusions, Some(texts.exclusions.join("\n")));
        put(Line::Cautions, Some(texts.cautions.join("\n")));
    }
    if let Some(calendar) = &file.calendar {
        put(Line::WorkDays, Some(work_days(calendar)));
        put(Line::HoursPerDay, Some(plain(calendar.hours_per_day)));
        let alone = calendar.unattended_hours_per_day;
        put(Line::UnattendedHours, Some(plain(alone)));
    }
    lines
}

fn work_days(calendar: &CalendarFile) -> String {
    let days = calendar.work_days.iter();
    let words = days.filter_map(|day| {
        let day = disk::weekday(*day);
        WEEK.iter()
            .find(|(_, known)| *known == day)
            .map(|(word, _)| *word)
    });
    words.collect::<Vec<_>>().join(" ")
}

fn row(name: &str, cells: Vec<(Column, String)>, pedigree: &str) -> TextRow {
    let mut cells: BTreeMap<Column, String> = cells.into_iter().collect();
    cells.insert(Column::Note, note(pedigree));
    cells.retain(|_, text| !text.is_empty());
    TextRow {
        name: name.to_owned(),
        cells,
    }
}

/// Nobody has to read that a row of the own file comes from the own file.
fn note(pedigree: &str) -> String {
    if pedigree == OWN_FILE {
        return String::new();
    }
    pedigree.to_owned()
}

fn rate(card: &RateRow) -> TextRow {
    let machines = card.machines_per_hour.iter();
    let machines = machines.map(|(name, rate)| format!("{name} {rate}"));
    let cells = vec![
        (Column::ValidFrom, card.valid_from.clone()),
        (Column::MachineHour, machines.collect::<Vec<_>>().join("; ")),
        (Column::LaborHour, plain(card.labor_per_hour)),
        (Column::Margin, percent(card.margin)),
        (Column::Minimum, plain(card.minimum_charge)),
        (
            Column::TryCharge,
            card.try_charge.map_or_else(String::new, plain),
        ),
        (
            Column::PriceStep,
            card.price_step.map_or_else(String::new, plain),
        ),
        (Column::DielectricHour, plain(card.dielectric_per_hour)),
        (Column::PowerHour, plain(card.power_per_hour)),
        (Column::Redo, percent(card.redo_share)),
        (Column::PartRisk, percent(card.part_risk_share)),
    ];
    row(&card.valid_from, cells, &card.pedigree)
}

fn tube(tube: &TubeRow) -> TextRow {
    let cells = vec![
        (Column::Name, tube.name.clone()),
        (Column::Metal, metal(tube.material).to_owned()),
        (Column::Outer, plain(tube.outer_mm)),
        (Column::Bore, plain(tube.bore_mm)),
        (Column::Channels, tube.channels.to_string()),
        (Column::NewLength, plain(tube.length_mm)),
        (Column::Price, plain(tube.price)),
        (Column::InDrawer, count(tube.stock)),
    ];
    row(&tube.name, cells, &tube.pedigree)
}

fn guide(guide: &GuideRow) -> TextRow {
    let cells = vec![
        (Column::Name, guide.name.clone()),
        (Column::ForElectrode, plain(guide.tube_mm)),
        (Column::Life, plain(guide.life_holes)),
        (Column::Price, plain(guide.price)),
        (Column::InDrawer, count(guide.stock)),
    ];
    row(&guide.name, cells, &guide.pedigree)
}

fn machine(machine: &MachineRow) -> TextRow {
    let yes_no = |yes: bool| if yes { "yes" } else { "no" }.to_owned();
    let tilt = |part: fn((f64, f64)) -> f64| {
        let tilt = machine.tilt_deg.map(part);
        tilt.map_or_else(String::new, plain)
    };
    let (x, y, z) = machine.part_mm;
    let head = |part: fn((f64, f64, f64)) -> f64| {
        let known = machine.head_mm.map(part);
        known.map_or_else(String::new, plain)
    };
    let cells = vec![
        (Column::Name, machine.name.clone()),
        (Column::MachineHour, plain(machine.rate_per_hour)),
        (Column::ElectrodeFrom, plain(machine.tube_mm.0)),
        (Column::ElectrodeTo, plain(machine.tube_mm.1)),
        (Column::LongestElectrode, plain(machine.tube_length_mm)),
        (Column::PartX, plain(x)),
        (Column::PartY, plain(y)),
        (Column::PartZ, plain(z)),
        (Column::PartMass, format!("{} kg", machine.mass_kg)),
        (Column::Stroke, plain(machine.stroke_mm)),
        (Column::HeldBack, plain(machine.held_back_mm)),
        (Column::StandOff, plain(machine.stand_off_mm)),
        (Column::NoseDiameter, head(|head| head.0)),
        (Column::NoseLength, head(|head| head.1)),
        (Column::HeadDiameter, head(|head| head.2)),
        (Column::Pressure, plain(machine.pressure_bar)),
        (Column::Changer, yes_no(machine.changer)),
        (Column::IndexAxis, yes_no(machine.index_axis)),
        (Column::TiltFrom, tilt(|tilt| tilt.0)),
        (Column::TiltTo, tilt(|tilt| tilt.1)),
        (Column::Tilts, tilts(machine.tilts).to_owned()),
        (Column::TableRapid, plain(machine.table_rapid_mm_min)),
        (Column::HeadRapid, plain(machine.head_rapid_mm_min)),
        (Column::Attended, percent(machine.attended)),
    ];
    row(&machine.name, cells, &machine.pedigree)
}

fn material(material: &MaterialRow) -> TextRow {
    let resistivity = |part: fn((f64, f64)) -> f64| {
        let known = material.resistivity_uohm_cm.map(part);
        known.map_or_else(String::new, plain)
    };
    let hazards = material.hazards.iter().filter_map(|hazard| {
        let known = HAZARDS.iter().find(|(_, known)| *known == (*hazard).into());
        known.map(|(word, _)| *word)
    });
    // A row that says none has none, whatever its family has.
    let hazards = match hazards.collect::<Vec<_>>().join("; ") {
        none if none.is_empty() => NO_HAZARD.to_owned(),
        some => some,
    };
    let mut cells = vec![
        (Column::Name, material.name.clone()),
        (Column::OtherNames, material.also.join("; ")),
        (Column::Family, families::word(material.family).to_owned()),
        (Column::Density, plain(material.density_g_cm3)),
        (Column::ResistivityFrom, resistivity(|known| known.0)),
        (Column::ResistivityTo, resistivity(|known| known.1)),
        (Column::Hazards, hazards),
    ];
    cells.extend(material.process.iter().flat_map(process));
    row(&material.name, cells, &material.pedigree)
}

fn process(row: &FamilyRow) -> BTreeMap<Column, String> {
    BTreeMap::from([
        (Column::FeedFrom, plain(row.feed_mm_min.0)),
        (Column::FeedTo, plain(row.feed_mm_min.1)),
        (Column::WearFrom, plain(row.wear.0)),
        (Column::WearTo, plain(row.wear.1)),
        (Column::Metal, metal(row.tube).to_owned()),
    ])
}

fn day_off(day: &str) -> TextRow {
    TextRow {
        name: day.to_owned(),
        cells: BTreeMap::from([(Column::Day, day.to_owned())]),
    }
}

fn count(count: Option<u32>) -> String {
    count.map_or_else(String::new, |count| count.to_string())
}

/// The word of what an electrode is made of.
pub(super) const fn metal(metal: TubeMaterial) -> &'static str {
    match metal {
        TubeMaterial::Brass => "brass",
        TubeMaterial::Copper => "copper",
    }
}

const fn tilts(tilts: Option<Tilts>) -> &'static str {
    match tilts {
        None => "",
        Some(Tilts::Head) => HEAD,
        Some(Tilts::Table) => TABLE,
    }
}

/// A number with the fewest digits that mean it.
pub(super) fn plain(number: f64) -> String {
    number.to_string()
}

/// A share in percent, to the digit, as it is typed.
pub(crate) fn percent(share: f64) -> String {
    let hundred = Decimal::from(100);
    let exact = Decimal::from_str(&share.to_string());
    let percent = exact.ok().and_then(|share| share.checked_mul(hundred));
    let percent = percent.map(|percent| percent.normalize().to_string());
    percent.map_or_else(String::new, |percent| format!("{percent} %"))
}
