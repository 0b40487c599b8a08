//! Four jobs worked by hand: every figure of the sheet in `tests/golden` that the crate computes.
//!
//! The shop, the jobs and the figures are read from the files of the sheet, which a script that knows
//! nothing of this crate wrote; see `tests/golden/recompute.py`.
#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests stop the test as tests do"
)]

mod house;

use std::collections::BTreeMap;

use quillbore_calc::assemble::figures_now;
use quillbore_calc::hole::{Context, FeedWear};
use quillbore_calc::input::JobInput;
use quillbore_calc::job_figures::JobFigures;
use quillbore_calc::tables::Tables;
use serde_json::Value;

use house::{House, list, read, text};

/// Figures are printed with seven digits, chances and what goes by them with seven after the point.
const LAST_DIGIT: f64 = 1e-6;
const LAST_OF_CHANCE: f64 = 1e-7;
const CHANCES: [&str; 4] = ["held", "p_in", "p_over", "outside"];

#[test]
fn every_figure_of_the_sheet_to_its_last_digit() {
    let house = House::read();
    let mut sheet: BTreeMap<String, Vec<(String, String)>> = BTreeMap::new();
    for line in read("figures.csv").lines().skip(1) {
        let [job, figure, value] = line.split(',').collect::<Vec<_>>().try_into().unwrap();
        let figures = sheet.entry(job.into()).or_default();
        figures.push((figure.into(), value.into()));
    }
    assert_eq!(sheet.len(), 5);
    let mut differ = Vec::new();
    for (job, figures) in &sheet {
        let found = found(&house, job);
        for (figure, printed) in figures {
            match found.get(figure) {
                Some(found) if alike(figure, found, printed) => {}
                found => differ.push(format!("{job} {figure}: {printed}, here {found:?}")),
            }
        }
        // What the sheet does not name is nothing in that job.
        let unnamed = found
            .iter()
            .filter(|(name, _)| figures.iter().all(|(figure, _)| figure != *name));
        differ.extend(
            unnamed
                .filter(|(_, value)| *value != "0")
                .map(|(name, value)| format!("{job} {name}: not on the sheet, here {value}")),
        );
    }
    assert!(differ.is_empty(), "{}", differ.join("\n"));
}

/// True where a figure is the printed one to its last digit; texts are the same to the letter.
fn alike(figure: &str, found: &str, printed: &str) -> bool {
    let chance = CHANCES.iter().any(|chance| figure.ends_with(chance));
    match (found.parse::<f64>(), printed.parse::<f64>()) {
        (Ok(found), Ok(printed)) if chance => (found - printed).abs() <= LAST_OF_CHANCE,
        (Ok(found), Ok(printed)) => (found - printed).abs() <= LAST_DIGIT * printed.abs(),
        _ => found == printed,
    }
}

/// Every figure of a job under the name that the sheet gives it.
fn found(house: &House, name: &str) -> BTreeMap<String, String> {
    let job: Value = serde_json::from_str(&read(&format!("jobs/{name}.json"))).unwrap();
    let input = house.job(&job);
    let figures = figures_now(&input, &house.tables);
    let mut found = BTreeMap::new();
    let mut put = |name: String, value: f64| {
        found.insert(name, value.to_string());
    };
    row_figures(&job, &input, &figures, &house.tables, &mut put);
    lot(&figures, &house.tables, &mut put);
    price(&figures, &mut put);
    for (row, hole) in list(&job["rows"]).iter().zip(&figures.holes) {
        let tube = &house.tables.tubes[hole.tube.unwrap().at()].name;
        found.insert(format!("row.{}.tube", text(&row["name"])), tube.clone());
    }
    found
}

