//! From what was typed to what the calculation asks: names are looked up, defaults filled in.

use quillbore_calc::head::put_clearances;
use quillbore_calc::input::{
    HoleEnd, JobInput, Layer, OneOff, Overrule as CalcOverrule, PartAxis, RowInput, StartHole,
    Surface,
};
use quillbore_calc::tables::Material;
use quillbore_calc::{Figure, Finding, Idx, Limits, Tables};

use crate::asked::currency::is_the_shops;
use crate::asked::of_tool;
use crate::asked::question::{put_answers, unanswered_findings};
use crate::asked::unread::{Unread, price_is_unread, tube_not_there};
use crate::ground::same_name::same_name;
use crate::job::Job;
use crate::job::row_depth::row_depth;
use crate::life::inspected;
use crate::shop::rows::Shop;
use crate::shop::unknown::UnknownName;
use crate::typed::field::{Field, TiltAngle, Value};
use crate::typed::overrule::FigureKey;
use crate::typed::quantity::{LayerText, LimitsGiven, Size};
use crate::typed::read_quantity::bisecting_deg;
use crate::typed::row::Row;
use crate::words::english;

/// The calculation's input, and the names that were not found.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    /// What the calculation gets.
    pub input: JobInput,
    /// What the shop's tables don't have.
    pub unknown: Vec<UnknownName>,
    /// What is found in rows that have answers, as if nobody had answered.
    pub unanswered: Vec<Finding>,
}

/// Makes the calculation's input of a job.
///
/// The shop is the one that the job goes by ([`Shop::for_job`]): what a fixture or work outside costs the
/// shop is put into the currency that it quotes in, what the customer's part is worth is in it already.
///
/// Materials go by any of the names that the shop knows them by, machines and tubes by their own;
/// where neither row nor drawing gives limits, the shop's usual tolerance stands in. Answers to checks
/// are taken as long as they were given for what is found now.
#[must_use]
pub fn to_input(job: &Job, shop: &Shop) -> Asked {
    let tables = &shop.tables;
    let mut unknown = Vec::new();
    let material = named(job, Field::Material, |name| shop.material(name)).unwrap_or_else(|name| {
        unknown.push(UnknownName::Material(name));
        None
    });
    let machine = named(job, Field::Machine, |name| {
        Idx::find(&tables.machines, |m| same_name(&m.name, name))
    })
    .unwrap_or_else(|name| {
        unknown.push(UnknownName::Machine(name));
        None
    });
    let unread = Unread::of(job);
    let rows = job
        .rows
        .iter()
        .map(|row| row_input(job, row, &unread, material, shop, &mut unknown))
        .collect();
    let overruled = job.overrules.iter();
    let no_tubes = overruled.filter_map(|overrule| tube_not_there(&overrule.figure, tables));
    unknown.extend(no_tubes.map(|name| UnknownName::OverruledTube(name.to_owned())));
    let mut input = JobInput {
        material,
        machine,
        measured_resistivity_ohm_cm: match job.field(Field::Resistivity).value() {
            Some(Value::Resistivity(ohm_cm)) => Some(*ohm_cm),
            _ => None,
        },
        quantity: job.count(Field::Quantity),
        breaks: match job.field(Field::Breaks).value() {
            Some(Value::Counts(counts)) => counts.clone(),
            _ => Vec::new(),
        },
        part_mm: part_size(job),
        mass_kg: match job.field(Field::Mass).value() {
            Some(Value::MassKg(kg)) => Some(*kg),
            _ => None,
        },
        rests_on: match job.field(Field::RestsOn).value() {
            Some(Value::RestsOn(rest)) => Some(*rest),
            _ => None,
        },
        pressure_bar: match job.field(Field::FlushPressure).value() {
            Some(Value::PressureBar(bar)) => Some(*bar),
            _ => None,
        },
        part_value: money(job, Field::PartValue, shop),
        liability_cap: money(job, Field::LiabilityCap, shop),
        index_about: index_about(job),
        rows,
        one_off: one_off(job, shop),
        outside_work: money(job, Field::OutsideCost, shop).unwrap_or(0.0),
        outside_per_part: money(job, Field::OutsidePerPart, shop).unwrap_or(0.0),
        masking_min: (job.field(Field::MaskingMinutes).value())
            .and_then(Value::minutes)
            .unwrap_or(0.0),
        margin: match job.field(Field::Margin).value() {
            Some(Value::Share(share)) => Some(*share),
            _ => None,
        },
        overrules: overrules(job, tables),
        price_unread: price_is_unread(job, tables),
        sampling: inspected::sampling_asked(job),
    };
    put_clearances(&mut input, tables);
    let unanswered = unanswered_findings(job, &input, tables);
    put_answers(job, &unanswered, &mut input);
    Asked {
        input,
        unknown,
        unanswered,
    }
}

