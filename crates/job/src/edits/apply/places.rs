//! Giving a row its places.

use std::collections::BTreeSet;
use std::sync::Arc;

use quillbore_calc::RowId;
use quillbore_calc::direction::unit;
use quillbore_calc::input::Place;

use super::change::Change;
use super::refused::EditRefused;
use crate::ground::limits::{MOST_PLACES, is_reachable};
use crate::job::Job;
use crate::typed::row::Row;

pub(super) fn set(job: &mut Job, id: RowId, places: &[Place]) -> Result<Change, EditRefused> {
    let Some(index) = job.row_index(id) else {
        return Err(EditRefused::NoSuchRow { row: id });
    };
    let touched = give(&mut job.rows[index], places)?;
    Ok(Change {
        rows: if touched { vec![id] } else { Vec::new() },
        ..Change::default()
    })
}

/// Gives a row its places; true where they differ from before.
pub(super) fn give(row: &mut Arc<Row>, places: &[Place]) -> Result<bool, EditRefused> {
    if places.len() > MOST_PLACES {
        return Err(EditRefused::TooManyPlaces { most: MOST_PLACES });
    }
    let mut numbers = BTreeSet::new();
    let mut usable = Vec::with_capacity(places.len());
    for place in places {
        let number = place.number;
        if !numbers.insert(number) {
            return Err(EditRefused::PlaceTwice { number });
        }
        let axis = direction(place.axis);
        match axis {
            Some(axis) if is_reachable(place.point_mm) => {
                usable.push(Place { axis, ..*place });
            }
            _ => return Err(EditRefused::PlaceUnusable { number }),
        }
    }
    let touched = *row.places != usable;
    if touched {
        Arc::make_mut(row).places = Arc::new(usable);
    }
    Ok(touched)
}

/// The unit vector along an axis; one that is a unit vector up to rounding stays as it stands.
fn direction(axis: [f64; 3]) -> Option<[f64; 3]> {
    let exact = unit(axis)?;
    let near = exact
        .iter()
        .zip(axis)
        .all(|(exact, given)| (exact - given).abs() < 1e-12);
    Some(if near { axis } else { exact })
}
