//! The figures as JSON; the README documents the keys. What is not computed yet is `null`.

use std::collections::BTreeMap;

use quillbore_calc::input::Ends;
use quillbore_calc::job_figures::{HoleFigures, LotFigures, PriceFigures};
use quillbore_calc::{Band, Limits, RowId};
use quillbore_job::results::{Beside, Results, SideNote, Telling};
use quillbore_job::words::english;
use quillbore_job::words::speaker::Speaker;
use quillbore_job::{Field, Job, Shop, Unit, show_quantity};
use serde::Serialize;

/// Every figure of a job as JSON text; lengths in mm, times in min, money as decimal text.
///
/// # Errors
/// Where a figure is no number; the calculation gives none that is not.
pub(super) fn figures_json(
    job: &Job,
    shop: &Shop,
    results: &Results,
) -> serde_json::Result<String> {
    let speaker = Speaker {
        job,
        tables: &shop.tables,
        unit: Unit::Mm,
    };
    let telling = Telling::new(job, &shop.tables);
    let figures = &results.figures;
    let of_row = |row: RowId| {
        let about = |note: &&SideNote| matches!(note.beside, Beside::Row(other, _) if other == row);
        results
            .notes
            .iter()
            .filter(about)
            .map(|note| finding(note, &speaker, &telling))
            .collect()
    };
    let document = Document {
        job: &job.number,
        format: quillbore_job::file::FORMAT,
        material: material(job, results, shop),
        records_behind: 0,
        calibrated: false,
        holes: figures
            .holes
            .iter()
            .map(|hole| json_hole(hole, shop, &speaker, of_row(hole.row)))
            .collect(),
        setups: figures
            .setups
            .iter()
            .enumerate()
            .map(|(index, setup)| Setup {
                name: (index + 1).to_string(),
                directions: setup.directions,
                holes: setup.rows.iter().map(|row| speaker.mark(*row)).collect(),
                index_moves: setup.index_moves,
                tilts: setup.tilts,
                turned_over: setup.turned_over,
                travel_mm: setup.travel_mm,
                clamp_n: None,
            })
            .collect(),
        lot: figures.lot.as_ref().map(|lot| json_lot(lot, shop)),
        price: figures.price.as_ref().map(|price| json_price(price, shop)),
        promise: Promise {
            working_days_p50: None,
            working_days_p90: None,
            date_p50: None,
            date_p90: None,
        },
        findings: results
            .notes
            .iter()
            .filter(|note| !matches!(note.beside, Beside::Row(..)))
            .map(|note| finding(note, &speaker, &telling))
            .collect(),
    };
    serde_json::to_string_pretty(&document)
}

/// The material as papers name it.
fn material(job: &Job, results: &Results, shop: &Shop) -> Option<String> {
    let row = results.asked.input.material;
    let row = row.and_then(|at| at.of(&shop.tables.materials));
    let named =
        english::material_named(row.map(|row| row.name.as_str()), job.text(Field::Material));
    (!named.is_empty()).then_some(named)
}

#[derive(Serialize)]
struct Document<'a> {
    job: &'a str,
    format: u32,
    material: Option<String>,
    records_behind: u32,
    calibrated: bool,
    holes: Vec<Hole>,
    setups: Vec<Setup>,
    lot: Option<Lot>,
    price: Option<Price>,
    promise: Promise,
    findings: Vec<Finding>,
}

#[derive(Serialize)]
struct Hole {
    mark: String,
    places: u32,
    diameter_mm: Option<[f64; 2]>,
    depth_mm: Option<f64>,
    tilt_deg: f64,
    electrode: Option<Electrode>,
    side_gap_mm: Option<f64>,
    size_mm: Option<[f64; 2]>,
    verdict: Option<&'static str>,
    chance_inside: Option<f64>,
    chance_over: Option<f64>,
    held: Option<f64>,
    outside_in_lot: Option<f64>,
    depth_plan: Option<DepthPlan>,
    feed_mm_min: Option<f64>,
    wear_ratio: Option<f64>,
    minutes: Option<Percentiles>,
    minutes_in: Option<BTreeMap<&'static str, f64>>,
    wear_mm: Option<f64>,
    target_depth_mm: Option<f64>,
    machine_depth_mm: Option<f64>,
    reach_one_mm: Option<f64>,
    limit_mm: Option<f64>,
    electrodes_per_hole: Option<u32>,
    ends: Option<u32>,
    flush: Option<()>,
    push_n: Option<f64>,
    findings: Vec<Finding>,
}

