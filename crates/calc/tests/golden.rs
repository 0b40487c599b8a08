//! Four jobs worked by hand: every figure of the sheet in `tests/golden` that the crate computes.
//!
//! The shop, the jobs and the figures are read from the files of the sheet, which a script that knows
//! nothing of this crate wrote; see `tests/golden/recompute.py`.

use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;

use quillbore_calc::assemble::figures_now;
use quillbore_calc::hole::Context;
use quillbore_calc::input::{Ends, HoleEnd, JobInput, Layer, RowInput};
use quillbore_calc::job_figures::JobFigures;
use quillbore_calc::tables::{
    Deviations, Family, Guide, Machine, Material, Rates, StartValues, Tables, Tube, TubeMaterial,
};
use quillbore_calc::{RowId, Spread};
use serde_json::Value;

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
        let found = house.found(job);
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

fn read(file: &str) -> String {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../tests/golden");
    fs::read_to_string(folder.join(file)).unwrap()
}

/// The shop of the sheet.
struct House {
    tables: Tables,
    families: Vec<String>,
    machines: Vec<String>,
}

impl House {
    fn read() -> Self {
        let house: Value = serde_json::from_str(&read("house.json")).unwrap();
        let keys = |of: &str| house[of].as_object().unwrap().keys().cloned().collect();
        let families: Vec<String> = keys("families");
        let machines: Vec<String> = keys("machines");
        let start = &house["start"];
        let rates = &house["rates"];
        let tables = Tables {
            materials: families
                .iter()
                .map(|name| material(name, &house["families"][name]))
                .collect(),
            tubes: list(&house["tubes"]).iter().map(tube).collect(),
            guides: list(&house["guides"]).iter().map(guide).collect(),
            machines: machines
                .iter()
                .map(|name| machine(name, &house["machines"][name]))
                .collect(),
            rates: Rates {
                currency: "USD".into(),
                minor_digits: 2,
                labor_per_hour: number(&rates["labor"]),
                dielectric_per_hour: number(&rates["dielectric"]),
                power_per_hour: number(&rates["power"]),
                margin: number(&rates["margin"]),
                minimum_charge: number(&rates["minimum"]),
                redo_share: number(&rates["redo"]),
                part_risk_share: number(&start["spoil_part"]),
            },
            start: start_values(start),
        };
        Self {
            tables,
            families,
            machines,
        }
    }

    /// Every figure of a job under the name that the sheet gives it.
    fn found(&self, name: &str) -> BTreeMap<String, String> {
        let job: Value = serde_json::from_str(&read(&format!("jobs/{name}.json"))).unwrap();
        let input = self.job(&job);
        let figures = figures_now(&input, &self.tables);
        let mut found = BTreeMap::new();
        let mut put = |name: String, value: f64| {
            found.insert(name, value.to_string());
        };
        self.rows(&job, &input, &figures, &mut put);
        lot(&figures, &self.tables, &mut put);
        price(&figures, &mut put);
        for (row, hole) in list(&job["rows"]).iter().zip(&figures.holes) {
            let tube = &self.tables.tubes[hole.tube.unwrap()].name;
            found.insert(format!("row.{}.tube", text(&row["name"])), tube.clone());
        }
        found
    }

    fn job(&self, job: &Value) -> JobInput {
        let machine = text(&job["machine"]);
        JobInput {
            machine: self.machines.iter().position(|name| *name == machine),
            quantity: job["parts"].as_u64().map(|parts| parts as u32),
            part_mm: Some([100.0, 100.0, 50.0]),
            mass_kg: Some(2.0),
            part_value: job["part_value"].as_f64(),
            liability_cap: job["cap"].as_f64(),
            rows: (0..)
                .zip(list(&job["rows"]))
                .map(|(id, row)| self.row(id, row))
                .collect(),
            ..JobInput::default()
        }
    }

