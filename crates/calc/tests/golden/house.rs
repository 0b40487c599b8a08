//! The shop and the jobs of the sheet, read from its files.

use std::fs;
use std::path::PathBuf;

use quillbore_calc::input::{Ends, HoleEnd, JobInput, Layer, RowInput};
use quillbore_calc::tables::{
    Deviations, Family, Guide, Machine, Material, Rates, StartValues, Tables, Tube, TubeMaterial,
};
use quillbore_calc::{Idx, Limits, RowId, Spread};
use serde_json::Value;

/// The shop of the sheet.
pub(crate) struct House {
    pub(crate) tables: Tables,
    families: Vec<String>,
    machines: Vec<String>,
}

impl House {
    pub(crate) fn read() -> Self {
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
                try_charge: None,
                minimum_charge: number(&rates["minimum"]),
                price_step: None,
                redo_share: number(&rates["redo"]),
                part_risk_share: number(&start["spoil_part"]),
            },
            start: start_values(start),
            lessons: Default::default(),
        };
        Self {
            tables,
            families,
            machines,
        }
    }

    pub(crate) fn job(&self, job: &Value) -> JobInput {
        let machine = text(&job["machine"]);
        JobInput {
            machine: (self.machines.iter())
                .position(|name| *name == machine)
                .map(Idx::new),
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
                    .map(Idx::new)
                    .unwrap(),
                thickness_mm: number(&layer["mm"]),
            })
            .collect();
        let yes = |key: &str| row[key].as_bool().unwrap_or(false);
        RowInput {
            id: RowId(id),
            count: row["holes"].as_u64().unwrap() as u32,
            limits_mm: Some(limits(&row["limits"])),
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
            tube: row["tube"]
                .as_str()
                .map(|name| Idx::find(&self.tables.tubes, |tube| tube.name == name).unwrap()),
            ..RowInput::default()
        }
    }
}

/// A file of the sheet.
pub(crate) fn read(file: &str) -> String {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../tests/golden");
    fs::read_to_string(folder.join(file)).unwrap()
}

pub(crate) fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

pub(crate) fn text(value: &Value) -> String {
    value.as_str().unwrap().into()
}

fn pair(value: &Value) -> [f64; 2] {
    [number(&value[0]), number(&value[1])]
}

fn limits(value: &Value) -> Limits {
    let [lower, upper] = pair(value);
    Limits { lower, upper }
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
        resistivity_ohm_cm: Some(Limits::new(2e-5, 1e-4)),
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
        kept: 0,
        stubs: vec![],
    }
}

fn guide(value: &Value) -> Guide {
    Guide {
        name: format!("guide {}", value["d"]),
        tube_mm: number(&value["d"]),
        life_holes: number(&value["life"]),
        price: number(&value["price"]),
        stock: None,
        kept_ends: 0,
    }
}

fn machine(name: &str, value: &Value) -> Machine {
    Machine {
        name: name.into(),
        part_mm: [800.0; 3],
        mass_kg: 1000.0,
        stroke_mm: number(&value["stroke"]),
        tube_mm: limits(&value["tube_mm"]),
        tube_length_mm: number(&value["tube_length"]),
        held_back_mm: number(&value["held_back"]),
        stand_off_mm: number(&value["stand_off"]),
        head: None,
        pressure_bar: 70.0,
        changer: value["changer"].as_bool().unwrap(),
        index_axis: false,
        tilt_deg: Some(Limits::new(0.0, 60.0)),
        tilts: None,
        table_rapid_mm_min: 3000.0,
        head_rapid_mm_min: number(&value["head_rapid"]),
        attended: number(&value["attended"]),
        rate_per_hour: number(&value["rate"]),
    }
}

fn start_values(start: &Value) -> StartValues {
    let seconds = |key: &str| {
        let Limits {
            lower: p10,
            upper: p90,
        } = limits(&start[key]);
        Spread::new(p10 / 60.0, p90 / 60.0).unwrap()
    };
    let of = |key: &str| band(&start[key]);
    let one = |key: &str| number(&start[key]);
    let gap = |row: &Value| {
        let spread = Spread::new(number(&row[1]), number(&row[2]));
        (number(&row[0]), spread.unwrap())
    };
    let deviation = |key: &str| number(&start["start_dev"][key]);
    let Limits {
        lower: handling_shop,
        upper: handling_machine,
    } = limits(&start["start_dev"]["handling"]);
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
        light_check_min: of("pin"),
        wire_check_min: of("pin"),
        air_check_min: of("pin"),
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
        wire_clearance_mm: 0.1,
        white_layer_mm: 0.03,
        changer_holds: 12.0,
        part_spacing_mm: 20.0,
        water_c: 20.0,
        pump_l_min: 5.0,
        least_gap_m_s: 0.3,
        overlap_mm: one("overlap"),
        broken: quillbore_calc::broken::Start::default(),
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
            handling_lot: 0.15,
            gap_shop: 0.25,
            gap_machine: 0.15,
            gap_size_class: 0.10,
            gap_lot: 0.10,
        },
    }
}