/// The calculation's figure that a job's key names; `None` where the shop has no such tube any more.
#[must_use]
pub fn figure_of(key: &FigureKey, tables: &Tables) -> Option<Figure> {
    Some(match key {
        FigureKey::Gap(row) => Figure::Gap(*row),
        FigureKey::Feed(row) => Figure::Feed(*row),
        FigureKey::HoleMinutes(row) => Figure::HoleMinutes(*row),
        FigureKey::Wear(row) => Figure::Wear(*row),
        FigureKey::Electrodes(name) => Figure::Electrodes(Idx::find(&tables.tubes, |tube| {
            same_name(&tube.name, name)
        })?),
        FigureKey::MachineHours => Figure::MachineHours,
        FigureKey::LaborHours => Figure::LaborHours,
        FigureKey::NotYetKnown => Figure::NotYetKnown,
        FigureKey::UnitPrice(quantity) => Figure::UnitPrice(*quantity),
    })
}

/// The key under which a job can overrule a figure; `None` where it can't be overruled.
#[must_use]
pub fn key_of(figure: Figure, tables: &Tables) -> Option<FigureKey> {
    Some(match figure {
        Figure::Gap(row) => FigureKey::Gap(row),
        Figure::Feed(row) => FigureKey::Feed(row),
        Figure::HoleMinutes(row) => FigureKey::HoleMinutes(row),
        Figure::Wear(row) => FigureKey::Wear(row),
        Figure::Electrodes(tube) => FigureKey::Electrodes(tube.of(&tables.tubes)?.name.clone()),
        Figure::MachineHours => FigureKey::MachineHours,
        Figure::LaborHours => FigureKey::LaborHours,
        Figure::NotYetKnown => FigureKey::NotYetKnown,
        Figure::UnitPrice(quantity) => FigureKey::UnitPrice(quantity),
        Figure::Electrode(_)
        | Figure::TargetDepth(_)
        | Figure::ReachOne(_)
        | Figure::ElectrodesPerHole(_)
        | Figure::Flush(_)
        | Figure::Push(_)
        | Figure::Clamp(_)
        | Figure::Machines
        | Figure::AllElectrodes
        | Figure::Setups
        | Figure::Cost(_)
        | Figure::LotCost
        | Figure::LotPrice(_)
        | Figure::WorkingDays => return None,
    })
}

/// The index behind a typed name: nothing typed is fine, a name without a row is given back.
fn named<T>(
    job: &Job,
    field: Field,
    find: impl Fn(&str) -> Option<Idx<T>>,
) -> Result<Option<Idx<T>>, String> {
    let Some(Value::Text(name)) = job.field(field).value() else {
        return Ok(None);
    };
    find(name).map(Some).ok_or_else(|| name.clone())
}

/// An amount in the currency of the quotation, whichever it was typed in.
fn money(job: &Job, field: Field, shop: &Shop) -> Option<f64> {
    use rust_decimal::prelude::ToPrimitive as _;
    let typed = job.field(field).value().and_then(Value::money)?.to_f64()?;
    Some(if is_the_shops(field) {
        shop.exchanged(typed)
    } else {
        typed
    })
}

fn part_size(job: &Job) -> Option<[f64; 3]> {
    Some([
        job.length(Field::SizeX)?.mm(),
        job.length(Field::SizeY)?.mm(),
        job.length(Field::SizeZ)?.mm(),
    ])
}

fn index_about(job: &Job) -> Option<PartAxis> {
    match job.field(Field::IndexAbout).value() {
        Some(Value::PartAxis(axis)) => *axis,
        _ => None,
    }
}

/// Figures that were overruled by something that can be read, of what the tables have.
fn overrules(job: &Job, tables: &Tables) -> Vec<CalcOverrule> {
    let read = job.overrules.iter().filter_map(|overrule| {
        let figure = figure_of(&overrule.figure, tables)?;
        let value = *overrule.value.value()?;
        Some(CalcOverrule { figure, value })
    });
    read.collect()
}

/// Fields whose costs are charged once.
const ONE_OFF: [Field; 2] = [Field::FixtureCost, Field::TestPieceCost];

/// The field that a charge comes from, by what the figures call it.
#[must_use]
pub fn charged_once(what: &str) -> Option<Field> {
    ONE_OFF
        .into_iter()
        .find(|field| english::one_off(*field) == what)
}

fn one_off(job: &Job, shop: &Shop) -> Vec<OneOff> {
    ONE_OFF
        .into_iter()
        .filter_map(|field| {
            let cost = money(job, field, shop)?;
            Some(OneOff {
                what: english::one_off(field).to_owned(),
                cost,
            })
        })
        .collect()
}

