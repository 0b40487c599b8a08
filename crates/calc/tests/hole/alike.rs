//! Rows that ask the same are worked out once; a row that differs in one thing alone is worked out by
//! itself.

use quillbore_calc::hole::Context;
use quillbore_calc::input::{Ends, HoleEnd, Place, Surface};
use quillbore_calc::job_figures::HoleFigures;
use quillbore_calc::{Limits, RowId, RowInput};

use super::shop::*;
use super::{figures, tube};

/// Through 60 mm square to the face, with a wall 2 mm behind the exit.
fn base() -> RowInput {
    RowInput {
        behind_mm: Some(2.0),
        ..through(1.1, 60.0)
    }
}

/// One thing that a row can ask otherwise.
type Change = fn(&mut RowInput);

/// What makes of a row another one, each by one thing alone, and by something its figures show.
const CHANGES: [Change; 15] = [
    |row| row.count = 3,
    |row| row.limits_mm = Some(Limits::new(1.05, 1.15)),
    |row| row.limits_assumed = true,
    |row| row.depth_mm = Some(61.0),
    |row| row.end = HoleEnd::Blind,
    |row| row.tilt_deg = 20.0,
    |row| {
        row.surface = Surface::Ball {
            radius_mm: 4.0,
            offset_mm: 0.0,
        };
    },
    |row| row.behind_mm = Some(40.0),
    |row| row.backed = true,
    |row| row.core_trapped = true,
    |row| row.layers = layers(&[(CARBIDE, 60.0)]),
    |row| row.ends = Some(Ends::Both),
    |row| row.tube = Some(tube(&tables(), 0.8, 200.0, 1)),
    |row| row.dress_every = Some(2),
    |row| {
        let place = |number| Place {
            number,
            point_mm: [0.0; 3],
            axis: [0.0, 0.0, -1.0],
        };
        row.places = (1..=5).map(place).collect();
    },
];

/// Each row beside the base, and each beside every other, comes to what it comes to alone.
#[test]
fn a_row_that_differs_in_one_thing_is_worked_out_by_itself() {
    let rows = CHANGES.iter().zip(8..).map(|(change, id)| {
        let mut row = base();
        row.id = RowId(id);
        change(&mut row);
        row
    });
    let rows: Vec<RowInput> = [base()].into_iter().chain(rows).collect();
    let alone: Vec<_> = rows.iter().map(figures).collect();
    for row in &alone[1..] {
        let unnamed = HoleFigures {
            row: alone[0].row,
            ..row.clone()
        };
        assert_ne!(unnamed, alone[0], "the change shows in {:?}", row.row);
    }
    let (input, tables) = (job(rows.clone()), tables());
    for first in 0..rows.len() {
        let context = Context::new(&input, &tables);
        assert_eq!(context.row_figures(&rows[first]), alone[first]);
        for (row, alone) in rows.iter().zip(&alone) {
            assert_eq!(
                context.row_figures(row),
                *alone,
                "after {:?}",
                rows[first].id
            );
        }
    }
}

/// Whether the wall behind may be marked counts where holes scatter as far as it; depth limits count
/// where the hole is closed.
#[test]
fn what_counts_for_some_rows_only_tells_those_apart() {
    let by_the_wall = RowInput {
        behind_mm: Some(0.3),
        ends: Some(Ends::One),
        ..through(0.8, 20.0)
    };
    let closed = RowInput {
        end: HoleEnd::Blind,
        ..through(1.1, 60.0)
    };
    let waived: Change = |row| row.wall_waived = true;
    let limited: Change = |row| row.depth_limits_mm = Some(Limits::new(50.0, 70.0));
    let tables = tables();
    for (row, change) in [(by_the_wall, waived), (closed, limited)] {
        let mut other = row.clone();
        change(&mut other);
        let (alone, expected) = (figures(&row), figures(&other));
        assert_ne!(expected, alone);
        let context = Context::new(&job(vec![row.clone()]), &tables);
        assert_eq!(context.row_figures(&row), alone);
        assert_eq!(context.row_figures(&other), expected);
        assert_eq!(context.row_figures(&row), alone);
    }
}
