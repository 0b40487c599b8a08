//! Rows of holes and jobs of an invented shop, for the tests.

use quillbore_calc::input::{Ends, HoleEnd, JobInput, Place, RowId, RowInput, Surface};
use quillbore_calc::job_figures::HoleFigures;
use quillbore_calc::tables::Machine;

pub(crate) fn machine() -> Machine {
    Machine {
        name: "bench head".into(),
        part_mm: [400.0, 300.0, 200.0],
        mass_kg: 100.0,
        stroke_mm: 350.0,
        tube_mm: [0.3, 3.0],
        tube_length_mm: 450.0,
        held_back_mm: 100.0,
        stand_off_mm: 8.0,
        pressure_bar: 60.0,
        changer: false,
        index_axis: false,
        tilt_deg: None,
        table_rapid_mm_min: 2000.0,
        head_rapid_mm_min: 1000.0,
        attended: 0.4,
        rate_per_hour: 60.0,
    }
}

/// A row of through holes on a flat face.
pub(crate) fn row(id: u32, count: u32, diameter_mm: f64, depth_mm: f64) -> RowInput {
    RowInput {
        id: RowId(id),
        count,
        places: vec![],
        limits_mm: Some([diameter_mm - 0.05, diameter_mm + 0.05]),
        limits_assumed: false,
        depth_mm: Some(depth_mm),
        end: HoleEnd::Through,
        tilt_deg: 0.0,
        surface: Surface::Flat,
        behind_mm: None,
        backed: false,
        layers: vec![],
        core_trapped: false,
        ends: Some(Ends::One),
        tube: None,
    }
}

/// A job of tool steel on the bench head.
pub(crate) fn job(quantity: u32, rows: Vec<RowInput>) -> JobInput {
    JobInput {
        material: Some(0),
        machine: Some(0),
        measured_resistivity_ohm_cm: None,
        quantity: Some(quantity),
        breaks: vec![],
        part_mm: Some([100.0, 80.0, 40.0]),
        mass_kg: Some(2.0),
        part_value: Some(500.0),
        liability_cap: None,
        index_about: None,
        rows,
        one_off: vec![],
        outside_work: 0.0,
        margin: None,
        overrules: vec![],
    }
}

/// A row with a place for each direction of the tool.
pub(crate) fn placed(id: u32, axes: &[[f64; 3]]) -> RowInput {
    let places = (1..)
        .zip(axes)
        .map(|(number, &axis)| Place {
            number,
            point_mm: axis.map(|part| -50.0 * part),
            axis,
        })
        .collect();
    RowInput {
        places,
        ..row(id, axes.len() as u32, 1.0, 20.0)
    }
}

/// Figures of a row as far as clampings need them.
pub(crate) fn hole(row: &RowInput, tube: usize, ends: Ends) -> HoleFigures {
    HoleFigures {
        row: row.id,
        places: row.count,
        limits_mm: row.limits_mm,
        depth_mm: row.depth_mm,
        tilt_deg: row.tilt_deg,
        tube: Some(tube),
        guide: Some(tube),
        gap_mm: None,
        size_mm: None,
        verdict: None,
        feed_mm_min: None,
        wear_ratio: None,
        minutes: None,
        minutes_in: None,
        zones_mm: None,
        mouth_mm: None,
        wear_mm: None,
        wear_high_mm: None,
        overtravel_mm: None,
        target_depth_mm: None,
        machine_depth_mm: None,
        usable_mm: None,
        reach_one_mm: None,
        limit_mm: None,
        electrodes_per_hole: None,
        ends: Some(ends),
        findings: vec![],
    }
}
