//! Where a part is drilled, and the distinct directions of it.

use alloc::vec::Vec;

use crate::input::{Ends, JobInput, RowInput};
use crate::job_figures::HoleFigures;
use crate::vector::{Vector, along, opposite, unit};

/// One end of one hole, or of all holes of a row whose places are not given.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spot {
    /// Index of its row.
    pub(crate) row: usize,
    /// Index of its tube, where one was found.
    pub(crate) tube: Option<usize>,
    /// Index of its guide, where there is one.
    pub(crate) guide: Option<usize>,
    /// Number of its place on the drawing; 0 where places are not given.
    pub(crate) number: u32,
    /// Where the tool enters.
    pub(crate) point: Option<Vector>,
    /// How many holes it stands for.
    pub(crate) holes: u32,
    /// Index of its direction.
    pub(crate) direction: usize,
}

/// All that one part is drilled at.
pub(crate) struct Spots {
    /// In the table's order; ends that are drilled from the far side come right after their row.
    pub(crate) spots: Vec<Spot>,
    /// Distinct directions of the tool, as unit vectors.
    pub(crate) directions: Vec<Vector>,
    /// Rows whose directions were assumed.
    pub(crate) assumed: u32,
}

/// Directions closer than about this count as one: 0.03 degrees, finer than anybody clamps.
const STEPS_TO_ONE: f64 = 2000.0;

/// Straight down, where nothing else is known.
const DOWN: Vector = [0.0, 0.0, -1.0];

/// Spots and distinct directions of one part.
pub(crate) fn spots(input: &JobInput, holes: &[HoleFigures]) -> Spots {
    let mut spots = Vec::new();
    let mut axes = Vec::new();
    let mut assumed = 0;
    for (index, (row, figures)) in input.rows.iter().zip(holes).enumerate() {
        assumed += u32::from(row.places.is_empty());
        let both = figures.ends == Some(Ends::Both);
        for far in [false, true].into_iter().take(1 + usize::from(both)) {
            let spot = Spot {
                row: index,
                tube: figures.tube,
                guide: figures.guide,
                number: 0,
                point: None,
                holes: figures.places,
                direction: 0,
            };
            ends_of(row, far, spot, &mut spots, &mut axes);
        }
    }
    let directions = distinct(&axes, &mut spots);
    Spots {
        spots,
        directions,
        assumed,
    }
}

/// Adds one side of a row.
fn ends_of(row: &RowInput, far: bool, like: Spot, spots: &mut Vec<Spot>, axes: &mut Vec<Vector>) {
    if row.places.is_empty() {
        let tilt = row.tilt_deg.to_radians();
        let axis = unit([libm::sin(tilt), 0.0, -libm::cos(tilt)]).unwrap_or(DOWN);
        spots.push(like);
        axes.push(if far { opposite(axis) } else { axis });
        return;
    }
    for place in &row.places {
        let axis = unit(place.axis).unwrap_or(DOWN);
        let depth = row.depth_mm.unwrap_or(0.0);
        let (point, axis) = if far {
            (along(place.point_mm, axis, depth), opposite(axis))
        } else {
            (place.point_mm, axis)
        };
        spots.push(Spot {
            number: place.number,
            point: Some(point),
            holes: 1,
            ..like
        });
        axes.push(axis);
    }
}

/// Distinct directions by rounded components, and each spot's own among them.
fn distinct(axes: &[Vector], spots: &mut [Spot]) -> Vec<Vector> {
    let step = |part: f64| (libm::round(part * STEPS_TO_ONE) as i64 + 4096) as u64;
    let mut keys: Vec<(u64, usize)> = axes
        .iter()
        .enumerate()
        .map(|(at, axis)| {
            (
                step(axis[0]) << 32 | step(axis[1]) << 16 | step(axis[2]),
                at,
            )
        })
        .collect();
    keys.sort_unstable();
    let mut directions = Vec::new();
    let mut last = None;
    for (key, at) in keys {
        if last != Some(key) {
            directions.push(axes[at]);
            last = Some(key);
        }
        spots[at].direction = directions.len() - 1;
    }
    directions
}
