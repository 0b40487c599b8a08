//! From the rows of the files to the shop, each row checked.

use std::collections::{BTreeMap, BTreeSet};

use chrono::{NaiveDate, Weekday};
use quillbore_calc::tables::{Guide, Machine, Material, Rates, Tube};
use quillbore_calc::{Idx, Limits, Tables};

use super::calendar::Calendar;
use super::disk::{
    CalendarFile, Day, GuideRow, MachineRow, MaterialRow, RateRow, ShopFile, TubeRow,
};
use super::error::ShopError;
use super::plain::plain;
use super::rows::{Pedigree, RateCard, Shop, Texts};
use super::start::spread;
use super::unfit::{Needed, RowUnfit};

/// The shop that the files describe.
pub(super) fn build(file: ShopFile) -> Result<Shop, ShopError> {
    let (start, start_pedigree) = file.start.build()?;
    let mut pedigree = Pedigree {
        start: start_pedigree,
        ..Pedigree::default()
    };
    let (materials, also, other_names) = materials(&file, &mut pedigree)?;
    let tubes = tubes(file.tubes, &mut pedigree)?;
    let guides = guides(file.guides, &mut pedigree)?;
    let mut rate_cards = rate_cards(file.rates, &file.machines)?;
    let machines = machines(file.machines, &mut pedigree)?;
    let newest = rate_cards.pop().ok_or_else(|| missing(Needed::RateCard))?;
    let rates = newest.rates.clone();
    let tolerance = file
        .usual_tolerance_mm
        .ok_or_else(|| missing(Needed::UsualTolerance))?;
    let texts = file.texts.ok_or_else(|| missing(Needed::Texts))?;
    let calendar = file.calendar.ok_or_else(|| missing(Needed::Calendar))?;
    let mut shop = Shop {
        name: file.name.ok_or_else(|| missing(Needed::Name))?,
        address: file.address.ok_or_else(|| missing(Needed::Address))?,
        texts: Texts {
            terms: texts.terms,
            exclusions: texts.exclusions,
            cautions: texts.cautions,
        },
        usual_tolerance_mm: Row("shop", "usual_tolerance_mm").positive("it", tolerance)?,
        calendar: self::calendar(&calendar)?,
        tables: Tables {
            materials,
            tubes,
            guides,
            machines,
            rates,
            start,
        },
        pedigree,
        earlier_rates: rate_cards,
        newest_rates: newest,
        also,
        other_names,
    };
    shop.tables = shop.tables_with(&shop.newest_rates);
    Ok(shop)
}

const fn missing(what: Needed) -> ShopError {
    ShopError::Missing { what }
}

/// Which row of which list is looked at.
#[derive(Clone, Copy)]
struct Row<'a>(&'static str, &'a str);

impl Row<'_> {
    fn bad(self, what: RowUnfit) -> ShopError {
        ShopError::Row {
            list: self.0,
            name: self.1.to_owned(),
            what,
        }
    }

    fn positive(self, figure: &str, value: f64) -> Result<f64, ShopError> {
        if value > 0.0 && value.is_finite() {
            Ok(value)
        } else {
            Err(self.bad(RowUnfit::NotAboveZero {
                figure: figure.to_owned(),
            }))
        }
    }

    fn not_negative(self, figure: &str, value: f64) -> Result<f64, ShopError> {
        if value >= 0.0 && value.is_finite() {
            Ok(value)
        } else {
            Err(self.bad(RowUnfit::BelowZero {
                figure: figure.to_owned(),
            }))
        }
    }

    fn share(self, figure: &str, value: f64) -> Result<f64, ShopError> {
        if (0.0..=1.0).contains(&value) {
            Ok(value)
        } else {
            Err(self.bad(RowUnfit::NotFromZeroToOne {
                figure: figure.to_owned(),
            }))
        }
    }

    fn rising(self, figure: &str, (low, high): (f64, f64)) -> Result<Limits, ShopError> {
        if low.is_finite() && high.is_finite() && low <= high {
            Ok(Limits::new(low, high))
        } else {
            Err(self.bad(RowUnfit::NotRising {
                figure: figure.to_owned(),
            }))
        }
    }

    /// A name that can be spoken of, and a word on where the row comes from.
    fn told(self, pedigree: &str) -> Result<(), ShopError> {
        if self.1.trim().is_empty() || self.1.trim() != self.1 {
            return Err(self.bad(RowUnfit::Name));
        }
        if pedigree.trim().is_empty() {
            return Err(self.bad(RowUnfit::PedigreeEmpty));
        }
        Ok(())
    }
}

/// The rows, which row each plain name means, and the other names of each row.
type Materials = (
    Vec<Material>,
    BTreeMap<String, Idx<Material>>,
    Vec<Vec<String>>,
);