    fn row(&self, id: u32, row: &Value) -> RowInput {
        let layers: Vec<Layer> = list(&row["layers"])
            .iter()
            .map(|layer| Layer {
                material: (self.families.iter())
                    .position(|name| *name == text(&layer["family"]))
                    .unwrap(),
                thickness_mm: number(&layer["mm"]),
            })
            .collect();
        let yes = |key: &str| row[key].as_bool().unwrap_or(false);
        RowInput {
            id: RowId(id),
            count: row["holes"].as_u64().unwrap() as u32,
            limits_mm: Some(pair(&row["limits"])),
            depth_mm: Some(layers.iter().map(|layer| layer.thickness_mm).sum()),
            end: match (yes("blind"), yes("both_open")) {
                (true, _) => HoleEnd::Blind,
                (_, true) => HoleEnd::Through,
                _ => HoleEnd::Into,
            },
            tilt_deg: row["entry_deg"].as_f64().unwrap_or(0.0),
            layers,
            ends: match row["ends"].as_u64() {
                Some(1) => Some(Ends::One),
                Some(2) => Some(Ends::Both),
                _ => None,
            },
            tube: row["tube"].as_str().map(|name| {
                let mut tubes = self.tables.tubes.iter();
                tubes.position(|tube| tube.name == name).unwrap()
            }),
            ..RowInput::default()
        }
    }

