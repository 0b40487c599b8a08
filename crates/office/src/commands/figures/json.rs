//! The figures as JSON.

use std::collections::BTreeMap;

use quillbore_calc::entry;
use quillbore_calc::input::Ends;
use quillbore_calc::job_figures::{
    self, BurntFigures, Flushed, HoleFigures, LotFigures, MinutesIn, Narrowed, OwnFigures,
    PriceFigures, SetupFigures, StartHoleFigures,
};
use quillbore_calc::tables::Tube;
use quillbore_calc::{Limits, RowId};
use quillbore_job::form::money_plain;
use quillbore_job::results::promise::Promise as Promised;
use quillbore_job::results::{Beside, Results, SideNote, Telling};
use quillbore_job::words::english;
use quillbore_job::words::speaker::Speaker;
use quillbore_job::{Field, Job, Shop, Unit};

use serde::{Serialize, Serializer};

use super::document::{
    AtEnds, Break, Burnt, DepthPlan, Document, Each, Electrode, Exit, Finding, Flush, Hole, Lot,
    LotElectrodes, LotGuides, OneOff, Own, OwnFactor, Percentiles, Price, Promise, Risk, Setup,
    StartHole, TestBurn,
};
use crate::words::figures as words;

/// Every figure of a job as JSON; lengths in mm, times in min, money as decimal text.
pub(super) struct FiguresJson<'a> {
    pub(super) job: &'a Job,
    pub(super) shop: &'a Shop,
    pub(super) results: &'a Results,
    pub(super) promise: Option<Promised>,
}

impl Serialize for FiguresJson<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Self {
            job,
            shop,
            results,
            promise,
        } = *self;
        let speaker = Speaker {
            job,
            tables: &shop.tables,
            unit: Unit::Mm,
            form: shop.form,
        };
        let telling = Telling::new(job, shop);
        let mut notes: BTreeMap<Option<RowId>, Vec<&SideNote>> = BTreeMap::new();
        for note in &results.notes {
            notes.entry(row_of(note)).or_default().push(note);
        }
        let findings = |of: Option<RowId>| {
            let notes = notes.get(&of).map_or(&[][..], Vec::as_slice);
            let findings = notes.iter().map(|note| finding(note, &speaker, &telling));
            findings.collect()
        };
        let figures = &results.figures;
        let holes = || {
            let holes = figures.holes.iter();
            holes.map(|hole| json_hole(hole, shop, &speaker, findings(Some(hole.row))))
        };
        let setups = figures.setups.iter().enumerate();
        let document = Document {
            job: &job.number,
            format: quillbore_job::file::FORMAT,
            material: material(job, results, shop),
            records_behind: figures.behind().map_or(0, |behind| behind.grade),
            calibrated: figures.is_calibrated(),
            holes: Each(holes),
            setups: setups
                .map(|(index, setup)| json_setup(index, setup, &speaker))
                .collect(),
            lot: figures.lot.as_ref().map(|lot| json_lot(lot, shop)),
            price: figures.price.as_ref().map(|price| json_price(price, shop)),
            promise: promise.map_or_else(Promise::default, json_promise),
            findings: findings(None),
        };
        document.serialize(serializer)
    }
}

fn json_promise(promise: Promised) -> Promise {
    Promise {
        working_days_p50: Some(promise.days.p50),
        working_days_p90: Some(promise.days.p90),
        date_p50: promise.date_p50.map(|day| day.to_string()),
        date_p90: promise.date_p90.map(|day| day.to_string()),
    }
}

/// The material as papers name it.
fn material(job: &Job, results: &Results, shop: &Shop) -> Option<String> {
    let row = results.asked.input.material;
    let row = row.and_then(|at| at.of(&shop.tables.materials));
    let named =
        english::material_named(row.map(|row| row.name.as_str()), job.text(Field::Material));
    (!named.is_empty()).then_some(named)
}

/// The row that a side note is about; `None` for one about the job.
const fn row_of(note: &SideNote) -> Option<RowId> {
    match note.beside {
        Beside::Row(row, _) => Some(row),
        _ => None,
    }
}

/// A row's mark as it was typed, however long; its place in the table where it has none.
fn mark(row: RowId, speaker: &Speaker<'_>) -> String {
    let typed = speaker
        .job
        .row(row)
        .map_or("", |row| row.mark.text().trim());
    if typed.is_empty() {
        return speaker.mark(row);
    }
    typed.to_owned()
}

