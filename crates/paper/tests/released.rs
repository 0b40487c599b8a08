//! What is told of a traveler on the floor, held against the traveler itself: every field and column
//! whose change would be printed on it is told, and nothing else is.
#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a helper of tests fails by panic"
)]

mod common;

use std::sync::Arc;

use quillbore_job::life::changed_since_release;
use quillbore_job::read_cell::CellKind;
use quillbore_job::{
    CellAt, Column, Edit, Field, FieldKind, Issued, Job, Line, Paper, Shop, SlipKind, Unit, apply,
};
use quillbore_paper::{Sheet, document};

/// Fields that stand on the traveler and are not told all the same, and why.
const PRINTED_NOT_TOLD: &[(Field, &str)] = &[
    (
        Field::CustomerReference,
        "the office's number of the inquiry: nobody works from it",
    ),
    (
        Field::Again,
        "only points back; what was learned there stands on this sheet",
    ),
];

fn done(job: &Job, edit: &Edit) -> Job {
    apply(job, edit).map_or_else(|refused| panic!("{edit:?}: {refused}"), |(job, _)| job)
}

/// Another value than the ring's.
fn other(field: Field) -> String {
    match field.kind() {
        FieldKind::Line | FieldKind::Lines => format!("{} zulu", field.key()),
        FieldKind::Length | FieldKind::LengthOrNone => "83.5".to_owned(),
        FieldKind::Mass => "4.9 kg".to_owned(),
        FieldKind::Pressure => "49.3 bar".to_owned(),
        FieldKind::RestsOn => "43 x 47".to_owned(),
        FieldKind::Count | FieldKind::CountOrNone => "19".to_owned(),
        FieldKind::Counts => "31, 37".to_owned(),
        FieldKind::Money => "1432.50".to_owned(),
        FieldKind::Percent => "37 %".to_owned(),
        FieldKind::Date => "2026-12-17".to_owned(),
        FieldKind::Resistivity => "0.00013".to_owned(),
        FieldKind::Tolerance => "+-0.13".to_owned(),
        FieldKind::Material => "Stainless 304".to_owned(),
        FieldKind::Machine => "Wren".to_owned(),
        FieldKind::AngleBasis => "from the surface".to_owned(),
        FieldKind::YesNo => "no".to_owned(),
        FieldKind::PartAxis => "x".to_owned(),
        FieldKind::Minutes | FieldKind::MinutesOrNone => "59".to_owned(),
        FieldKind::Currency => "CHF".to_owned(),
        FieldKind::Number => "0.97".to_owned(),
        FieldKind::OneOf(words) => words[1].to_owned(),
    }
}

fn cell(column: Column) -> &'static str {
    match column.kind() {
        CellKind::Mark => "QY",
        CellKind::Holes => "19",
        CellKind::Size => "1.27 +-0.11",
        CellKind::Depth => "8.6",
        CellKind::HoleEnd => "blind",
        CellKind::Angle => "23",
        CellKind::Surface => "cylinder R23",
        CellKind::Exit => "bore d47",
        CellKind::Recess => "d53 x 8",
        CellKind::Broken => "M9 tap carbide",
        CellKind::Proof => "air",
        CellKind::Length | CellKind::Distance => "4.8",
        CellKind::YesNo => "yes",
        CellKind::Layers => "3 Copper C110 + 5",
        CellKind::Ends => "one end",
        CellKind::Tube => "brass 1.10 x 400",
        CellKind::Every => "9",
        CellKind::Note => "note bravo",
    }
}

/// A job whose traveler was released just now, for an order that says nothing of the sheet.
fn released() -> Job {
    let mut job = Job {
        number: "26-0999".to_owned(),
        ..Job::default()
    };
    for (column, text) in [
        (Column::Mark, "A"),
        (Column::Count, "4"),
        (Column::Size, "0.80 +-0.05"),
        (Column::Depth, "14"),
        (Column::End, "through"),
    ] {
        job = with_cell(&job, column, text);
    }
    for (field, text) in [
        (Field::Material, "Stainless 316"),
        (Field::Machine, "Barrow"),
        (Field::Quantity, "25"),
        (Field::PartValue, "500"),
    ] {
        job = with_field(&job, field, text);
    }
    common::pin(&mut job, SlipKind::Order, &[(Line::Number, "PO 7")]);
    common::pin(&mut job, SlipKind::Received, &[(Line::Count, "25")]);
    common::issue(&mut job, Paper::Traveler);
    let entry = Issued {
        inputs: Some(Arc::new(job.inputs())),
        ..job.issued[0].as_ref().clone()
    };
    job.issued[0] = entry.sealed().into();
    job
}

fn with_field(job: &Job, field: Field, text: &str) -> Job {
    let edit = Edit::SetField {
        field,
        text: text.to_owned(),
        unit: Unit::Mm,
    };
    done(job, &edit)
}

fn with_cell(job: &Job, column: Column, text: &str) -> Job {
    let edit = Edit::SetCells {
        at: CellAt { row: 0, column },
        rows: vec![vec![Some(text.to_owned())]],
        unit: Unit::Mm,
    };
    done(job, &edit)
}

fn traveler(job: &Job) -> String {
    let shop = Shop::embedded().expect("the shop");
    common::printed(job, shop, Sheet::A4, |matter| {
        common::prose(&document(Paper::Traveler, &[matter]))
    })
}

#[test]
fn a_field_is_told_where_the_traveler_would_print_its_change() {
    let job = released();
    let before = traveler(&job);
    assert_eq!(changed_since_release(&job), []);
    let mut wrong = Vec::new();
    for &field in Field::ALL {
        // The whole job would be set aside by it.
        if field == Field::LaidAside {
            continue;
        }
        let changed = with_field(&job, field, &other(field));
        let printed = traveler(&changed) != before;
        let told = !changed_since_release(&changed).is_empty();
        let excused = PRINTED_NOT_TOLD.iter().any(|(known, _)| *known == field);
        if told != (printed && !excused) || (excused && !printed) {
            wrong.push((field, printed, told));
        }
    }
    assert!(wrong.is_empty(), "field, printed, told: {wrong:?}");
}

#[test]
fn every_column_is_told_and_the_telling_changes_no_paper() {
    let job = released();
    let before = traveler(&job);
    for &column in Column::ALL {
        let changed = with_cell(&job, column, cell(column));
        assert_ne!(traveler(&changed), before, "{column:?}");
        assert_eq!(changed_since_release(&changed).len(), 1, "{column:?}");
        let text = traveler(&changed);
        assert!(!text.contains("before these changes"), "{text}");
        // The same sheet with nothing released prints the same.
        let unreleased = Job {
            issued: Vec::new(),
            ..changed
        };
        assert_eq!(traveler(&unreleased), text, "{column:?}");
    }
}
