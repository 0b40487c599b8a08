//! Any sequence of edits: identities, sharing, text and undo hold after each of them.

use std::collections::BTreeSet;
use std::sync::Arc;

use proptest::prelude::*;
use quillbore_calc::RowId;
use quillbore_calc::input::Place;
use quillbore_job::history::{Doing, History};
use quillbore_job::job::FigureKey;
use quillbore_job::read_cell::put;
use quillbore_job::read_field::read_field;
use quillbore_job::report::{Report, Source};
use quillbore_job::{CellAt, Column, Edit, Field, Job, Row, RowsAt, Unit, apply};

fn text() -> impl Strategy<Value = String> {
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
    ])
    .prop_map(str::to_owned)
}

fn unit() -> impl Strategy<Value = Unit> {
    prop_oneof![Just(Unit::Mm), Just(Unit::Inch)]
}

fn row_id() -> impl Strategy<Value = RowId> {
    (0..12_u32).prop_map(RowId)
}

fn figure() -> impl Strategy<Value = FigureKey> {
    prop_oneof![
        row_id().prop_map(FigureKey::Gap),
        row_id().prop_map(FigureKey::Wear),
        Just(FigureKey::MachineHours),
    ]
}

fn cells() -> impl Strategy<Value = Edit> {
    let cell = prop::option::weighted(0.8, text());
    let block = prop::collection::vec(prop::collection::vec(cell, 0..4), 0..4);
    (0..8_usize, prop::sample::select(Column::ALL), block, unit()).prop_map(
        |(row, column, rows, unit)| Edit::SetCells {
            at: CellAt { row, column },
            rows,
            unit,
        },
    )
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

fn edit() -> impl Strategy<Value = Edit> {
    let together = prop::collection::vec(single_edit(), 0..4);
    prop_oneof![
        9 => single_edit(),
        1 => together.prop_map(|edits| Edit::Together { edits }),
    ]
}

fn single_edit() -> impl Strategy<Value = Edit> {
    let field = (prop::sample::select(Field::ALL), text(), unit());
    prop_oneof![
        4 => cells(),
        2 => field.prop_map(|(field, text, unit)| Edit::SetField { field, text, unit }),
        1 => Just(Edit::SetField {
            field: Field::AngleBasis,
            text: "from surface".to_owned(),
            unit: Unit::Mm,
        }),
        1 => (0..8_usize, 0..3_usize)
            .prop_map(|(before, count)| Edit::InsertRows { before, count }),
        1 => prop::collection::vec(row_id(), 0..3).prop_map(|rows| Edit::DeleteRows { rows }),
        1 => places(),
        2 => table(),
        1 => unit().prop_map(Edit::SetUnit),
        1 => (figure(), text(), text(), unit()).prop_map(|(figure, text, reason, unit)| {
            Edit::Overrule { figure, text, reason, unit }
        }),
        1 => figure().prop_map(|figure| Edit::WithdrawOverrule { figure }),
    ]
}

/// The job without what only ever grows.
fn content(job: &Job) -> Job {
    Job {
        next_row: 0,
        ..job.clone()
    }
}

fn check_identities(job: &Job) -> Result<(), TestCaseError> {
    let ids: BTreeSet<RowId> = job.rows.iter().map(|row| row.id).collect();
    prop_assert_eq!(ids.len(), job.rows.len());
    prop_assert!(ids.iter().all(|id| id.0 < job.next_row));
    Ok(())
}

/// What a file would hold, text and unit alone, gives the same job again.
fn check_read_again(job: &Job) -> Result<(), TestCaseError> {
    for row in &job.rows {
        let mut again = Row {
            id: row.id,
            places: Arc::clone(&row.places),
            ..Row::default()
        };
        for column in Column::ALL {
            let cell = row.cell(*column);
            let unit = cell.unit.unwrap_or_default();
            put(&mut again, *column, cell.text, unit, job.angle_basis());
        }
        prop_assert_eq!(&again, row.as_ref());
    }
    for (field, entry) in job.fields.iter() {
        prop_assert!(!entry.is_empty());
        let unit = entry.unit().unwrap_or_default();
        prop_assert_eq!(&read_field(*field, entry.text(), unit), entry);
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 200,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn after_every_edit(edits in prop::collection::vec(edit(), 1..40)) {
        let mut history: History = History::new(Job::default(), true);
        let mut given: BTreeSet<RowId> = BTreeSet::new();
        let start = Arc::clone(history.now());
        let mut steps = 0;
        for edit in &edits {
            let before = Arc::clone(history.now());
            prop_assert_eq!(apply(&before, edit), apply(&before, edit));
            let doing = Doing { gesture: None, before: (), after: () };
            let Ok(change) = history.do_edit(edit, doing) else {
                prop_assert!(Arc::ptr_eq(&before, history.now()), "a refused edit changed the job");
                continue;
            };
            let after = Arc::clone(history.now());
            check_identities(&after)?;
            check_read_again(&after)?;
            prop_assert!(after.next_row >= before.next_row);
            for added in &change.added {
                prop_assert!(given.insert(*added), "{:?} was given twice", added);
                prop_assert!(after.row(*added).is_some());
            }
            for removed in &change.removed {
                prop_assert!(after.row(*removed).is_none());
            }
            // Rows that are not named in the change are the very same.
            for row in &after.rows {
                if let Some(old) = before.rows.iter().find(|old| old.id == row.id) {
                    let same = Arc::ptr_eq(old, row);
                    prop_assert_eq!(same, old == row, "an equal row is a shared row");
                    prop_assert_eq!(same, !change.rows.contains(&row.id), "{:?}", row.id);
                }
            }
            if change.is_nothing() {
                prop_assert_eq!(content(&after), content(&before));
                continue;
            }
            steps += 1;
            prop_assert!(history.undo().is_some());
            prop_assert_eq!(content(history.now()), content(&before));
            prop_assert_eq!(history.now().next_row, after.next_row);
            prop_assert!(history.redo().is_some());
            prop_assert_eq!(history.now(), &after);
        }
        let end = Arc::clone(history.now());
        for _ in 0..steps {
            prop_assert!(history.undo().is_some());
        }
        prop_assert_eq!(history.undo(), None);
        prop_assert_eq!(content(history.now()), content(&start));
        prop_assert!(!history.is_dirty());
        for _ in 0..steps {
            prop_assert!(history.redo().is_some());
        }
        prop_assert_eq!(history.now(), &end);
    }
}
