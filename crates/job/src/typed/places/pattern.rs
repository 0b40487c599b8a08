//! Patterns of places: ring, line, grid.

use quillbore_calc::Angle;
use quillbore_calc::direction::unit;
use quillbore_calc::input::{PartAxis, Place};

use super::refused::PatternRefused;
use super::vector::sin_cos;
use crate::ground::limits::{MOST_PLACES, is_reachable};

/// Holes evenly spaced about an axis of the part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ring {
    /// The axis that the ring goes round.
    pub about: PartAxis,
    /// Holes.
    pub count: u32,
    /// Radius to the entry points in mm.
    pub radius_mm: f64,
    /// Where the ring stands along its axis in mm.
    pub along_mm: f64,
    /// Where the first hole stands; about z it counts from x toward y.
    pub start: Angle,
    /// Angle between a hole and the ring's axis, downward; 90 degrees is square to it.
    pub tilt: Angle,
    /// Where a hole leans: 0 toward the axis, 90 on with the turn, 180 away, 270 back.
    pub lean: Angle,
    /// The first hole's number.
    pub first_number: u32,
}

/// Holes in a row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HoleLine {
    /// Holes.
    pub count: u32,
    /// The first entry point in mm.
    pub from_mm: [f64; 3],
    /// From one hole to the next in mm.
    pub step_mm: [f64; 3],
    /// Whither the holes run; any length.
    pub axis: [f64; 3],
    /// The first hole's number.
    pub first_number: u32,
}

/// Holes in rows and columns, numbered row by row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grid {
    /// Holes in a row.
    pub columns: u32,
    /// Rows.
    pub rows: u32,
    /// The first entry point in mm.
    pub from_mm: [f64; 3],
    /// From one column to the next in mm.
    pub column_step_mm: [f64; 3],
    /// From one row to the next in mm.
    pub row_step_mm: [f64; 3],
    /// Whither the holes run; any length.
    pub axis: [f64; 3],
    /// The first hole's number.
    pub first_number: u32,
}

/// Places evenly spaced about an axis.
pub fn ring(ring: &Ring) -> Result<Vec<Place>, PatternRefused> {
    let count = checked_count(u64::from(ring.count), ring.first_number)?;
    if ring.radius_mm <= 0.0 {
        return Err(PatternRefused::Unusable);
    }
    let (sin_tilt, cos_tilt) = sin_cos(ring.tilt);
    (0..count)
        .map(|index| {
            let turn = ring.start.deg() + 360.0 * f64::from(index) / f64::from(count);
            let turn = Angle::from_deg(turn).ok_or(PatternRefused::Unusable)?;
            // Zero lean is against the radius.
            let lean = Angle::from_deg(turn.deg() + 180.0 - ring.lean.deg())
                .ok_or(PatternRefused::Unusable)?;
            let (sin_turn, cos_turn) = sin_cos(turn);
            let (sin_lean, cos_lean) = sin_cos(lean);
            place(
                ring.first_number + index,
                about(
                    ring.about,
                    [
                        ring.radius_mm * cos_turn,
                        ring.radius_mm * sin_turn,
                        ring.along_mm,
                    ],
                ),
                about(
                    ring.about,
                    [sin_tilt * cos_lean, sin_tilt * sin_lean, 0.0 - cos_tilt],
                ),
            )
        })
        .collect()
}

/// Places in a row.
pub fn line(line: &HoleLine) -> Result<Vec<Place>, PatternRefused> {
    grid(&Grid {
        columns: line.count,
        rows: 1,
        from_mm: line.from_mm,
        column_step_mm: line.step_mm,
        row_step_mm: [0.0; 3],
        axis: line.axis,
        first_number: line.first_number,
    })
}

/// Places in rows and columns.
pub fn grid(grid: &Grid) -> Result<Vec<Place>, PatternRefused> {
    let count = checked_count(
        u64::from(grid.columns) * u64::from(grid.rows),
        grid.first_number,
    )?;
    let still = |step: [f64; 3]| step == [0.0; 3];
    if (grid.columns > 1 && still(grid.column_step_mm))
        || (grid.rows > 1 && still(grid.row_step_mm))
    {
        return Err(PatternRefused::Unusable);
    }
    (0..count)
        .map(|index| {
            let (row, column) = (
                f64::from(index / grid.columns),
                f64::from(index % grid.columns),
            );
            let along = |axis: usize| {
                grid.from_mm[axis]
                    + column * grid.column_step_mm[axis]
                    + row * grid.row_step_mm[axis]
            };
            place(
                grid.first_number + index,
                [along(0), along(1), along(2)],
                grid.axis,
            )
        })
        .collect()
}

fn checked_count(count: u64, first_number: u32) -> Result<u32, PatternRefused> {
    if count == 0 {
        return Err(PatternRefused::NoHoles);
    }
    let count = u32::try_from(count).map_err(|_| PatternRefused::TooMany)?;
    let fits = usize::try_from(count).is_ok_and(|count| count <= MOST_PLACES);
    if fits && first_number.checked_add(count).is_some() {
        Ok(count)
    } else {
        Err(PatternRefused::TooMany)
    }
}

fn place(number: u32, point_mm: [f64; 3], axis: [f64; 3]) -> Result<Place, PatternRefused> {
    let axis = unit(axis).ok_or(PatternRefused::Unusable)?;
    if !is_reachable(point_mm) {
        return Err(PatternRefused::Unusable);
    }
    Ok(Place {
        number,
        point_mm,
        axis,
    })
}

/// A vector given across and along an axis, in the part's x, y, z.
const fn about(axis: PartAxis, [first, second, along]: [f64; 3]) -> [f64; 3] {
    match axis {
        PartAxis::X => [along, first, second],
        PartAxis::Y => [second, along, first],
        PartAxis::Z => [first, second, along],
    }
}
