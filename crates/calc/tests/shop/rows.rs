// An invented shop with start values of common practice (no source), and rows to drill in it. Also
// read into the documentation's examples.

use quillbore_calc::input::{JobInput, Layer, RowInput};
use quillbore_calc::tables::{
    Deviations, Family, Guide, Machine, Material, Rates, StartValues, Tables, Tube, TubeMaterial,
};
use quillbore_calc::{Idx, Limits, RowId, Spread};

/// Tool steel.
pub const STEEL: Idx<Material> = Idx::new(0);
/// Cemented carbide, which wants copper tubes.
pub const CARBIDE: Idx<Material> = Idx::new(1);
/// The common head.
pub const BENCH: Idx<Machine> = Idx::new(0);
/// The long head.
pub const LONG: Idx<Machine> = Idx::new(1);

pub fn spread(p10: f64, p90: f64) -> Spread {
    Spread::new(p10, p90).unwrap()
}

pub fn tables() -> Tables {
    let material = |name: &str, family, feed_mm_min, wear, tube_material| Material {
        name: name.into(),
        family,
        density_g_cm3: 8.0,
        resistivity_ohm_cm: Some(Limits::new(2e-5, 1e-4)),
        feed_mm_min,
        wear,
        tube_material,
        from_family: false,
        hazards: vec![],
    };
    let tube = |material, outer_mm: f64, channels, length_mm| Tube {
        name: format!("{material:?} {outer_mm} x {length_mm}, {channels}"),
        material,
        outer_mm,
        bore_mm: 0.35 * outer_mm,
        channels,
        length_mm,
        price: 2.0,
        stock: Some(20),
        kept: 0,
        stubs: vec![],
    };
    let sizes: Vec<f64> = (4..=40).map(|n| f64::from(n) / 20.0).collect();
    let mut tubes = vec![];
    for outer_mm in &sizes {
        for length_mm in [200.0, 400.0, 914.4] {
            tubes.push(tube(TubeMaterial::Brass, *outer_mm, 1, length_mm));
        }
        tubes.push(tube(TubeMaterial::Copper, *outer_mm, 1, 400.0));
        if *outer_mm >= 0.6 {
            tubes.push(tube(TubeMaterial::Brass, *outer_mm, 4, 400.0));
        }
    }
    let bench = Machine {
        name: "bench head".into(),
        part_mm: [400.0, 300.0, 200.0],
        mass_kg: 100.0,
        stroke_mm: 350.0,
        tube_mm: Limits::new(0.3, 3.0),
        tube_length_mm: 450.0,
        held_back_mm: 100.0,
        stand_off_mm: 8.0,
        head: None,
        pressure_bar: 60.0,
        changer: false,
        index_axis: false,
        tilt_deg: None,
        tilts: None,
        table_rapid_mm_min: 2000.0,
        head_rapid_mm_min: 1000.0,
        attended: 0.4,
        rate_per_hour: 60.0,
    };
    Tables {
        materials: vec![
            material(
                "tool steel",
                Family::ToolSteel,
                spread(15.0, 35.0),
                spread(0.4, 1.2),
                TubeMaterial::Brass,
            ),
            material(
                "carbide",
                Family::Carbide,
                spread(2.0, 10.0),
                spread(1.0, 4.0),
                TubeMaterial::Copper,
            ),
        ],
        guides: sizes
            .iter()
            .map(|size| Guide {
                name: format!("guide {size}"),
                tube_mm: *size,
                life_holes: 500.0,
                price: 40.0,
                stock: Some(1),
                kept_ends: 0,
            })
            .collect(),
        tubes,
        machines: vec![
            bench.clone(),
            Machine {
                name: "long head".into(),
                stroke_mm: 720.0,
                tube_length_mm: 914.4,
                held_back_mm: 203.2,
                stand_off_mm: 10.0,
                head: None,
                changer: true,
                tube_mm: Limits::new(0.2, 6.0),
                ..bench
            },
        ],
        rates: Rates {
            currency: "EUR".into(),
            minor_digits: 2,
            labor_per_hour: 45.0,
            dielectric_per_hour: 3.0,
            power_per_hour: 2.0,
            margin: 0.2,
            minimum_charge: 80.0,
            try_charge: None,
            price_step: None,
            redo_share: 0.05,
            part_risk_share: 0.01,
        },
        start: start_values(),
        lessons: Default::default(),
    }
}