#[derive(Serialize)]
struct Electrode {
    name: String,
    diameter_mm: f64,
    bore_mm: f64,
    channels: u8,
    material: &'static str,
    length_mm: f64,
}

#[derive(Serialize)]
struct DepthPlan {
    first_try_setting_mm: f64,
    tip_never_beyond_mm: f64,
    two_steps: bool,
    scatter_mm: f64,
    allowed_mm: f64,
}

#[derive(Serialize)]
struct Percentiles {
    p10: f64,
    p50: f64,
    p90: f64,
}

#[derive(Serialize)]
struct Setup {
    name: String,
    directions: u32,
    holes: Vec<String>,
    index_moves: u32,
    tilts: u32,
    turned_over: bool,
    travel_mm: Option<f64>,
    clamp_n: Option<f64>,
}

#[derive(Serialize)]
struct Lot {
    quantity: u32,
    machine_hours: Percentiles,
    labor_hours: Percentiles,
    electrodes: Vec<LotElectrodes>,
}

#[derive(Serialize)]
struct LotElectrodes {
    name: String,
    diameter_mm: f64,
    needed: u32,
    at_least: u32,
    if_wear_high: u32,
    spares: u32,
    kit: u32,
    by_order: u32,
    breakages: f64,
}

#[derive(Serialize)]
struct Price {
    currency: String,
    offered_quantity: Option<u32>,
    chance_of_loss: Option<f64>,
    margin: f64,
    markup: f64,
    lot_cost: Percentiles,
    expected_cost: f64,
    cost_lines: BTreeMap<&'static str, f64>,
    breaks: Vec<Break>,
    one_off: Vec<OneOff>,
}

#[derive(Serialize)]
struct Break {
    quantity: u32,
    each: String,
    lot: String,
    minimum_charge: bool,
}

#[derive(Serialize)]
struct OneOff {
    what: String,
    price: String,
}

#[derive(Serialize)]
struct Promise {
    working_days_p50: Option<u32>,
    working_days_p90: Option<u32>,
    date_p50: Option<String>,
    date_p90: Option<String>,
}

#[derive(Serialize)]
struct Finding {
    level: &'static str,
    code: &'static str,
    about: String,
    text: String,
    remedy: Option<String>,
}

impl From<Band> for Percentiles {
    fn from(band: Band) -> Self {
        Self {
            p10: band.p10,
            p50: band.p50,
            p90: band.p90,
        }
    }
}

fn finding(note: &SideNote, speaker: &Speaker<'_>, telling: &Telling<'_>) -> Finding {
    Finding {
        level: english::level(note.level),
        code: note.code(),
        about: match note.beside {
            Beside::Row(row, _) => speaker.hole(row),
            Beside::Field(field) => english::field(field).to_owned(),
            Beside::Plan => "plan".to_owned(),
            Beside::Price => "price".to_owned(),
            Beside::Papers => "papers".to_owned(),
            Beside::Slip(slip, _) => format!("slip {}", slip + 1),
        },
        text: telling.text(note).into_owned(),
        remedy: telling.offer(note).map(|offer| offer.words.clone()),
    }
}