fn finding(note: &SideNote, speaker: &Speaker<'_>, telling: &Telling<'_>) -> Finding {
    Finding {
        level: english::level(note.level),
        code: note.code(),
        about: words::about(note.beside, speaker),
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
        mark: mark(hole.row, speaker),
        places: hole.places,
        diameter_mm: hole.limits_mm.map(both),
        depth_mm: hole.depth_mm,
        tilt_deg: hole.tilt_deg,
        electrode: hole
            .tube
            .and_then(|tube| tube.of(&shop.tables.tubes))
            .map(json_electrode),
        side_gap_mm: hole.gap_mm.map(quillbore_calc::Spread::p50),
        size_mm: hole.size_mm.map(both),
        checked_by_pin: hole.checked.by_pin,
        proved_by: hole.checked.proof.map(english::proof),
        start_hole: hole.start_hole.as_deref().map(json_start_hole),
        verdict: hole.verdict.map(english::verdict),
        chance_inside: hole.first_choice.map(|chance| chance.inside),
        chance_over: hole.first_choice.map(|chance| chance.over),
        held: hole.held,
        outside_in_lot: hole.outside_in_lot,
        depth_plan: hole.depth_plan.map(json_depth_plan),
        feed_mm_min: hole.feed_mm_min,
        wear_ratio: hole.wear_ratio,
        minutes: hole.minutes.map(Percentiles::from),
        minutes_in: hole.minutes_in.map(json_minutes_in),
        wear_mm: hole.wear_mm,
        target_depth_mm: hole.target_depth_mm,
        machine_depth_mm: hole.machine_depth_mm,
        half_settings_mm: hole.half_settings_mm,
        stand_off_mm: hole.stand_off_mm,
        touch_mm: at_ends(hole.touch_mm),
        behind_mm: hole.behind_mm,
        zones_mm: hole.zones_mm.map(at_ends),
        reach_one_mm: hole.reach_one_mm,
        limit_mm: hole.limit_mm,
        electrodes_per_hole: hole.electrodes_per_hole,
        ends: hole.ends.map(|ends| match ends {
            Ends::One => 1,
            Ends::Both => 2,
        }),
        flush: hole.flush.as_deref().map(json_flush),
        burnt: hole.burnt.as_deref().map(|burnt| json_burnt(burnt, hole)),
        push_n: hole.push_n,
        own: hole.own.as_deref().map(json_own),
        findings,
    }
}

const fn at_ends(ends: entry::AtEnds<f64>) -> AtEnds {
    AtEnds {
        entry: ends.entry,
        exit: ends.exit,
    }
}

fn json_burnt(burnt: &BurntFigures, hole: &HoleFigures) -> Burnt {
    let tool = burnt.tool.as_ref();
    let opening = burnt.opening.as_ref();
    Burnt {
        core_mm: tool.map(|tool| tool.core_mm),
        spared_mm: tool.map(|tool| tool.bound_mm),
        hole_mm: match tool {
            Some(tool) => tool.hole_mm,
            None => hole.size_mm.map(|size| size.upper),
        },
        plunges: opening.map_or(1, |opening| opening.plunges),
        layers: opening.map_or(0, |opening| opening.layers),
        slug_mm: opening.and_then(|opening| opening.slug_mm),
    }
}

const fn json_flush(flush: &Flushed) -> Flush {
    Flush {
        pressure_bar: flush.pressure_bar,
        free_ml_min: flush.face.ml_min,
        bottom_ml_min: flush.bottom.ml_min,
        gap_m_s: flush.bottom.gap_m_s,
        regime: words::regime(flush.bottom.regime),
        debris_share: flush.debris_share,
        weak_from_mm: flush.weak_from_mm,
    }
}

fn json_own(own: &OwnFigures) -> Own {
    Own {
        records_of_grade: own.behind.grade,
        lots_of_grade: own.behind.lots,
        records_of_family: own.behind.family,
        records_of_shop: own.behind.all,
        burn: own_factor(&own.burn),
        wear: own_factor(&own.wear),
        gap: own.gap.as_ref().map(own_factor),
    }
}

fn own_factor(own: &Narrowed) -> OwnFactor {
    OwnFactor {
        factor: own.factor,
        deviation: own.sigma,
        start_deviation: own.start_sigma,
        calibrated: own.is_calibrated(),
    }
}

