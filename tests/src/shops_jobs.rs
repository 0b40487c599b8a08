//! Jobs of invented shops through the whole calculation: what it says of a lot by the shop's records,
//! and what the lot really comes to.

use std::sync::Arc;

use quillbore_calc::assemble::{figures_now, quick};
use quillbore_calc::input::{Ends, HoleEnd, JobInput, RowId, RowInput};
use quillbore_calc::learn::{Evidence, Lessons};
use quillbore_calc::recorded::{Planned, Ran, recorded, start_context};
use quillbore_calc::tables::{Deviations, Machine, Material, Tables, Tube, TubeMaterial};
use quillbore_calc::{Idx, Limits, Spread};

use crate::shops::{
    Chance, FAMILIES, GRADES, Lot, MACHINES, MONTHS, READING, TrueShop, Truth, WRONG,
};

/// What of a lot is foretold and comes true: machine hours, length that a hole loses, cost.
#[derive(Clone, Copy, Debug)]
pub struct Told<T> {
    /// Machine hours [h].
    pub hours: T,
    /// Length of electrode that one hole loses [mm].
    pub wear: T,
    /// Full cost of the lot [currency].
    pub cost: T,
}

/// Tables with the families, grades, machines and tubes of an invented shop.
#[must_use]
pub fn tables_of(shop: &Tables) -> Tables {
    let mut tables = shop.clone();
    let mut kinds: Vec<Material> = Vec::new();
    for material in &shop.materials {
        let is_new = kinds.iter().all(|known| known.family != material.family);
        if is_new && material.tube_material == TubeMaterial::Brass && kinds.len() < FAMILIES {
            kinds.push(material.clone());
        }
    }
    let grades = kinds
        .iter()
        .flat_map(|kind| (0..GRADES).map(move |_| kind.clone()));
    tables.materials = grades.collect();
    let machine = shop
        .machines
        .iter()
        .find(|machine| !machine.changer && machine.tube_mm.lower <= 0.25);
    let machine = machine.or(shop.machines.first()).cloned();
    tables.machines = machine.into_iter().cycle().take(MACHINES).collect();
    let brass = |tube: &&Tube| tube.material == TubeMaterial::Brass && tube.channels == 1;
    let tubes: Vec<Tube> = shop.tubes.iter().filter(brass).cloned().collect();
    let copper = tubes.iter().map(|tube| Tube {
        material: TubeMaterial::Copper,
        ..tube.clone()
    });
    tables.tubes = tubes.iter().cloned().chain(copper).collect();
    tables
}

/// A lot as a job of one row; the tube next in size is chosen, and the lot is of its size from there on.
#[must_use]
pub fn job_of(lot: &mut Lot, tables: &Tables, chance: &mut Chance) -> JobInput {
    let material = if lot.like.electrode == 0 {
        TubeMaterial::Brass
    } else {
        TubeMaterial::Copper
    };
    let off = |tube: &Tube| libm::log(tube.outer_mm / lot.like.tube_mm).abs();
    let fits = Idx::all(&tables.tubes).filter_map(|at| {
        let tube: &Tube = at.of(&tables.tubes)?;
        (tube.material == material).then_some((off(tube), tube.length_mm, at, tube.outer_mm))
    });
    let best = fits.min_by(|a, b| a.0.total_cmp(&b.0).then(b.1.total_cmp(&a.1)));
    let depths = lot.like.depth_mm / lot.like.tube_mm;
    let (tube, outer_mm) = best.map_or((None, lot.like.tube_mm), |best| (Some(best.2), best.3));
    lot.like.tube_mm = outer_mm;
    // No deeper than one electrode goes.
    lot.like.depth_mm = (depths * outer_mm).min(60.0);
    JobInput {
        material: Some(Idx::<Material>::new(lot.like.grade as usize)),
        machine: Some(Idx::<Machine>::new(lot.like.machine as usize)),
        quantity: Some(1 + chance.below(50) as u32),
        rows: vec![RowInput {
            id: RowId(0),
            count: 1 + chance.below(24) as u32,
            limits_mm: Some(Limits::new(outer_mm - 0.05, outer_mm + 0.4)),
            depth_mm: Some(lot.like.depth_mm),
            end: HoleEnd::Into,
            ends: Some(Ends::One),
            tube,
            ..RowInput::default()
        }],
        ..JobInput::default()
    }
}

