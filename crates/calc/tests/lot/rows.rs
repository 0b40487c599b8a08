//! Rows of holes and jobs of an invented shop, for the tests.

use quillbore_calc::input::{Ends, JobInput, Place, RowId, RowInput};
use quillbore_calc::{Idx, Limits};

/// A row of through holes on a flat face.
pub(crate) fn row(id: u32, count: u32, diameter_mm: f64, depth_mm: f64) -> RowInput {
    RowInput {
        id: RowId(id),
        count,
        limits_mm: Some(Limits::new(diameter_mm - 0.05, diameter_mm + 0.05)),
        depth_mm: Some(depth_mm),
        ends: Some(Ends::One),
        ..RowInput::default()
    }
}

/// A job of tool steel on the bench head.
pub(crate) fn job(quantity: u32, rows: Vec<RowInput>) -> JobInput {
    JobInput {
        pressure_bar: None,
        rests_on: None,
        material: Some(Idx::new(0)),
        machine: Some(Idx::new(0)),
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
        outside_per_part: 0.0,
        masking_min: 0.0,
        margin: None,
        overrules: vec![],
        price_unread: false,
        sampling: None,
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