fn json_electrode(tube: &Tube) -> Electrode {
    Electrode {
        name: tube.name.clone(),
        diameter_mm: tube.outer_mm,
        bore_mm: tube.bore_mm,
        channels: tube.channels,
        material: english::tube_material(tube.material),
        length_mm: tube.length_mm,
    }
}

const fn json_depth_plan(plan: job_figures::DepthPlan) -> DepthPlan {
    DepthPlan {
        first_try_setting_mm: plan.first_try_mm,
        tip_never_beyond_mm: plan.never_beyond_mm,
        two_steps: plan.two_steps,
        scatter_mm: plan.scatter_mm,
        allowed_mm: plan.allowed_mm,
    }
}

fn json_minutes_in(parts: MinutesIn) -> BTreeMap<&'static str, f64> {
    BTreeMap::from([
        ("touch_off", parts.touch_off),
        ("entry", parts.entry),
        ("full_metal", parts.full_metal),
        ("exit", parts.exit),
        ("overtravel", parts.overtravel),
        ("retract", parts.retract),
        ("changes", parts.changes),
    ])
}

fn json_setup(index: usize, setup: &SetupFigures, speaker: &Speaker<'_>) -> Setup {
    Setup {
        name: (index + 1).to_string(),
        directions: setup.directions,
        holes: setup.rows.iter().map(|row| mark(*row, speaker)).collect(),
        index_moves: setup.index_moves,
        tilts: setup.tilts,
        turned_over: setup.turned_over,
        travel_mm: setup.travel_mm,
        push_n: setup.held.map(|held| held.push_n),
        clamp_n: setup.held.map(|held| held.clamp_n),
        stop_n: setup.held.map(|held| held.stop_n),
    }
}

fn json_lot(lot: &LotFigures, shop: &Shop) -> Lot {
    Lot {
        quantity: lot.quantity,
        machine_hours: lot.machine_hours.into(),
        machine_hours_calibrated: lot.machine_hours_calibrated,
        labor_hours: lot.labor_hours.into(),
        labor_hours_calibrated: lot.labor_hours_calibrated,
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
                    fewest: electrodes.fewest,
                })
            })
            .collect(),
        guides: lot
            .guides
            .iter()
            .filter_map(|guides| {
                let guide = guides.guide.of(&shop.tables.guides)?;
                Some(LotGuides {
                    name: guide.name.clone(),
                    ends: guides.ends,
                    needed: guides.needed,
                })
            })
            .collect(),
    }
}

fn json_price(price: &PriceFigures, shop: &Shop) -> Price {
    let digits = shop.tables.rates.minor_digits;
    let plain = |amount| money_plain(amount, digits);
    let known_risk = price.risk.as_ref().filter(|_| price.calibrated);
    Price {
        currency: price.currency.clone(),
        offered_quantity: price.breaks.first().map(|offered| offered.quantity),
        // A percentage is said once the spread is the shop's own, and not before.
        chance_of_loss: known_risk.map(|risk| risk.below_full_cost),
        risk: price.risk.as_ref().map(|risk| Risk {
            chance_below_paid_out: known_risk.map(|risk| risk.below_paid_out),
            lot_at_a_tenth: risk.lot_at_a_tenth,
            each_at_a_tenth: risk.each_at_a_tenth,
            drivers: BTreeMap::from([
                ("burn", risk.drivers.burn),
                ("wear", risk.drivers.wear),
                ("handling", risk.drivers.handling),
                ("rest", risk.drivers.rest),
            ]),
            test_burns: risk
                .test_burns
                .iter()
                .map(|burn| TestBurn {
                    holes: burn.holes,
                    p10: burn.p10,
                    p90: burn.p90,
                })
                .collect(),
        }),
        margin: price.margin,
        markup: price.markup,
        lot_cost: price.lot_cost.into(),
        lot_cost_calibrated: price.calibrated,
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
                per_hole: offered.per_hole.map(plain),
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

fn json_start_hole(found: &StartHoleFigures) -> StartHole {
    StartHole {
        exit_mm: found.exits.map(|exits| Exit {
            smallest: exits.smallest_mm,
            expected: exits.expected_mm,
            largest: exits.largest_mm,
        }),
        needed_mm: found.needed_mm,
        reaches_mm: found.reaches_mm,
    }
}

/// The lower one first.
fn both(limits: Limits) -> [f64; 2] {
    [limits.lower, limits.upper]
}
