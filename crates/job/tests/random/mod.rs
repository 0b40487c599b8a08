//! Edits of every kind, thrown together: on few rows, figures and slips, so that they meet.
#![allow(
    unreachable_pub,
    dead_code,
    reason = "each test file uses another part of it"
)]

use std::sync::Arc;

use chrono::NaiveDate;
use proptest::prelude::*;
use quillbore_calc::RowId;
use quillbore_calc::input::Place;
use quillbore_job::answer::{Answer, How};
use quillbore_job::concern::{Concern, Facts};
use quillbore_job::job::FigureKey;
use quillbore_job::report::{Report, Source};
use quillbore_job::slip::RUN_COLUMNS;
use quillbore_job::{CellAt, Column, Edit, Field, Line, RowsAt, RunAt, SlipKind, Unit};

pub fn text() -> impl Strategy<Value = String> {
    prop::sample::select(vec![
        "",
        " ",
        "A",
        "B",
        "36x",
        "0.80 +-0.02",
        ".031 +.003/-0",
        "3 H7",
        "#60",
        "0.82 MAX",
        "14",
        "30",
        "60 from surface",
        "thru",
        "blind",
        "flat",
        "R20",
        "yes",
        "both",
        "1.2 Steel + 3",
        "from surface",
        "12.5 kg",
        "2027-01-12",
        "12/01/2027",
        "nonsense",
        "0,5 mm",
        "1/32",
        "26-0101-Q1",
        "two\nlines",
    ])
    .prop_map(str::to_owned)
}

pub fn unit() -> impl Strategy<Value = Unit> {
    prop_oneof![Just(Unit::Mm), Just(Unit::Inch)]
}

fn row_id() -> impl Strategy<Value = RowId> {
    prop_oneof![4 => 0..3_u32, 1 => 0..12_u32].prop_map(RowId)
}

/// A column, mostly one of those that others hit too.
fn column() -> impl Strategy<Value = Column> {
    let few = vec![Column::Mark, Column::Depth, Column::Angle];
    prop_oneof![prop::sample::select(few), prop::sample::select(Column::ALL)]
}

fn figure() -> impl Strategy<Value = FigureKey> {
    prop_oneof![
        row_id().prop_map(FigureKey::Gap),
        row_id().prop_map(FigureKey::Wear),
        Just(FigureKey::MachineHours),
        Just(FigureKey::Electrodes("brass 0.70 x 400".to_owned())),
        (1..3_u32).prop_map(FigureKey::UnitPrice),
    ]
}

fn field() -> impl Strategy<Value = Field> {
    prop_oneof![
        prop::sample::select(vec![Field::Notes, Field::Thickness, Field::Quantity]),
        prop::sample::select(Field::ALL),
    ]
}

fn cells() -> impl Strategy<Value = Edit> {
    let cell = prop::option::weighted(0.8, text());
    let block = prop::collection::vec(prop::collection::vec(cell, 0..4), 0..4);
    (0..8_usize, column(), block, unit()).prop_map(|(row, column, rows, unit)| Edit::SetCells {
        at: CellAt { row, column },
        rows,
        unit,
    })
}

fn places() -> impl Strategy<Value = Edit> {
    let place = (0..4_u32, -1.0..1.0_f64).prop_map(|(number, x)| Place {
        number,
        point_mm: [x, 0.0, 0.0],
        axis: [x, 0.0, -1.0],
    });
    (row_id(), prop::collection::vec(place, 0..3))
        .prop_map(|(row, places)| Edit::SetPlaces { row, places })
}

fn table() -> impl Strategy<Value = Edit> {
    let at = prop_oneof![
        2 => Just(RowsAt::Append),
        1 => Just(RowsAt::Replace),
        2 => (0..8_usize).prop_map(|row| RowsAt::Over { row }),
    ];
    let cell = prop::option::weighted(0.8, text());
    let cells = prop::collection::vec(prop::collection::vec(cell, 0..4), 0..4);
    let place = (0..4_u32, -1.0..1.0_f64).prop_map(|(number, x)| Place {
        number,
        point_mm: [x, 0.0, 0.0],
        axis: [x, 0.0, -1.0],
    });
    let places = prop::collection::vec(prop::collection::vec(place, 0..3), 0..4);
    let report = prop::option::of((0..3_u32).prop_map(|taken| {
        Arc::new(Report {
            from: Source::Pasted,
            whole: Vec::new(),
            taken,
            lines: Vec::new(),
            outline: Vec::new(),
        })
    }));
    (at, cells, places, unit(), report).prop_map(|(at, cells, places, unit, report)| {
        Edit::SetRows {
            at,
            cells,
            places,
            unit,
            report,
        }
    })
}