fn row_input(
    job: &Job,
    row: &Row,
    unread: &Unread,
    job_material: Option<Idx<Material>>,
    shop: &Shop,
    unknown: &mut Vec<UnknownName>,
) -> RowInput {
    let tables = &shop.tables;
    let known = unknown.len();
    let surface = row.surface.value().copied().unwrap_or(Surface::Flat);
    let tilt_deg = row.angle.value().map_or(
        // Where nobody says how the axis leans to an edge, it bisects it.
        match surface {
            Surface::Edge { included_deg, .. } => bisecting_deg(included_deg),
            _ => 0.0,
        },
        |angle: &TiltAngle| angle.from_normal.deg(),
    );
    let layers = match row.broken.value() {
        Some(tool) if row.layers.is_empty() => of_tool::layers(row, tool, shop, unknown),
        _ => layers(row, job_material, shop, unknown),
    };
    let depth = row_depth(job, row, tilt_deg, &layers);
    let (limits_mm, limits_assumed) = limits(job, row.size.value(), shop.usual_tolerance_mm);
    let tube = row.tube.value().and_then(|name| {
        let found = Idx::find(&tables.tubes, |tube| same_name(&tube.name, name));
        if found.is_none() {
            unknown.push(UnknownName::Tube(row.id, name.clone()));
        }
        found
    });
    let unread = unread.is_under(row) || unknown.len() > known;
    let end = row.end.value().copied().unwrap_or(HoleEnd::Through);
    RowInput {
        id: row.id,
        count: row.holes(),
        places: row.places.as_ref().clone(),
        limits_mm,
        limits_assumed,
        risk_agreed: false,
        depth_mm: depth.mm,
        depth_limits_mm: depth.limits_mm.or_else(|| match row.broken.value() {
            Some(_) => (end == HoleEnd::Blind).then(|| of_tool::limits(depth.mm))?,
            None => titled(job, end, depth.mm?),
        }),
        end,
        tilt_deg,
        surface,
        exit: row.exit.value().copied(),
        recess: (row.recess.value().copied()).or_else(|| of_tool::above(row)),
        start_hole: StartHole {
            wire_mm: row.wire.value().map(|wire| wire.mm()),
            least_exit_mm: row.least_exit.value().map(|least| least.mm()),
            to_profile_mm: row.to_profile.value().map(|distance| distance.mm()),
        },
        proved: row.proved.value().copied(),
        clearance: None,
        behind_mm: row.behind.value().map(|behind| behind.mm()),
        backed: row.backed.value().copied().unwrap_or(false),
        wall_waived: false,
        layers,
        core_trapped: row.core_trapped.value().copied().unwrap_or(false),
        ends: row.ends.value().copied(),
        tube,
        dress_every: row.dress_every.value().copied(),
        broken: of_tool::tool(row, &depth, end),
        unread,
    }
}

/// The limits of a blind hole's depth that has none of its own: those of the title block, where it has any.
fn titled(job: &Job, end: HoleEnd, depth_mm: f64) -> Option<Limits> {
    match job.field(Field::DefaultTolerance).value() {
        Some(Value::Tolerance(off)) if end == HoleEnd::Blind => {
            Some(off.map(|off| depth_mm + off.mm()))
        }
        _ => None,
    }
}

/// The row's limits, and whether the shop's usual tolerance stands in for the drawing's.
fn limits(job: &Job, size: Option<&Size>, usual_tolerance_mm: f64) -> (Option<Limits>, bool) {
    let Some(size) = size else {
        return (None, false);
    };
    if size.given != LimitsGiven::None {
        return (Some(Limits::new(size.lower.mm(), size.upper.mm())), false);
    }
    let nominal_mm = size.upper.mm();
    match job.field(Field::DefaultTolerance).value() {
        Some(Value::Tolerance(off)) => (Some(off.map(|off| nominal_mm + off.mm())), false),
        _ => {
            let least = (nominal_mm - usual_tolerance_mm).max(0.0);
            (
                Some(Limits::new(least, nominal_mm + usual_tolerance_mm)),
                true,
            )
        }
    }
}

fn layers(
    row: &Row,
    job_material: Option<Idx<Material>>,
    shop: &Shop,
    unknown: &mut Vec<UnknownName>,
) -> Vec<Layer> {
    let Some(typed) = row.layers.value() else {
        return Vec::new();
    };
    typed
        .iter()
        .filter_map(
            |LayerText {
                 material,
                 thickness,
             }| {
                let material = match material {
                    None => job_material,
                    Some(name) => {
                        let found = shop.material(name);
                        if found.is_none() {
                            unknown.push(UnknownName::LayerMaterial(row.id, name.clone()));
                        }
                        found.or(job_material)
                    }
                };
                Some(Layer {
                    material: material?,
                    thickness_mm: thickness.mm(),
                })
            },
        )
        .collect()
}
