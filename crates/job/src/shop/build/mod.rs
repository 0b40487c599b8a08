//! From the rows of the files to the shop, each row checked.

mod calendar;
mod checks;
mod rates;

use std::collections::BTreeMap;
use std::sync::Arc;

use quillbore_calc::head::Head;
use quillbore_calc::tables::{Guide, Machine, Material, Tube};
use quillbore_calc::{Idx, Tables};

use checks::At;
use rates::rate_cards;

use super::disk::{GuideRow, MachineRow, MaterialRow, ShopFile, TubeRow};
use super::error::ShopError;
use super::plain::plain;
use super::rows::{Identity, Pedigree, Shop, Texts};
use super::start::spread;
use super::unfit::{FigureNamed, Needed, RowUnfit};
use crate::typed::form::Form;

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
        identity: Identity::default(),
        logo: None,
        customers: Vec::new(),
        texts: Texts {
            terms: texts.terms,
            exclusions: texts.exclusions,
            cautions: texts.cautions,
        },
        usual_tolerance_mm: At("shop", "usual_tolerance_mm")
            .positive(FigureNamed::It, tolerance)?,
        calendar: calendar::calendar(&calendar)?,
        tables: Tables {
            materials,
            tubes,
            guides,
            machines,
            rates,
            start,
            lessons: Arc::default(),
        },
        pedigree,
        earlier_rates: rate_cards,
        newest_rates: newest,
        also,
        other_names,
        day: None,
        goes_by: None,
        samples_say: Vec::new(),
        bad_cards: Vec::new(),
        sample_rates: false,
        counted: BTreeMap::new(),
        on_letter: None,
        on_both_sides: false,
        form: Form::default(),
        not_used: Vec::new(),
    };
    shop.tables = shop.tables_with(&shop.newest_rates);
    Ok(shop)
}

const fn missing(what: Needed) -> ShopError {
    ShopError::Missing { what }
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
        let at = At("materials", &row.name);
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
        let at = At("tubes", &row.name);
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
            kept: 0,
            stubs: Vec::new(),
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
        let at = At("guides", &row.name);
        at.told(&row.pedigree)?;
        guides.push(Guide {
            tube_mm: at.positive("tube_mm", row.tube_mm)?,
            life_holes: at.positive("life_holes", row.life_holes)?,
            price: at.not_negative("price", row.price)?,
            stock: row.stock,
            kept_ends: 0,
            name: row.name,
        });
        pedigree.guides.push(row.pedigree);
    }
    Ok(guides)
}

fn machines(rows: Vec<MachineRow>, pedigree: &mut Pedigree) -> Result<Vec<Machine>, ShopError> {
    let mut machines = Vec::with_capacity(rows.len());
    for row in rows {
        let at = At("machines", &row.name);
        at.told(&row.pedigree)?;
        let part = row.part_mm;
        at.positive(FigureNamed::Smallest("tube_mm"), row.tube_mm.0)?;
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
                at.positive(FigureNamed::Along("part_mm", 'x'), part.0)?,
                at.positive(FigureNamed::Along("part_mm", 'y'), part.1)?,
                at.positive(FigureNamed::Along("part_mm", 'z'), part.2)?,
            ],
            mass_kg: at.positive("mass_kg", row.mass_kg)?,
            stroke_mm: at.positive("stroke_mm", row.stroke_mm)?,
            tube_mm: at.rising("tube_mm", row.tube_mm)?,
            tube_length_mm,
            held_back_mm,
            stand_off_mm,
            head: match row.head_mm {
                Some((nose_mm, nose_length_mm, body_mm)) => Some(Head {
                    nose_mm: at.positive("head_mm", nose_mm)?,
                    nose_top_mm: nose_mm,
                    nose_length_mm: at.positive("head_mm", nose_length_mm)?,
                    body_mm: at.positive("head_mm", body_mm)?,
                    body_from_mm: nose_length_mm,
                }),
                None => None,
            },
            pressure_bar: at.positive("pressure_bar", row.pressure_bar)?,
            changer: row.changer,
            index_axis: row.index_axis,
            tilt_deg: row
                .tilt_deg
                .map(|tilt| at.rising("tilt_deg", tilt))
                .transpose()?,
            tilts: row.tilts.map(Into::into),
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