    fn rows(
        &self,
        job: &Value,
        input: &JobInput,
        figures: &JobFigures,
        put: &mut impl FnMut(String, f64),
    ) {
        let context = Context::new(input, &self.tables);
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
            let [burn, wear] = context.drill(typed).unwrap().sigmas();
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
}

fn lot(figures: &JobFigures, tables: &Tables, put: &mut impl FnMut(String, f64)) {
    let lot = figures.lot.as_ref().unwrap();
    for tube in &lot.electrodes {
        let name = &tables.tubes[tube.tube].name;
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

fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

fn text(value: &Value) -> String {
    value.as_str().unwrap().into()
}

fn pair(value: &Value) -> [f64; 2] {
    [number(&value[0]), number(&value[1])]
}

fn band(value: &Value) -> Spread {
    let [p10, p90] = pair(value);
    Spread::new(p10, p90).unwrap()
}

fn points(value: &Value) -> Vec<(f64, f64)> {
    list(value).iter().map(pair).map(|[x, y]| (x, y)).collect()
}

fn stuff(value: &Value) -> TubeMaterial {
    match value.as_str().unwrap() {
        "Brass" => TubeMaterial::Brass,
        "Copper" => TubeMaterial::Copper,
        other => unreachable!("{other}"),
    }
}

fn material(name: &str, value: &Value) -> Material {
    let family = match name {
        "ToolSteel" => Family::ToolSteel,
        "Stainless" => Family::Stainless,
        "Carbide" => Family::Carbide,
        other => unreachable!("{other}"),
    };
    Material {
        name: name.into(),
        family,
        density_g_cm3: 8.0,
        resistivity_ohm_cm: Some([2e-5, 1e-4]),
        feed_mm_min: band(&value["feed"]),
        wear: band(&value["wear"]),
        tube_material: stuff(&value["tube"]),
        from_family: false,
        hazards: vec![],
    }
}

fn tube(value: &Value) -> Tube {
    Tube {
        name: text(&value["name"]),
        material: stuff(&value["material"]),
        outer_mm: number(&value["d"]),
        bore_mm: number(&value["bore"]),
        channels: value["channels"].as_u64().unwrap() as u8,
        length_mm: number(&value["length"]),
        price: number(&value["price"]),
        stock: None,
    }
}

fn guide(value: &Value) -> Guide {
    Guide {
        name: format!("guide {}", value["d"]),
        tube_mm: number(&value["d"]),
        life_holes: number(&value["life"]),
        price: number(&value["price"]),
        stock: None,
    }
}

fn machine(name: &str, value: &Value) -> Machine {
    Machine {
        name: name.into(),
        part_mm: [800.0; 3],
        mass_kg: 1000.0,
        stroke_mm: number(&value["stroke"]),
        tube_mm: pair(&value["tube_mm"]),
        tube_length_mm: number(&value["tube_length"]),
        held_back_mm: number(&value["held_back"]),
        stand_off_mm: number(&value["stand_off"]),
        pressure_bar: 70.0,
        changer: value["changer"].as_bool().unwrap(),
        index_axis: false,
        tilt_deg: Some([0.0, 60.0]),
        table_rapid_mm_min: 3000.0,
        head_rapid_mm_min: number(&value["head_rapid"]),
        attended: number(&value["attended"]),
        rate_per_hour: number(&value["rate"]),
    }
}

fn start_values(start: &Value) -> StartValues {
    let seconds = |key: &str| {
        let [p10, p90] = pair(&start[key]);
        Spread::new(p10 / 60.0, p90 / 60.0).unwrap()
    };
    let of = |key: &str| band(&start[key]);
    let one = |key: &str| number(&start[key]);
    let gap = |row: &Value| {
        let spread = Spread::new(number(&row[1]), number(&row[2]));
        (number(&row[0]), spread.unwrap())
    };
    let deviation = |key: &str| number(&start["start_dev"][key]);
    let [handling_shop, handling_machine] = pair(&start["start_dev"]["handling"]);
    StartValues {
        gap_mm: list(&start["gap_mm"]).iter().map(gap).collect(),
        feed_by_diameter: points(&start["feed_by_d"]),
        wear_by_diameter: points(&start["wear_by_d"]),
        wear_at_100_diameters: of("wear_at_100"),
        depth_s: of("depth_s"),
        depth_m: one("depth_m"),
        zone_feed: one("zone_feed"),
        channels_feed: one("channels_feed"),
        channels_wear: one("channels_wear"),
        channels_from_mm: one("channels_from"),
        overtravel_least_mm: one("overtravel_least"),
        overtravel_diameters: one("overtravel_d"),
        overtravel_feed: one("overtravel_feed"),
        effort_by_width: points(&start["effort"]),
        size_scatter_mm: points(&start["size_scatter"]),
        deepest_diameters: 200.0,
        touch_off_min: seconds("touch_off_s"),
        index_min: seconds("index_s"),
        tilt_min: of("tilt"),
        turn_over_min: of("turn_over"),
        change_by_hand_min: of("change_hand"),
        change_thin_min: of("change_thin"),
        change_by_changer_min: of("change_changer"),
        guide_change_min: of("guide_change"),
        dressing_min: of("dressing"),
        dressing_mm: one("dressing_mm"),
        setup_min: of("setup"),
        first_piece_min: of("first_piece"),
        load_min: of("load"),
        receive_min: of("receive"),
        wash_min: of("wash"),
        pin_check_min: of("pin"),
        pack_min: of("pack"),
        tube_tolerance_mm: one("tube_tolerance"),
        breakage: of("breakage"),
        breakage_thin: of("breakage_thin"),
        breakage_thin_deep: of("breakage_thin_deep"),
        thin_deep_diameters: one("breakage_deep_ld"),
        breakage_worth_holes: one("breakage_prior"),
        part_risk_hole: one("spoil_hole"),
        thin_tube_mm: one("thin"),
        drift_mm_per_100: Spread::new(0.05, 0.2).unwrap(),
        overlap_mm: one("overlap"),
        taper_mm_per_100: one("taper_per_100"),
        hole_scatter: one("hole_scatter"),
        deviations: Deviations {
            shop: deviation("shop"),
            machine: deviation("machine"),
            family: deviation("family"),
            grade: deviation("grade"),
            electrode: deviation("electrode"),
            size_class: deviation("size_class"),
            by_diameter: deviation("slope_ln_d"),
            by_depth: deviation("slope_ln_ld"),
            lot: deviation("lot"),
            burn_and_wear: 0.5,
            handling_shop,
            handling_machine,
            // Together 0.308, the least that the sheet allows; every band of the sheet is wider.
            gap_shop: 0.25,
            gap_machine: 0.15,
            gap_size_class: 0.10,
        },
    }
}
