//! Where the machine's axes stand for every hole location: how the part is mounted in each setup,
//! tilt, index, and x and y on the table.
//!
//! The setups' own order says what is drilled in which setup. How the part is mounted in it is the
//! first mounting, in the calculation's order, that brings every direction of it under the tool.

mod mount;

use std::collections::{BTreeMap, BTreeSet};

use quillbore_calc::RowId;
use quillbore_calc::input::{Ends, Place};
use quillbore_calc::job_figures::SetupFigures;

use crate::matter::Matter;
use crate::words::axes as words;

pub use mount::{Mount, Seat};
pub(crate) use mount::{across, quarter};

/// A hole location as it is drilled in a setup.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stop {
    /// Index of the setup.
    pub setup: usize,
    /// The row.
    pub row: RowId,
    /// Index of the place among the row's.
    pub place: usize,
    /// From the exit.
    pub far: bool,
    /// Where the machine's axes stand; `None` where no mounting that is known here reaches it.
    pub seat: Option<Seat>,
}

/// A setup with its stops in drilling order.
#[derive(Clone, Debug, PartialEq)]
pub struct Mounted {
    /// How the part is mounted; `None` where no mounting that is known here reaches everything.
    pub mount: Option<Mount>,
    /// The stops with locations, in drilling order.
    pub stops: Vec<Stop>,
    /// Rows drilled in it whose locations are not given.
    pub unplaced: Vec<RowId>,
}

impl Mounted {
    /// How the part is mounted, in words; `None` where it isn't known.
    pub fn mounting(&self) -> Option<String> {
        let tilted = |seat: Seat| seat.tilt_deg.abs() > 0.005;
        let tilts = self.stops.iter().filter_map(|stop| stop.seat).any(tilted);
        Some(words::mount(self.mount.as_ref()?, tilts))
    }
}

/// All setups of a job with their stops.
pub fn mounted(matter: &Matter<'_>) -> Vec<Mounted> {
    let mut used: BTreeSet<(RowId, usize, bool)> = BTreeSet::new();
    let setups = matter.figures.setups.iter().enumerate();
    setups
        .map(|(index, setup)| {
            let wanted = wanted(matter, setup);
            let found = mount::mounts(matter)
                .into_iter()
                .find_map(|mount| reached(&wanted, mount, &used, matter));
            let (mount, stops) = match found {
                Some((mount, seated)) => (Some(mount), seated),
                None => (None, unseated(&wanted, &used)),
            };
            let stops = stops
                .into_iter()
                .map(|(spot, far, seat)| {
                    used.insert((spot.row, spot.place, far));
                    Stop {
                        setup: index,
                        row: spot.row,
                        place: spot.place,
                        far,
                        seat,
                    }
                })
                .collect();
            Mounted {
                mount,
                stops,
                unplaced: unplaced(matter, setup),
            }
        })
        .collect()
}

/// A location that a setup's order names.
#[derive(Clone, Copy)]
struct Spot {
    row: RowId,
    place: usize,
    at: Place,
    /// Depth to the far entry [mm], where the hole is drilled from both ends.
    both: Option<f64>,
}

impl Spot {
    /// Entry point and direction of the tool at one of its ends.
    fn end(&self, far: bool) -> ([f64; 3], [f64; 3]) {
        let Place { point_mm, axis, .. } = self.at;
        match self.both.filter(|_| far) {
            None => (point_mm, axis),
            Some(depth) => (
                [0, 1, 2].map(|i| point_mm[i] + axis[i] * depth),
                axis.map(|part| -part),
            ),
        }
    }
}

/// The locations of a setup in drilling order; all of its rows' where no order is known yet.
fn wanted(matter: &Matter<'_>, setup: &SetupFigures) -> Vec<Spot> {
    let mut by_number: BTreeMap<(RowId, u32), Vec<Spot>> = BTreeMap::new();
    let mut in_table: Vec<(RowId, u32)> = Vec::new();
    for row in &matter.input.rows {
        let figures = matter.figures.holes.iter().find(|hole| hole.row == row.id);
        let both = figures
            .filter(|hole| hole.ends == Some(Ends::Both))
            .and(row.depth_mm);
        for (place, at) in row.places.iter().enumerate() {
            let spot = Spot {
                row: row.id,
                place,
                at: *at,
                both,
            };
            let key = (row.id, at.number);
            by_number.entry(key).or_default().push(spot);
            if setup.rows.contains(&row.id) {
                in_table.push(key);
            }
        }
    }
    let order = if setup.order.is_empty() {
        &in_table
    } else {
        &setup.order
    };
    // A number that stands twice in a row names its places one after the other.
    let mut met: BTreeMap<(RowId, u32), usize> = BTreeMap::new();
    order
        .iter()
        .filter_map(|key| {
            let spots = by_number.get(key)?;
            let next = met.entry(*key).or_default();
            let spot = spots.get(*next % spots.len())?;
            *next += 1;
            Some(*spot)
        })
        .collect()
}

type Seated = Vec<(Spot, bool, Option<Seat>)>;

/// The mount with its plane of tilting, and every location with the end that is drilled and its seat,
/// if the mount reaches them all.
fn reached(
    wanted: &[Spot],
    mount: Mount,
    used: &BTreeSet<(RowId, usize, bool)>,
    matter: &Matter<'_>,
) -> Option<(Mount, Seated)> {
    let tilt = mount::tilt_range(matter);
    let mut taken: BTreeSet<(RowId, usize, bool)> = BTreeSet::new();
    // A face tilts in one plane only: that of the first direction that is inclined to it.
    let mount = mount.with_plane_of(
        wanted.iter().flat_map(|spot| {
            let ends = ends(spot).filter(|far| !used.contains(&(spot.row, spot.place, *far)));
            ends.map(|far| spot.end(far).1).collect::<Vec<_>>()
        }),
        tilt,
    );
    let seated = wanted
        .iter()
        .map(|spot| {
            let free = ends(spot).filter(|far| {
                let key = (spot.row, spot.place, *far);
                !used.contains(&key) && !taken.contains(&key)
            });
            let (far, seat) = free
                .filter_map(|far| {
                    let (point, direction) = spot.end(far);
                    Some((far, mount.seat(direction, point, tilt)?))
                })
                .next()?;
            taken.insert((spot.row, spot.place, far));
            Some((*spot, far, Some(seat)))
        })
        .collect::<Option<Seated>>()?;
    Some((mount, seated))
}

/// Every location from its entry, or from its exit where the entry was drilled before.
fn unseated(wanted: &[Spot], used: &BTreeSet<(RowId, usize, bool)>) -> Seated {
    let far = |spot: &Spot| spot.both.is_some() && used.contains(&(spot.row, spot.place, false));
    wanted.iter().map(|spot| (*spot, far(spot), None)).collect()
}

fn ends(spot: &Spot) -> impl Iterator<Item = bool> + use<> {
    [false, true]
        .into_iter()
        .take(1 + usize::from(spot.both.is_some()))
}

fn unplaced(matter: &Matter<'_>, setup: &SetupFigures) -> Vec<RowId> {
    let rows = matter.input.rows.iter();
    rows.filter(|row| row.places.is_empty() && setup.rows.contains(&row.id))
        .map(|row| row.id)
        .collect()
}