pub fn start_values() -> StartValues {
    StartValues {
        gap_mm: vec![
            (0.3, spread(0.02, 0.05)),
            (1.0, spread(0.03, 0.08)),
            (3.0, spread(0.05, 0.12)),
            (6.0, spread(0.08, 0.20)),
        ],
        feed_by_diameter: vec![
            (0.2, 0.4),
            (0.3, 0.55),
            (0.5, 0.8),
            (0.8, 1.0),
            (1.2, 1.0),
            (2.0, 0.6),
            (3.0, 0.35),
            (6.0, 0.12),
        ],
        wear_by_diameter: vec![(0.2, 2.0), (0.3, 1.6), (0.5, 1.3), (1.0, 1.0), (3.0, 0.7)],
        wear_at_100_diameters: spread(1.0, 1.5),
        depth_s: spread(60.0, 100.0),
        depth_m: 1.5,
        zone_feed: 0.5,
        channels_feed: 0.8,
        channels_wear: 1.2,
        channels_from_mm: 0.6,
        overtravel_least_mm: 1.0,
        overtravel_diameters: 2.5,
        overtravel_feed: 3.0,
        effort_by_width: vec![(0.02, 0.5), (0.05, 0.8), (0.1, 1.0)],
        size_scatter_mm: vec![(0.5, 0.006), (1.0, 0.010), (3.0, 0.015), (6.0, 0.025)],
        deepest_diameters: 200.0,
        touch_off_min: spread(5.0 / 60.0, 15.0 / 60.0),
        index_min: spread(3.0 / 60.0, 10.0 / 60.0),
        tilt_min: spread(10.0, 15.0),
        turn_over_min: spread(15.0, 30.0),
        change_by_hand_min: spread(2.0, 3.0),
        change_thin_min: spread(4.0, 6.0),
        change_by_changer_min: spread(0.5, 0.5),
        guide_change_min: spread(5.0, 10.0),
        dressing_min: spread(0.5, 1.0),
        dressing_mm: 3.0,
        setup_min: spread(30.0, 60.0),
        first_piece_min: spread(5.0, 10.0),
        load_min: spread(2.0, 5.0),
        receive_min: spread(10.0, 20.0),
        wash_min: spread(1.0, 3.0),
        pin_check_min: spread(0.1, 0.25),
        light_check_min: spread(0.05, 0.1),
        wire_check_min: spread(0.1, 0.3),
        air_check_min: spread(0.2, 0.5),
        pack_min: spread(0.5, 2.0),
        tube_tolerance_mm: 0.01,
        breakage: spread(0.002, 0.01),
        breakage_thin: spread(0.01, 0.03),
        breakage_thin_deep: spread(0.02, 0.06),
        thin_deep_diameters: 30.0,
        breakage_worth_holes: 50.0,
        part_risk_hole: 0.000_002,
        thin_tube_mm: 0.3,
        drift_mm_per_100: spread(0.05, 0.2),
        wire_clearance_mm: 0.1,
        white_layer_mm: 0.03,
        changer_holds: 12.0,
        part_spacing_mm: 20.0,
        water_c: 20.0,
        pump_l_min: 5.0,
        least_gap_m_s: 0.3,
        overlap_mm: 1.0,
        broken: quillbore_calc::broken::Start::default(),
        taper_mm_per_100: 0.03,
        hole_scatter: 0.15,
        deviations: Deviations {
            shop: 0.35,
            machine: 0.15,
            family: 0.30,
            grade: 0.20,
            electrode: 0.10,
            size_class: 0.15,
            by_diameter: 0.20,
            by_depth: 0.15,
            lot: 0.27,
            burn_and_wear: 0.5,
            handling_shop: 0.35,
            handling_machine: 0.20,
            handling_lot: 0.15,
            gap_shop: 0.25,
            gap_machine: 0.15,
            gap_size_class: 0.10,
            gap_lot: 0.10,
        },
    }
}

pub fn job(rows: Vec<RowInput>) -> JobInput {
    JobInput {
        material: Some(STEEL),
        machine: Some(BENCH),
        quantity: Some(10),
        part_mm: Some([100.0, 100.0, 50.0]),
        mass_kg: Some(2.0),
        part_value: Some(100.0),
        rows,
        ..JobInput::default()
    }
}

/// A straight through hole with wide limits about `hole_mm`.
pub fn through(hole_mm: f64, depth_mm: f64) -> RowInput {
    RowInput {
        id: RowId(7),
        count: 12,
        limits_mm: Some(Limits::new(hole_mm - 0.1, hole_mm + 0.1)),
        depth_mm: Some(depth_mm),
        ..RowInput::default()
    }
}

/// Layers of a material and a thickness [mm] each.
pub fn layers(of: &[(Idx<Material>, f64)]) -> Vec<Layer> {
    of.iter()
        .map(|(material, thickness_mm)| Layer {
            material: *material,
            thickness_mm: *thickness_mm,
        })
        .collect()
}