fn materials(file: &ShopFile, pedigree: &mut Pedigree) -> Result<Materials, ShopError> {
    let mut rows: Vec<&MaterialRow> = file.materials.iter().collect();
    rows.sort_by_key(|row| row.name.to_lowercase());
    let mut also = BTreeMap::new();
    let mut other_names = Vec::with_capacity(rows.len());
    let mut materials = Vec::with_capacity(rows.len());
    for (index, row) in rows.into_iter().enumerate() {
        let at = Row("materials", &row.name);
        at.told(&row.pedigree)?;
        let process = row
            .process
            .as_ref()
            .or_else(|| file.families.get(&row.family))
            .ok_or_else(|| at.bad(RowUnfit::NoProcess))?;
        at.told(&process.pedigree)?;
        let resistivity = match row.resistivity_uohm_cm {
            Some((low, high)) => {
                at.positive("resistivity_uohm_cm", low)?;
                let micro = at.rising("resistivity_uohm_cm", (low, high))?;
                Some(micro.map(|ohm| ohm / 1e6))
            }
            None => None,
        };
        materials.push(Material {
            name: row.name.clone(),
            family: row.family.into(),
            density_g_cm3: at.positive("density_g_cm3", row.density_g_cm3)?,
            resistivity_ohm_cm: resistivity,
            feed_mm_min: spread(&process.feed_mm_min).map_err(|_| {
                at.bad(RowUnfit::ProcessBand {
                    figure: "feed_mm_min",
                })
            })?,
            wear: spread(&process.wear)
                .map_err(|_| at.bad(RowUnfit::ProcessBand { figure: "wear" }))?,
            tube_material: process.tube.into(),
            from_family: row.process.is_none() && (row.from_family || process.from_family),
            hazards: row.hazards.iter().map(|hazard| (*hazard).into()).collect(),
        });
        pedigree.materials.push(row.pedigree.clone());
        pedigree.process.push(process.pedigree.clone());
        other_names.push(row.also.clone());
        for name in row.also.iter().chain([&row.name]) {
            if plain(name).is_empty() {
                return Err(at.bad(RowUnfit::OtherNameEmpty { name: name.clone() }));
            }
            if also
                .insert(plain(name), Idx::new(index))
                .is_some_and(|other| other.at() != index)
            {
                return Err(ShopError::Twice {
                    list: "materials",
                    name: name.clone(),
                });
            }
        }
    }
    Ok((materials, also, other_names))
}

fn tubes(mut rows: Vec<TubeRow>, pedigree: &mut Pedigree) -> Result<Vec<Tube>, ShopError> {
    rows.sort_by(|a, b| {
        a.outer_mm
            .total_cmp(&b.outer_mm)
            .then(a.material.cmp(&b.material))
            .then(a.channels.cmp(&b.channels))
            .then(a.length_mm.total_cmp(&b.length_mm))
            .then_with(|| a.name.cmp(&b.name))
    });
    let mut tubes = Vec::with_capacity(rows.len());
    for row in rows {
        let at = Row("tubes", &row.name);
        at.told(&row.pedigree)?;
        let outer_mm = at.positive("outer_mm", row.outer_mm)?;
        let bore_mm = at.positive("bore_mm", row.bore_mm)?;
        if bore_mm >= outer_mm {
            return Err(at.bad(RowUnfit::BoreTooWide));
        }
        if row.channels == 0 {
            return Err(at.bad(RowUnfit::NoChannel));
        }
        tubes.push(Tube {
            material: row.material.into(),
            outer_mm,
            bore_mm,
            channels: row.channels,
            length_mm: at.positive("length_mm", row.length_mm)?,
            price: at.not_negative("price", row.price)?,
            stock: row.stock,
            name: row.name,
        });
        pedigree.tubes.push(row.pedigree);
    }
    Ok(tubes)
}

fn guides(mut rows: Vec<GuideRow>, pedigree: &mut Pedigree) -> Result<Vec<Guide>, ShopError> {
    rows.sort_by(|a, b| {
        a.tube_mm
            .total_cmp(&b.tube_mm)
            .then_with(|| a.name.cmp(&b.name))
    });
    let mut guides = Vec::with_capacity(rows.len());
    for row in rows {
        let at = Row("guides", &row.name);
        at.told(&row.pedigree)?;
        guides.push(Guide {
            tube_mm: at.positive("tube_mm", row.tube_mm)?,
            life_holes: at.positive("life_holes", row.life_holes)?,
            price: at.not_negative("price", row.price)?,
            stock: row.stock,
            name: row.name,
        });
        pedigree.guides.push(row.pedigree);
    }
    Ok(guides)
}

