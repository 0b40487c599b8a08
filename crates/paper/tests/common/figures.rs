//! Figures of a sample, set by hand.

use std::sync::Arc;

use quillbore_calc::entry::AtEnds;
use quillbore_calc::input::Checked;
use quillbore_calc::job_figures::{
    Break, CostLines, ElectrodeFigures, ElectrodeLoad, HoleFigures, HoleSteps, LaborMinutes,
    LotFigures, MachineMinutes, PriceFigures, SetupFigures, Verdict,
};
use quillbore_calc::mount::Mount;
use quillbore_calc::tables::Tube;
use quillbore_calc::{Band, Idx, JobFigures, RowId, Tables};
use rust_decimal::Decimal;

use super::spec::HoleSpec;

pub(super) fn figures(holes: &[HoleSpec], ids: &[RowId], tables: &Tables) -> JobFigures {
    let rows: Vec<HoleFigures> = holes
        .iter()
        .zip(ids)
        .map(|(hole, id)| hole_figures(hole, *id, tables))
        .collect();
    let mut electrodes: Vec<ElectrodeFigures> = Vec::new();
    for (hole, id) in holes.iter().zip(ids) {
        let tube = tube_named(tables, hole.tube);
        if electrodes.iter().any(|known| known.tube == tube) {
            continue;
        }
        electrodes.push(ElectrodeFigures {
            tube,
            ends: 0,
            needed: 9,
            at_least: 9,
            if_wear_high: 11,
            kit: 12,
            breakages: 0.5,
            spares: 1,
            band: band(9.0),
            plan: vec![
                ElectrodeLoad {
                    times: 8,
                    holes: vec![(*id, 11), (*ids.last().unwrap(), 2)],
                    setups: vec![0, 0],
                    left_mm: 12.0,
                },
                ElectrodeLoad {
                    times: 1,
                    holes: vec![(*id, 4)],
                    setups: vec![0],
                    left_mm: 131.0,
                },
            ],
            fewest: 9,
        });
    }
    let total: f64 = holes
        .iter()
        .map(|hole| hole.minutes * f64::from(hole.places) * 25.0)
        .sum();
    JobFigures {
        holes: rows.into_iter().map(Arc::new).collect(),
        setups: vec![
            SetupFigures {
                held: None,
                directions: 36,
                rows: ids.to_vec(),
                holes: holes.iter().map(|hole| hole.places).sum(),
                turned_over: false,
                index_moves: 35,
                tilts: 0,
                guide_changes: 1,
                passes: 2,
                travel_mm: Some(812.0),
                mount: Mount::Lying([0.0, 0.0, 1.0]),
                order: Vec::new(),
            },
            SetupFigures {
                held: None,
                directions: 1,
                rows: vec![ids[0]],
                holes: 4,
                turned_over: true,
                index_moves: 0,
                tilts: 1,
                guide_changes: 0,
                passes: 1,
                mount: Mount::Face {
                    up: [0.0, 0.0, 1.0],
                    toward: [1.0, 0.0, 0.0],
                },
                travel_mm: None,
                order: Vec::new(),
            },
        ],
        lot: Some(LotFigures {
            quantity: 25,
            hole_minutes: Vec::new(),
            machine_hours: band(total / 60.0),
            labor_hours: band(total / 120.0),
            machine_hours_calibrated: false,
            labor_hours_calibrated: false,
            machine: MachineMinutes {
                set_up: 45.0,
                first_piece: 8.0,
                load: 50.0,
                holes: total,
                ..MachineMinutes::default()
            },
            labor: LaborMinutes {
                receive: 12.0,
                masking: 0.0,
                wash: 60.0,
                inspect: 240.0,
                pack: 50.0,
                ..LaborMinutes::default()
            },
            electrodes,
            guides: Vec::new(),
            part_by_part: vec![true, false],
        }),
        price: Some(PriceFigures {
            currency: "USD".to_owned(),
            cost: CostLines {
                machine: 800.0,
                ..CostLines::default()
            },
            not_yet_known_share: 0.0,
            lot_cost: band(900.0),
            calibrated: false,
            risk: None,
            expected_cost: 990.0,
            breaks: [(25, 4820), (50, 4430), (100, 4175)]
                .into_iter()
                .map(|(quantity, cents)| {
                    let each = Decimal::new(cents, 2);
                    Break {
                        quantity,
                        unit_cost: 33.7,
                        computed_each: each,
                        each,
                        lot: each * Decimal::from(quantity),
                        minimum: quantity == 25,
                        overruled: false,
                        per_hole: None,
                    }
                })
                .collect(),
            one_off: vec![
                ("fixture".to_owned(), Decimal::new(18000, 2)),
                ("test piece".to_owned(), Decimal::new(9000, 2)),
            ],
            margin: 0.3,
            markup: 0.4286,
        }),
        findings: Vec::new(),
        settled: true,
    }
}

fn hole_figures(hole: &HoleSpec, row: RowId, tables: &Tables) -> HoleFigures {
    let tube = tube_named(tables, hole.tube);
    let outer = tables.tubes[tube.at()].outer_mm;
    let usable = tables.tubes[tube.at()].length_mm - 95.0;
    HoleFigures {
        row,
        steps: HoleSteps::default().into(),
        places: hole.places,
        limits_mm: Some(hole.limits),
        checked: Checked {
            by_pin: true,
            proof: None,
        },
        start_hole: None,
        depth_mm: Some(hole.depth),
        tilt_deg: hole.tilt,
        tube: Some(tube),
        guide: Idx::find(&tables.guides, |guide| (guide.tube_mm - outer).abs() < 1e-9),
        gap_mm: None,
        size_mm: Some(hole.limits),
        first_choice: None,
        held: None,
        bought: None,
        outside_in_lot: None,
        neighbors: Vec::new(),
        depth_plan: None,
        verdict: Some(Verdict::Comfortable),
        feed_mm_min: Some(19.0),
        wear_ratio: Some(0.9),
        minutes: Some(band(hole.minutes)),
        minutes_in: None,
        zones_mm: None,
        mouth_mm: None,
        wear_mm: Some(hole.wear),
        wear_high_mm: Some(hole.wear * 1.6),
        dressings: 0.0,
        overtravel_mm: Some(2.0),
        target_depth_mm: Some(hole.depth + 10.0),
        machine_depth_mm: Some(hole.depth + hole.wear + 2.0),
        half_settings_mm: None,
        touch_mm: AtEnds::default(),
        behind_mm: None,
        stand_off_mm: None,
        flush: None,
        burnt: None,
        push_n: None,
        usable_mm: Some(usable),
        mounted_mm: None,
        reach_one_mm: Some(160.0),
        limit_mm: Some(305.0),
        electrodes_per_hole: Some(if hole.depth > 150.0 { 2 } else { 1 }),
        ends: None,
        own: None,
        findings: Vec::new(),
    }
}

fn band(p50: f64) -> Band {
    Band {
        p10: p50 * 0.7,
        p50,
        p90: p50 * 1.5,
    }
}

fn tube_named(tables: &Tables, name: &str) -> Idx<Tube> {
    match Idx::find(&tables.tubes, |tube| tube.name == name) {
        Some(tube) => tube,
        None => panic!("no tube {name}"),
    }
}
