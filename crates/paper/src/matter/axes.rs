//! Where the machine's axes stand for every hole location: setup by setup, in drilling order.

use std::collections::BTreeSet;

use quillbore_calc::RowId;
use quillbore_calc::input::Place;
use quillbore_calc::job_figures::SetupFigures;
use quillbore_calc::mount::{Mount, Seat};
use quillbore_job::Form;

use crate::matter::Matter;
use crate::words::axes as words;

/// A hole location as it is drilled in a setup.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlacedStop {
    /// Index of the setup.
    pub setup: usize,
    /// The row.
    pub row: RowId,
    /// Index of the place among the row's.
    pub place: usize,
    /// From the exit.
    pub far: bool,
    /// Where the machine's axes stand.
    pub seat: Seat,
}

/// A setup with its stops in drilling order.
#[derive(Clone, Debug, PartialEq)]
pub struct Mounted {
    /// How the part is mounted.
    pub mount: Mount,
    /// The stops with locations, in drilling order.
    pub stops: Vec<PlacedStop>,
    /// Rows drilled in it whose locations are not given.
    pub unplaced: Vec<RowId>,
}

impl Mounted {
    /// How the part is mounted, in words.
    pub fn mounting(&self, form: Form) -> String {
        let tilted = |stop: &PlacedStop| stop.seat.angles.tilt_deg.abs() > 0.005;
        words::mount(form, &self.mount, self.stops.iter().any(tilted))
    }
}

/// All setups of a job with their stops.
pub fn mounted(matter: &Matter<'_>) -> Vec<Mounted> {
    let setups = matter.figures.setups.iter().enumerate();
    setups
        .map(|(index, setup)| Mounted {
            mount: setup.mount,
            stops: stops(matter, index, setup),
            unplaced: unplaced(matter, setup),
        })
        .collect()
}

fn stops(matter: &Matter<'_>, index: usize, setup: &SetupFigures) -> Vec<PlacedStop> {
    let placed = setup.order.iter().filter_map(|stop| {
        let place = stop.place?;
        let end = end_of(matter, stop.row, place, stop.far)?;
        Some(PlacedStop {
            setup: index,
            row: stop.row,
            place,
            far: stop.far,
            seat: setup.mount.seat(end.axis, end.point_mm),
        })
    });
    placed.collect()
}

/// The end of a hole that a stop drills: where the tool enters, and its way in.
fn end_of(matter: &Matter<'_>, row: RowId, place: usize, far: bool) -> Option<Place> {
    let row = matter.asked(row)?;
    let place = row.places.get(place)?;
    Some(if far {
        seen_from_exit(place, row.depth_mm.unwrap_or(0.0))
    } else {
        *place
    })
}

/// The same hole begun from its exit.
pub(crate) fn seen_from_exit(place: &Place, depth_mm: f64) -> Place {
    Place {
        number: place.number,
        point_mm: [0, 1, 2].map(|i| place.point_mm[i] + place.axis[i] * depth_mm),
        axis: place.axis.map(|part| -part),
    }
}

fn unplaced(matter: &Matter<'_>, setup: &SetupFigures) -> Vec<RowId> {
    let rows = matter.input.rows.iter();
    let here: BTreeSet<RowId> = setup.rows.iter().copied().collect();
    rows.filter(|row| row.places.is_empty() && here.contains(&row.id))
        .map(|row| row.id)
        .collect()
}