fn machines(rows: Vec<MachineRow>, pedigree: &mut Pedigree) -> Result<Vec<Machine>, ShopError> {
    let mut machines = Vec::with_capacity(rows.len());
    for row in rows {
        let at = Row("machines", &row.name);
        at.told(&row.pedigree)?;
        let part = row.part_mm;
        at.positive("the smallest tube_mm", row.tube_mm.0)?;
        let tube_length_mm = at.positive("tube_length_mm", row.tube_length_mm)?;
        let held_back_mm = at.positive("held_back_mm", row.held_back_mm)?;
        if held_back_mm >= tube_length_mm {
            return Err(at.bad(RowUnfit::HeldBackTooLong));
        }
        let stand_off_mm = at.not_negative("stand_off_mm", row.stand_off_mm)?;
        if stand_off_mm > held_back_mm {
            return Err(at.bad(RowUnfit::StandOffTooLong));
        }
        machines.push(Machine {
            part_mm: [
                at.positive("part_mm along x", part.0)?,
                at.positive("part_mm along y", part.1)?,
                at.positive("part_mm along z", part.2)?,
            ],
            mass_kg: at.positive("mass_kg", row.mass_kg)?,
            stroke_mm: at.positive("stroke_mm", row.stroke_mm)?,
            tube_mm: at.rising("tube_mm", row.tube_mm)?,
            tube_length_mm,
            held_back_mm,
            stand_off_mm,
            pressure_bar: at.positive("pressure_bar", row.pressure_bar)?,
            changer: row.changer,
            index_axis: row.index_axis,
            tilt_deg: row
                .tilt_deg
                .map(|tilt| at.rising("tilt_deg", tilt))
                .transpose()?,
            table_rapid_mm_min: at.positive("table_rapid_mm_min", row.table_rapid_mm_min)?,
            head_rapid_mm_min: at.positive("head_rapid_mm_min", row.head_rapid_mm_min)?,
            attended: at.share("attended", row.attended)?,
            rate_per_hour: at.not_negative("rate_per_hour", row.rate_per_hour)?,
            name: row.name,
        });
        pedigree.machines.push(row.pedigree);
    }
    Ok(machines)
}

/// The cards by their days, the newest one last.
fn rate_cards(rows: Vec<RateRow>, machines: &[MachineRow]) -> Result<Vec<RateCard>, ShopError> {
    let mut cards: Vec<RateCard> = Vec::with_capacity(rows.len());
    for row in rows {
        let at = Row("rates", &row.valid_from);
        at.told(&row.pedigree)?;
        let valid_from = day(&row.valid_from).ok_or_else(|| at.bad(RowUnfit::Day))?;
        if row.currency.len() != 3 || !row.currency.bytes().all(|c| c.is_ascii_uppercase()) {
            return Err(at.bad(RowUnfit::Currency));
        }
        if row.minor_digits > 4 {
            return Err(at.bad(RowUnfit::MinorDigits));
        }
        if row.margin >= 1.0 {
            return Err(at.bad(RowUnfit::Margin));
        }
        for (name, rate) in &row.machines_per_hour {
            at.not_negative(name, *rate)?;
            if !machines.iter().any(|machine| machine.name == *name) {
                return Err(at.bad(RowUnfit::NoSuchMachine { name: name.clone() }));
            }
        }
        let mut machines_per_hour: BTreeMap<String, f64> = machines
            .iter()
            .map(|machine| (machine.name.clone(), machine.rate_per_hour))
            .collect();
        machines_per_hour.extend(row.machines_per_hour);
        cards.push(RateCard {
            valid_from,
            rates: Rates {
                minor_digits: row.minor_digits,
                labor_per_hour: at.not_negative("labor_per_hour", row.labor_per_hour)?,
                dielectric_per_hour: at
                    .not_negative("dielectric_per_hour", row.dielectric_per_hour)?,
                power_per_hour: at.not_negative("power_per_hour", row.power_per_hour)?,
                margin: at.share("margin", row.margin)?,
                minimum_charge: at.not_negative("minimum_charge", row.minimum_charge)?,
                redo_share: at.share("redo_share", row.redo_share)?,
                part_risk_share: at.share("part_risk_share", row.part_risk_share)?,
                currency: row.currency,
            },
            machines_per_hour,
            pedigree: row.pedigree,
        });
    }
    cards.sort_by_key(|card| card.valid_from);
    for pair in cards.windows(2) {
        let [one, next] = pair else { continue };
        if one.valid_from == next.valid_from {
            return Err(ShopError::Twice {
                list: "rates",
                name: one.valid_from.to_string(),
            });
        }
        if one.rates.currency != next.rates.currency {
            return Err(ShopError::Currencies {
                first: one.rates.currency.clone(),
                second: next.rates.currency.clone(),
            });
        }
    }
    Ok(cards)
}

fn calendar(file: &CalendarFile) -> Result<Calendar, ShopError> {
    let at = Row("calendar", "hours");
    let hours_per_day = at.positive("hours_per_day", file.hours_per_day)?;
    let unattended = at.not_negative("unattended_hours_per_day", file.unattended_hours_per_day)?;
    if hours_per_day + unattended > 24.0 {
        return Err(at.bad(RowUnfit::DayTooLong));
    }
    if file.work_days.is_empty() {
        return Err(Row("calendar", "work_days").bad(RowUnfit::NoWorkDay));
    }
    let mut days_off = BTreeSet::new();
    for text in &file.days_off {
        let off = day(text);
        days_off.insert(off.ok_or_else(|| Row("calendar", text).bad(RowUnfit::Day))?);
    }
    Ok(Calendar {
        work_days: file.work_days.iter().map(|day| weekday(*day)).collect(),
        hours_per_day,
        unattended_hours_per_day: unattended,
        days_off,
    })
}

fn day(text: &str) -> Option<NaiveDate> {
    NaiveDate::parse_from_str(text, "%Y-%m-%d").ok()
}

const fn weekday(day: Day) -> Weekday {
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
