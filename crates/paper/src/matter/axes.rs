//! Where the machine's axes stand for every hole location: setup by setup, in drilling order.

use std::collections::BTreeSet;

use quillbore_calc::RowId;
use quillbore_calc::input::Place;
use quillbore_calc::job_figures::SetupFigures;
use quillbore_calc::mount::{Angles, Mount, Seat};
use quillbore_calc::tables::Tilts;
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
    /// Where tilt and index stand.
    pub angles: Angles,
    /// The table's x and y [mm]; `None` for a tilted hole where nobody said what tilts.
    pub table_mm: Option<[f64; 2]>,
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
        words::mount(
            form,
            &self.mount,
            self.stops.iter().any(PlacedStop::is_tilted),
        )
    }
}

impl PlacedStop {
    /// Whether head or table is tilted for it.
    pub fn is_tilted(&self) -> bool {
        self.angles.tilt_deg.abs() > 0.005
    }
}

/// What tilts on the job's machine, where somebody said.
pub fn tilting(matter: &Matter<'_>) -> Option<Tilts> {
    matter.machine()?.tilts
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
        let tilts = tilting(matter);
        let at = |tilts| setup.mount.seat(end.axis, end.point_mm, tilts);
        let Seat { angles, table_mm } = at(tilts.unwrap_or(Tilts::Table));
        let stop = PlacedStop {
            setup: index,
            row: stop.row,
            place,
            far: stop.far,
            angles,
            table_mm: Some(table_mm),
        };
        let unsure = stop.is_tilted() && tilts.is_none();
        Some(PlacedStop {
            table_mm: stop.table_mm.filter(|_| !unsure),
            ..stop
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