fn json_hole(
    hole: &HoleFigures,
    shop: &Shop,
    speaker: &Speaker<'_>,
    findings: Vec<Finding>,
) -> Hole {
    Hole {
        mark: speaker.mark(hole.row),
        places: hole.places,
        diameter_mm: hole.limits_mm.map(both),
        depth_mm: hole.depth_mm,
        tilt_deg: hole.tilt_deg,
        electrode: hole
            .tube
            .and_then(|tube| tube.of(&shop.tables.tubes))
            .map(|tube| Electrode {
                name: tube.name.clone(),
                diameter_mm: tube.outer_mm,
                bore_mm: tube.bore_mm,
                channels: tube.channels,
                material: english::tube_material(tube.material),
                length_mm: tube.length_mm,
            }),
        side_gap_mm: hole.gap_mm.map(quillbore_calc::Spread::p50),
        size_mm: hole.size_mm.map(both),
        verdict: hole.verdict.map(english::verdict),
        chance_inside: hole.first_choice.map(|chance| chance.inside),
        chance_over: hole.first_choice.map(|chance| chance.over),
        held: hole.held,
        outside_in_lot: hole.outside_in_lot,
        depth_plan: hole.depth_plan.map(|plan| DepthPlan {
            first_try_setting_mm: plan.first_try_mm,
            tip_never_beyond_mm: plan.never_beyond_mm,
            two_steps: plan.two_steps,
            scatter_mm: plan.scatter_mm,
            allowed_mm: plan.allowed_mm,
        }),
        feed_mm_min: hole.feed_mm_min,
        wear_ratio: hole.wear_ratio,
        minutes: hole.minutes.map(Percentiles::from),
        minutes_in: hole.minutes_in.map(|parts| {
            BTreeMap::from([
                ("touch_off", parts.touch_off),
                ("entry", parts.entry),
                ("full_metal", parts.full_metal),
                ("exit", parts.exit),
                ("overtravel", parts.overtravel),
                ("retract", parts.retract),
                ("changes", parts.changes),
            ])
        }),
        wear_mm: hole.wear_mm,
        target_depth_mm: hole.target_depth_mm,
        machine_depth_mm: hole.machine_depth_mm,
        reach_one_mm: hole.reach_one_mm,
        limit_mm: hole.limit_mm,
        electrodes_per_hole: hole.electrodes_per_hole,
        ends: hole.ends.map(|ends| match ends {
            Ends::One => 1,
            Ends::Both => 2,
        }),
        flush: None,
        push_n: None,
        findings,
    }
}

fn json_lot(lot: &LotFigures, shop: &Shop) -> Lot {
    Lot {
        quantity: lot.quantity,
        machine_hours: lot.machine_hours.into(),
        labor_hours: lot.labor_hours.into(),
        electrodes: lot
            .electrodes
            .iter()
            .filter_map(|electrodes| {
                let tube = electrodes.tube.of(&shop.tables.tubes)?;
                Some(LotElectrodes {
                    name: tube.name.clone(),
                    diameter_mm: tube.outer_mm,
                    needed: electrodes.needed,
                    at_least: electrodes.at_least,
                    if_wear_high: electrodes.if_wear_high,
                    spares: electrodes.spares,
                    kit: electrodes.kit,
                    breakages: electrodes.breakages,
                    by_order: electrodes.by_order,
                })
            })
            .collect(),
    }
}

fn json_price(price: &PriceFigures, shop: &Shop) -> Price {
    let digits = shop.tables.rates.minor_digits;
    let plain = |amount| show_quantity::money_plain(amount, digits);
    Price {
        currency: price.currency.clone(),
        offered_quantity: price.breaks.first().map(|offered| offered.quantity),
        chance_of_loss: None,
        margin: price.margin,
        markup: price.markup,
        lot_cost: price.lot_cost.into(),
        expected_cost: price.expected_cost,
        cost_lines: BTreeMap::from([
            ("machine", price.cost.machine),
            ("labor", price.cost.labor),
            ("electrodes", price.cost.electrodes),
            ("guides", price.cost.guides),
            ("dielectric", price.cost.dielectric),
            ("power", price.cost.power),
            ("outside_work", price.cost.outside),
            ("redone_work", price.cost.redo),
            ("part_at_risk", price.cost.part_risk),
            ("not_yet_known", price.cost.not_yet_known),
        ]),
        breaks: price
            .breaks
            .iter()
            .map(|offered| Break {
                quantity: offered.quantity,
                each: plain(offered.each),
                lot: plain(offered.lot),
                minimum_charge: offered.minimum,
            })
            .collect(),
        one_off: price
            .one_off
            .iter()
            .map(|(what, amount)| OneOff {
                what: what.clone(),
                price: plain(*amount),
            })
            .collect(),
    }
}

/// The lower one first.
fn both(limits: Limits) -> [f64; 2] {
    [limits.lower, limits.upper]
}
