//! A ring with two rows of angled holes.

use quillbore_calc::finding::Level;
use quillbore_calc::input::{PartAxis, Place};
use quillbore_calc::job_figures::Stop;
use quillbore_calc::{Limits, RowId};
use quillbore_job::concern::{Concern, Customer};
use quillbore_job::{Edit, Field, Unit};
use quillbore_paper::Remark;

use super::build::build;
use super::sample::{Sample, set};
use super::spec::HoleSpec;

/// A ring with 1,080 angled holes in two rows of places.
pub fn ring() -> Sample {
    let fields = [
        (Field::Customer, "Alder Finch Rotors"),
        (Field::Contact, "Wilma Oakes, purchasing, 555 0142"),
        (Field::CustomerReference, "RFQ 88-1402"),
        (Field::Part, "4-118"),
        (Field::PartName, "Cooling ring"),
        (Field::Revision, "C"),
        (Field::Drawing, "AF-4-118-2"),
        (Field::DrawingRevision, "C"),
        (Field::Material, "Nickel alloy 718"),
        (
            Field::Condition,
            "solution treated and aged before drilling",
        ),
        (Field::Hardness, "42 HRC"),
        (Field::Coating, "none; bare spot at flange"),
        (Field::Quantity, "25"),
        (Field::Due, "2026-12-18"),
        (Field::PartValue, "3400"),
        (Field::LiabilityCap, "1000"),
        (Field::Spares, "1"),
        (
            Field::HoldPoints,
            "Test piece of the same heat: hold until it is approved.\nFirst ring: customer's inspector sees it.",
        ),
        (
            Field::AskBefore,
            "any rework of a hole\nleaving it to run at night",
        ),
        (Field::Datums, "A flange face, B bore 212.00, C keyway"),
        (Field::FacesNotToClamp, "seal land at 230 mm, ground"),
        (Field::RecastLimit, "0.04 mm"),
        (Field::Machine, "Barrow"),
        (Field::Fixture, "F-31, index plate 36, shelf 4"),
        (Field::Program, "4-118-C.nc"),
        (
            Field::Settings,
            "on 12, off 24, peak 9 A, servo 55 V, capacitor 2; flush 65 bar, spindle 400 rpm",
        ),
        (
            Field::SetupText,
            "Ring flat on F-31, bore on the mandrel, three side clamps at the flange. Pick up C with the edge finder, zero on A and B.",
        ),
        (
            Field::BackingText,
            "wax ring in the groove, melted out at 80 \u{b0}C, weighed before and after",
        ),
        (
            Field::FirstPiece,
            "Drill A 1 to A 4, pin them at entry and exit. Section the test piece through A 2.",
        ),
        (Field::StopIf, "The wall at the seal land turns blue."),
        (
            Field::Inspection,
            "flow test of every ring at the customer's",
        ),
        (Field::LeadDays, "8"),
        (Field::ValidDays, "30"),
        (Field::Exclusions, "Removal of the wax beyond melting out."),
    ];
    let mut sample = build(
        "26-0107",
        Unit::Mm,
        &fields,
        &[
            HoleSpec {
                cells: ["A", "540", "0.80 +-0.05", "14", "through", "30"],
                places: 540,
                limits: Limits::new(0.75, 0.85),
                depth: 14.0,
                tilt: 30.0,
                blind: false,
                behind: Some(6.0),
                tube: "brass 0.70 x 400",
                minutes: 0.93,
                wear: 12.4,
            },
            HoleSpec {
                cells: ["B", "540", "0.60 +0.05/-0", "6.2", "through", "65"],
                places: 540,
                limits: Limits::new(0.6, 0.65),
                depth: 6.2,
                tilt: 65.0,
                blind: false,
                behind: None,
                tube: "brass 0.50 x 400",
                minutes: 0.61,
                wear: 6.9,
            },
        ],
    );
    for index in 0..2 {
        let row = sample.job.rows[index].id;
        let places: Vec<Place> = (0..540_u32).map(|number| place(number, index)).collect();
        sample.input.rows[index].places.clone_from(&places);
        set(&mut sample.job, &Edit::SetPlaces { row, places });
    }
    sample.input.index_about = Some(PartAxis::Z);
    // One setup, both rows in turn at each index.
    sample.figures.setups.truncate(1);
    let rows: Vec<RowId> = sample.job.rows.iter().map(|row| row.id).collect();
    sample.figures.setups[0].order = (0..540)
        .flat_map(|place| [(rows[1], place), (rows[0], place)])
        .map(|(row, place)| Stop {
            row,
            place: Some(place),
            far: false,
        })
        .collect();
    sample.remarks = vec![
        Remark {
            level: Level::Check,
            row: Some(sample.job.rows[0].id),
            text: "Only 6.00 mm free behind the exit, overtravel and wear ask for 7.20 mm: the far wall would be hit.".to_owned(),
            customer: Customer::Asked(Concern::WallBehind),
            floor: true,
        },
        Remark {
            level: Level::Note,
            row: Some(sample.job.rows[1].id),
            text: "A tube with one channel leaves a thin core: see that it falls out and is counted.".to_owned(),
            customer: Customer::Shop,
            floor: true,
        },
    ];
    sample
}

fn place(number: u32, row: usize) -> Place {
    let turn = f64::from(number) * std::f64::consts::TAU / 540.0;
    let (sin, cos) = (libm::sin(turn), libm::cos(turn));
    let radius = 106.0;
    Place {
        number: number + 1,
        point_mm: [radius * cos, radius * sin, -12.0 - 8.0 * row as f64],
        axis: [-cos * 0.866_025_4, -sin * 0.866_025_4, -0.5],
    }
}
