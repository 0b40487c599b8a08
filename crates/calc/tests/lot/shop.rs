//! An invented shop for the tests; round numbers, so that sums can be done by hand.

use quillbore_calc::tables::{
    Deviations, Family, Guide, Machine, Material, Rates, StartValues, Tables, Tube, TubeMaterial,
};
use quillbore_calc::{Limits, Spread};

const fn spread(p10: f64, p90: f64) -> Spread {
    Spread { p10, p90 }
}

/// A spread whose median is `median` and whose P90 is `ratio` times that.
pub(crate) fn about(median: f64, ratio: f64) -> Spread {
    spread(median / ratio, median * ratio)
}

pub(crate) fn rates() -> Rates {
    Rates {
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
    }
}

pub(crate) fn machine() -> Machine {
    Machine {
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
    }
}

fn tube(outer_mm: f64) -> Tube {
    Tube {
        name: format!("brass {outer_mm}"),
        material: TubeMaterial::Brass,
        outer_mm,
        bore_mm: outer_mm * 0.35,
        channels: 1,
        length_mm: 400.0,
        price: 2.0,
        stock: Some(20),
        kept: 0,
        stubs: vec![],
    }
}

fn guide(tube_mm: f64) -> Guide {
    Guide {
        name: format!("guide {tube_mm}"),
        tube_mm,
        life_holes: 500.0,
        price: 40.0,
        stock: Some(1),
        kept_ends: 0,
    }
}

pub(crate) fn tables() -> Tables {
    let sizes = [0.5, 0.7, 0.9, 1.0, 1.2, 1.5, 2.0];
    Tables {
        materials: vec![
            Material {
                name: "tool steel".into(),
                family: Family::ToolSteel,
                density_g_cm3: 7.8,
                resistivity_ohm_cm: Some(Limits::new(2e-5, 6e-5)),
                feed_mm_min: spread(15.0, 35.0),
                wear: spread(0.4, 1.2),
                tube_material: TubeMaterial::Brass,
                from_family: false,
                hazards: vec![],
            },
            Material {
                name: "nickel alloy".into(),
                family: Family::Nickel,
                density_g_cm3: 8.2,
                resistivity_ohm_cm: Some(Limits::new(1e-4, 1.3e-4)),
                feed_mm_min: spread(8.0, 30.0),
                wear: spread(0.5, 1.5),
                tube_material: TubeMaterial::Brass,
                from_family: false,
                hazards: vec![],
            },
        ],
        tubes: sizes.into_iter().map(tube).collect(),
        guides: sizes.into_iter().map(guide).collect(),
        machines: vec![
            machine(),
            Machine {
                name: "rotary head".into(),
                changer: true,
                index_axis: true,
                tilt_deg: Some(Limits::new(0.0, 45.0)),
                tilts: None,
                ..machine()
            },
        ],
        rates: rates(),
        start: start(),
        lessons: Default::default(),
    }
}

pub(crate) fn start() -> StartValues {
    StartValues {
        gap_mm: vec![
            (0.3, spread(0.02, 0.05)),
            (1.0, spread(0.03, 0.08)),
            (3.0, spread(0.05, 0.12)),
        ],
        feed_by_diameter: vec![(0.3, 0.55), (0.5, 0.8), (0.8, 1.0), (1.2, 1.0), (2.0, 0.6)],
        wear_by_diameter: vec![(0.3, 1.6), (0.5, 1.3), (1.0, 1.0), (3.0, 0.7)],
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
        touch_off_min: about(0.15, 1.6),
        index_min: about(0.1, 1.5),
        tilt_min: about(12.0, 1.2),
        turn_over_min: about(20.0, 1.4),
        change_by_hand_min: about(2.5, 1.2),
        change_thin_min: about(5.0, 1.2),
        change_by_changer_min: about(0.5, 1.2),
        guide_change_min: about(7.0, 1.4),
        dressing_min: about(0.7, 1.4),
        dressing_mm: 3.0,
        setup_min: about(40.0, 1.4),
        first_piece_min: about(7.0, 1.4),
        load_min: about(3.0, 1.5),
        receive_min: about(10.0, 1.5),
        wash_min: about(2.0, 1.5),
        pin_check_min: about(0.25, 1.5),
        light_check_min: about(0.1, 1.5),
        wire_check_min: about(0.2, 1.5),
        air_check_min: about(0.4, 1.5),
        pack_min: about(1.0, 1.5),
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
        taper_mm_per_100: 0.02,
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
