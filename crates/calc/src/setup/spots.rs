//! Where a part is drilled, and the distinct directions of it.

use alloc::vec::Vec;

use super::layout::{Layout, LayoutRow};
use super::tool::Tool;
use crate::vector::{Vector, along, direction_key, opposite, unit};

/// One end of one hole, or of all holes of a row whose places are not given.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spot {
    /// Index of its row.
    pub(crate) row: u32,
    /// Which of its row's places.
    pub(crate) place: u32,
    /// From the far end.
    pub(crate) far: bool,
    /// How many holes it stands for.
    pub(crate) holes: u32,
    /// What it is drilled with.
    pub(super) tool: Tool,
    /// Where the tool enters.
    pub(crate) point: Option<Vector>,
}

/// All that one part is drilled at.
pub(super) struct Spots {
    /// By direction, then tool, then in the table's order; ends drilled from the far side come right
    /// after their row.
    spots: Vec<Spot>,
    /// Where each direction's spots begin, and the end of all.
    starts: Vec<usize>,
    /// Distinct directions of the tool, as unit vectors.
    pub(super) directions: Vec<Vector>,
    /// Rows whose directions were assumed.
    pub(super) assumed: u32,
}

impl Spots {
    /// What is drilled in a direction.
    pub(super) fn of(&self, direction: usize) -> &[Spot] {
        let range = self.starts.get(direction..=direction + 1);
        range.map_or(&[], |ends| &self.spots[ends[0]..ends[1]])
    }

    /// Holes drilled in a direction.
    pub(super) fn holes(&self, direction: usize) -> u64 {
        self.of(direction)
            .iter()
            .map(|spot| u64::from(spot.holes))
            .sum()
    }
}

/// Straight down, where nothing else is known.
const DOWN: Vector = [0.0, 0.0, -1.0];

/// Spots and distinct directions of one part.
pub(super) fn spots(layout: &Layout) -> Spots {
    let mut spots = Vec::with_capacity(layout.rows.len());
    let mut axes = Vec::with_capacity(layout.rows.len());
    let mut assumed = 0;
    for (index, row) in (0..).zip(&layout.rows) {
        assumed += u32::from(row.places.is_empty());
        let both = row.far_end_mm.is_some();
        for far in [false, true].into_iter().take(1 + usize::from(both)) {
            let spot = Spot {
                row: index,
                place: 0,
                far,
                holes: row.holes,
                tool: row.tool,
                point: None,
            };
            side_of(row, far, spot, &mut spots, &mut axes);
        }
    }
    grouped(&spots, &axes, assumed)
}

/// Adds one side of a row.
fn side_of(row: &LayoutRow, far: bool, like: Spot, spots: &mut Vec<Spot>, axes: &mut Vec<Vector>) {
    if row.places.is_empty() {
        let axis = leaning(row.tilt_deg);
        spots.push(like);
        axes.push(if far { opposite(axis) } else { axis });
        return;
    }
    for (at, place) in (0..).zip(&row.places) {
        let axis = unit(place.axis).unwrap_or(DOWN);
        let depth = row.far_end_mm.unwrap_or(0.0);
        let (point, axis) = if far {
            (along(place.point_mm, axis, depth), opposite(axis))
        } else {
            (place.point_mm, axis)
        };
        spots.push(Spot {
            place: at,
            point: Some(point),
            holes: 1,
            ..like
        });
        axes.push(axis);
    }
}

/// Straight down, leaning in the x-z plane.
fn leaning(tilt_deg: f64) -> Vector {
    if tilt_deg == 0.0 {
        return DOWN;
    }
    let tilt = tilt_deg.to_radians();
    unit([libm::sin(tilt), 0.0, -libm::cos(tilt)]).unwrap_or(DOWN)
}

/// Groups spots by direction and tool; directions are distinct by rounded components.
fn grouped(spots: &[Spot], axes: &[Vector], assumed: u32) -> Spots {
    let mut keys: Vec<(u64, Tool, u32)> = (0..)
        .zip(axes.iter().zip(spots))
        .map(|(at, (&axis, spot))| (direction_key(axis), spot.tool, at))
        .collect();
    keys.sort_unstable();
    let mut grouped = Spots {
        spots: Vec::with_capacity(spots.len()),
        starts: Vec::new(),
        directions: Vec::new(),
        assumed,
    };
    let mut last = None;
    for (key, _, at) in keys {
        if last != Some(key) {
            grouped.directions.push(axes[at as usize]);
            grouped.starts.push(grouped.spots.len());
            last = Some(key);
        }
        grouped.spots.push(spots[at as usize]);
    }
    grouped.starts.push(grouped.spots.len());
    grouped
}

/// A number of things, or the index of one.
pub(super) fn count(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}