/// The tables as they are true of one lot, and nothing left to chance; `beside` is the logarithm of what
/// is true of times that go with no machine.
#[must_use]
pub fn true_tables(tables: &Tables, grade: u32, truth: Truth, beside: f64) -> Tables {
    let [burn, wear, handling] = truth.map(libm::exp);
    let exact = |spread: Spread, factor: f64| {
        let value = spread.p50() * factor;
        Spread::new(value, value).unwrap_or(spread)
    };
    let mut tables = tables.clone();
    tables.lessons = Arc::default();
    let material = &mut tables.materials[grade as usize];
    material.feed_mm_min = exact(material.feed_mm_min, 1.0 / burn);
    material.wear = exact(material.wear, wear);
    let start = &mut tables.start;
    for time in [
        &mut start.touch_off_min,
        &mut start.index_min,
        &mut start.tilt_min,
        &mut start.turn_over_min,
        &mut start.change_by_hand_min,
        &mut start.change_thin_min,
        &mut start.change_by_changer_min,
        &mut start.guide_change_min,
        &mut start.dressing_min,
        &mut start.load_min,
        &mut start.setup_min,
        &mut start.first_piece_min,
    ] {
        *time = exact(*time, handling);
    }
    for time in [
        &mut start.receive_min,
        &mut start.wash_min,
        &mut start.pin_check_min,
        &mut start.pack_min,
    ] {
        *time = exact(*time, libm::exp(beside));
    }
    start.depth_s = exact(start.depth_s, 1.0);
    start.wear_at_100_diameters = exact(start.wear_at_100_diameters, 1.0);
    start.deviations = Deviations {
        shop: 0.0,
        machine: 0.0,
        family: 0.0,
        grade: 0.0,
        electrode: 0.0,
        size_class: 0.0,
        by_diameter: 0.0,
        by_depth: 0.0,
        lot: 0.0,
        handling_shop: 0.0,
        handling_machine: 0.0,
        handling_lot: 0.0,
        ..start.deviations
    };
    tables
}

/// What the calculation says by these records: P10, P50 and P90.
#[must_use]
pub fn foretold(
    input: &JobInput,
    tables: &Tables,
    evidence: &[Evidence],
) -> Option<Told<[f64; 3]>> {
    let mut tables = tables.clone();
    tables.lessons = Arc::new(Lessons::of(evidence.to_vec(), &tables.start));
    let figures = figures_now(input, &tables);
    let (hours, cost) = (figures.lot?.machine_hours, figures.price?.lot_cost);
    let hole = figures.holes.first()?;
    let (wear, high) = (
        hole.wear_mm?,
        hole.own
            .as_ref()
            .map_or(hole.wear_high_mm? / hole.wear_mm?, |own| {
                libm::exp(quillbore_calc::quantity::Z90 * own.wear.sigma)
            }),
    );
    Some(Told {
        hours: [hours.p10, hours.p50, hours.p90],
        wear: [wear / high, wear, wear * high],
        cost: [cost.p10, cost.p50, cost.p90],
    })
}

/// What a lot really comes to.
#[must_use]
pub fn came_true(
    input: &JobInput,
    tables: &Tables,
    lot: &Lot,
    truth: Truth,
    beside: f64,
) -> Option<Told<f64>> {
    let figures = quick(input, &true_tables(tables, lot.like.grade, truth, beside));
    Some(Told {
        hours: figures.lot?.machine_hours.p50,
        wear: figures.holes.first()?.wear_mm?,
        cost: figures.price?.lot_cost.p50,
    })
}

/// What was written down of a lot: half of them know the clock only, one figure in ten is wrong by a
/// factor of 3.
#[must_use]
pub fn record_of(
    shop: &TrueShop,
    lot: &mut Lot,
    number: u32,
    tables: &Tables,
    chance: &mut Chance,
) -> Option<Evidence> {
    let input = job_of(lot, tables, chance);
    let truth = shop.comes_out(lot, chance);
    let row = input.rows.first()?;
    let holes = f64::from(row.count * input.quantity?);
    let scatter = 0.15 / libm::sqrt(holes);
    let [burn, wear, handling] = truth;
    let own = [
        burn + chance.normal(scatter),
        wear + chance.normal(scatter),
        handling,
    ];
    let really = planned(
        &input,
        &true_tables(tables, lot.like.grade, own, 0.0),
        holes,
    )?;
    let mut read = |value: f64| {
        let wrong = match chance.share() {
            share if share < 0.05 => WRONG,
            share if share < 0.10 => 1.0 / WRONG,
            _ => 1.0,
        };
        value * wrong * libm::exp(chance.normal(READING))
    };
    let [spark, lost, clock] = [really.burn_min, really.wear_mm, really.clock_min].map(&mut read);
    let by_clock = chance.share() < 0.5;
    let has_length = chance.share() < 0.8;
    let ran = Ran {
        lot: number,
        holes,
        age_years: (MONTHS - lot.month) as f64 / 12.0,
        spark_min: (!by_clock).then_some(spark),
        clock_min: by_clock.then_some(clock),
        lost_mm: has_length.then_some(lost),
        ..Ran::default()
    };
    let told = recorded(&start_context(&input, tables), tables, row, &ran);
    told.ok().map(|told| told.evidence)
}

/// What the start values of tables say of the holes of a job.
fn planned(input: &JobInput, tables: &Tables, holes: f64) -> Option<Planned> {
    let ran = Ran {
        holes,
        broken: Some(0.0),
        ..Ran::default()
    };
    let told = recorded(
        &start_context(input, tables),
        tables,
        input.rows.first()?,
        &ran,
    );
    told.ok().map(|told| told.planned)
}
