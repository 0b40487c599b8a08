//! A die plate, short or with very many rows.

use std::sync::Arc;

use quillbore_calc::input::RowInput;
use quillbore_calc::{Limits, RowId};
use quillbore_job::{Field, Unit};

use super::build::build;
use super::sample::Sample;
use super::spec::HoleSpec;

/// A die plate in inches with blind and through holes, little known of it.
pub fn plate() -> Sample {
    let fields = [
        (Field::Customer, "Pinfold Tool and Die"),
        (Field::Part, "DP-7"),
        (Field::Revision, "2"),
        (Field::Material, "Tool steel D2"),
        (Field::Condition, "hardened"),
        (Field::Quantity, "2"),
        (Field::Machine, "Steeple"),
    ];
    let spec = |mark: &'static str,
                size: &'static str,
                depth: &'static str,
                end: &'static str,
                limits: Limits,
                mm: f64| HoleSpec {
        cells: [mark, "8", size, depth, end, ""],
        places: 8,
        limits,
        depth: mm,
        tilt: 0.0,
        blind: end == "blind",
        behind: None,
        tube: "brass 0.70 x 600",
        minutes: mm / 15.0,
        wear: mm * 0.8,
    };
    let mut sample = build(
        "26-0112",
        Unit::Inch,
        &fields,
        &[
            spec(
                "S1",
                ".031 +.003/-0",
                "1.25",
                "through",
                Limits::new(0.787_4, 0.863_6),
                31.75,
            ),
            spec(
                "S2",
                "1/32 MAX",
                ".5",
                "blind",
                Limits::new(0.0, 0.793_75),
                12.7,
            ),
            spec(
                "S3",
                ".031 +-.002",
                "7.5",
                "through",
                Limits::new(0.736_6, 0.838_2),
                190.5,
            ),
        ],
    );
    let hole = Arc::make_mut(&mut sample.figures.holes[1]);
    hole.tube = None;
    hole.machine_depth_mm = None;
    hole.minutes = None;
    sample
}

/// The die plate with its first row repeated until it has `count` more rows.
pub fn rows(count: u32) -> Sample {
    let mut sample = plate();
    let (row, hole, input) = (
        sample.job.rows[0].clone(),
        sample.figures.holes[0].clone(),
        sample.input.rows[0].clone(),
    );
    for number in 0..count {
        let id = RowId(1000 + number);
        let mut row = (*row).clone();
        row.id = id;
        sample.job.rows.push(row.into());
        let mut hole = Arc::clone(&hole);
        Arc::make_mut(&mut hole).row = id;
        sample.figures.holes.push(hole);
        sample.input.rows.push(RowInput {
            id,
            ..input.clone()
        });
    }
    sample
}