fn answer() -> impl Strategy<Value = Edit> {
    let concern = prop::sample::select(&Concern::ALL[..2]);
    let said = prop::sample::select(vec!["M. Oakes", "as always", " we\nream them ", ""]);
    (
        row_id(),
        concern,
        prop::sample::select(How::ALL),
        said,
        1..4_u32,
    )
        .prop_map(|(row, concern, how, said, day)| {
            Edit::Answer(Answer {
                row,
                concern,
                facts: Facts {
                    given: vec![0.8, f64::from(day)],
                    by: 0.125,
                },
                how,
                said: said.to_owned(),
                by: "M. Oakes".to_owned(),
                date: NaiveDate::from_ymd_opt(2026, 3, day).unwrap_or_default(),
            })
        })
}

fn slip() -> impl Strategy<Value = Edit> {
    let lines = prop::collection::vec((any::<prop::sample::Index>(), text()), 0..4);
    (prop::sample::select(SlipKind::ALL), lines, unit()).prop_map(|(kind, lines, unit)| {
        let typed: Vec<Line> = kind
            .lines()
            .iter()
            .copied()
            .filter(|l| l.is_typed())
            .collect();
        let lines = lines.into_iter();
        Edit::AddSlip {
            kind,
            lines: lines.map(|(at, text)| (*at.get(&typed), text)).collect(),
            unit,
        }
    })
}

fn slip_id() -> impl Strategy<Value = u32> {
    prop_oneof![3 => 0..2_u32, 1 => 0..6_u32]
}

fn line() -> impl Strategy<Value = Edit> {
    let line = prop_oneof![
        Just(Line::Date),
        Just(Line::Note),
        Just(Line::Accepted),
        prop::sample::select(Line::ALL),
    ];
    (slip_id(), line, text(), unit()).prop_map(|(slip, line, text, unit)| Edit::SetLine {
        slip,
        line,
        text,
        unit,
    })
}

fn runs() -> impl Strategy<Value = Edit> {
    let cells = prop::collection::vec(prop::option::of(text()), 0..4);
    let line = prop::sample::select(RUN_COLUMNS.map(|column| column.line()).to_vec());
    (0..3_usize, line, prop::collection::vec(cells, 0..3), unit()).prop_map(
        |(row, line, rows, unit)| Edit::SetRuns {
            at: RunAt { row, line },
            rows,
            unit,
        },
    )
}

pub fn edit() -> impl Strategy<Value = Edit> {
    let together = prop::collection::vec(single_edit(), 0..4);
    prop_oneof![
        9 => single_edit(),
        1 => together.prop_map(|edits| Edit::Together { edits }),
    ]
}

fn single_edit() -> impl Strategy<Value = Edit> {
    let basis = prop::sample::select(vec!["from surface", "from normal", ""]);
    prop_oneof![
        8 => cells(),
        4 => (field(), text(), unit())
            .prop_map(|(field, text, unit)| Edit::SetField { field, text, unit }),
        2 => basis.prop_map(|text| Edit::SetField {
            field: Field::AngleBasis,
            text: text.to_owned(),
            unit: Unit::Mm,
        }),
        2 => (0..8_usize, 0..3_usize)
            .prop_map(|(before, count)| Edit::InsertRows { before, count }),
        2 => prop::collection::vec(row_id(), 0..3).prop_map(|rows| Edit::DeleteRows { rows }),
        2 => places(),
        1 => table(),
        2 => unit().prop_map(Edit::SetUnit),
        4 => (figure(), text(), text(), unit()).prop_map(|(figure, text, reason, unit)| {
            Edit::Overrule { figure, text, reason, unit }
        }),
        3 => figure().prop_map(|figure| Edit::WithdrawOverrule { figure }),
        5 => answer(),
        3 => (row_id(), prop::sample::select(&Concern::ALL[..2]))
            .prop_map(|(row, concern)| Edit::WithdrawAnswer { row, concern }),
        3 => slip(),
        5 => line(),
        3 => runs(),
        1 => slip_id().prop_map(|slip| Edit::RemoveSlip { slip }),
    ]
}