fn row_figures(
    job: &Value,
    input: &JobInput,
    figures: &JobFigures,
    tables: &Tables,
    put: &mut impl FnMut(String, f64),
) {
    let context = Context::new(input, tables);
    for ((row, typed), hole) in list(&job["rows"])
        .iter()
        .zip(&input.rows)
        .zip(&figures.holes)
    {
        let name = text(&row["name"]);
        let mut put = |figure: &str, value: f64| put(format!("row.{name}.{figure}"), value);
        let chance = hole.first_choice.unwrap();
        put("held", hole.held.unwrap());
        put("p_in", chance.inside);
        put("p_over", chance.over);
        put("outside", hole.outside_in_lot.unwrap());
        let minutes = hole.minutes_in.unwrap();
        put("touch_off", minutes.touch_off);
        put("entry", minutes.entry);
        put("full_metal", minutes.full_metal);
        put("exit", minutes.exit);
        put("overtravel", minutes.overtravel);
        put("retract", minutes.retract);
        put("changes", minutes.changes);
        put("minutes", hole.minutes.unwrap().p50);
        put("wear", hole.wear_mm.unwrap());
        let FeedWear { feed: burn, wear } = context.drill(typed).unwrap().sigmas();
        put("s_burn", burn);
        put("s_wear", wear);
        if let Some(plan) = hole.depth_plan {
            put("first_try", plan.first_try_mm);
            put("never_beyond", plan.never_beyond_mm);
            put("scatter", plan.scatter_mm);
            put("allowed", plan.allowed_mm);
            put("two_steps", f64::from(u8::from(plan.two_steps)));
        }
    }
}

fn lot(figures: &JobFigures, tables: &Tables, put: &mut impl FnMut(String, f64)) {
    let lot = figures.lot.as_ref().unwrap();
    for tube in &lot.electrodes {
        let name = &tables.tubes[tube.tube.at()].name;
        let mut put = |figure: &str, value: f64| put(format!("tube.{name}.{figure}"), value);
        put("needed", f64::from(tube.needed));
        put("if_wear_high", f64::from(tube.if_wear_high));
        put("spares", f64::from(tube.spares));
        put("kit", f64::from(tube.kit));
        put("breakages", tube.breakages);
    }
    let (machine, labor) = (&lot.machine, &lot.labor);
    let mut all = |side: &str, figures: &[(&str, f64)]| {
        for (figure, value) in figures {
            put(format!("{side}.{figure}"), *value);
        }
    };
    all(
        "machine",
        &[
            ("set_up", machine.set_up),
            ("first_piece", machine.first_piece),
            ("load", machine.load),
            ("index", machine.index),
            ("turn_over", machine.turn_over),
            ("travel", machine.travel),
            ("holes", machine.holes),
            ("electrode_changes", machine.electrode_changes),
            ("guide_changes", machine.guide_changes),
            ("dressing", machine.dressing),
            ("breakages", machine.breakages),
        ],
    );
    all(
        "labor",
        &[
            ("receive", labor.receive),
            ("set_up", labor.set_up),
            ("handling", labor.handling),
            ("stand_by", labor.stand_by),
            ("wash", labor.wash),
            ("inspect", labor.inspect),
            ("pack", labor.pack),
        ],
    );
    all(
        "hours",
        &[
            ("machine", lot.machine_hours.p50),
            ("labor", lot.labor_hours.p50),
        ],
    );
}

fn price(figures: &JobFigures, put: &mut impl FnMut(String, f64)) {
    let price = figures.price.as_ref().unwrap();
    let cost = &price.cost;
    for (figure, value) in [
        ("cost.machine", cost.machine),
        ("cost.labor", cost.labor),
        ("cost.electrodes", cost.electrodes),
        ("cost.guides", cost.guides),
        ("cost.dielectric", cost.dielectric),
        ("cost.power", cost.power),
        ("cost.outside", cost.outside),
        ("cost.redo", cost.redo),
        ("cost.part_risk", cost.part_risk),
        ("cost.not_yet_known", cost.not_yet_known),
        ("cost.median", price.lot_cost.p50),
        ("cost.expected", price.expected_cost),
        ("price.unit", f64::try_from(price.breaks[0].each).unwrap()),
        ("price.lot", f64::try_from(price.breaks[0].lot).unwrap()),
    ] {
        put(figure.into(), value);
    }
}
