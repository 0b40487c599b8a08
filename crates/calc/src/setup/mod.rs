//! Clampings: which directions share one, what moves between them, what is turned over.
//!
//! One setup is one clamping. Directions that differ only by a turn about the machine's index axis
//! are index moves inside it; a tilting head or table adds tilts. A tilt counts from upright, so on
//! an index axis that stands upright it is the tool's angle to that axis, on one that lies it is 90
//! degrees less that angle; without an index axis it is the angle to the face that lies up, and all
//! tilts of one clamping lie in one plane. A direction that none of this reaches is a clamping of
//! its own, at an angle that the fixture has to give. A clamping that is the opposite of an earlier
//! one is a turn-over.
//!
//! In a clamping all holes of one tube are drilled before the guide is changed; with one tube, all
//! directions of one tilt before the next tilt; so there are as few changes as there can be of what
//! takes longest.

mod cover;
mod layout;
mod places;
mod sequence;
mod spots;
mod tool;

use alloc::collections::BTreeSet;
use alloc::sync::Arc;
use alloc::vec::Vec;

use crate::finding::{About, Finding, Kind, Level, Remedy};
use crate::input::{JobInput, PartAxis};
use crate::job_figures::{HoleFigures, SetupFigures};
use crate::quantity::Limits;
use crate::tables::Machine;
use crate::vector::Vector;

use cover::{Clamping, cover};
pub(crate) use layout::Layout;
pub(crate) use sequence::Run;
use sequence::{Sequence, sequence};
pub(crate) use spots::Spot;
use spots::{Spots, count, spots};

/// How one part is clamped and in which order its directions are drilled.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Setups {
    /// Figures by clamping, without travel.
    pub figures: Vec<SetupFigures>,
    /// Findings about the job.
    pub findings: Vec<Finding>,
    /// Findings about rows, by index.
    pub row_findings: Vec<(usize, Finding)>,
    /// What is drilled in each clamping, run by run.
    pub(crate) runs: Vec<Vec<Run>>,
    /// Directions of one part.
    pub directions: u32,
}

/// Clampings of one part.
///
/// Formula: with an index axis in use, directions go by their angle to it; the axis may stand
/// upright or lie, either way round, and the fewest of these four mountings that reach every angle
/// are taken. Without one, the largest set of directions that one face and one plane of tilting
/// reach is taken, again and again. Directions closer than about 0.03 degrees count as one, angles to
/// an axis or a face closer than 0.1 degrees as one angle.
///
/// - `input`: rows with places; a row without places is taken to run in one direction, inclined by
///   its tilt [deg] in the x-z plane.
/// - `holes`: the rows' figures, for tube and ends; a row drilled from both ends has the opposite
///   direction too.
/// - `machine`: its index axis and tilt range [deg]; without a machine there is neither.
///
/// Result: clampings in the order of their number of holes; index moves and tilts for one part.
/// Findings: `outside-part`, `places-alike`, `directions-assumed`, `several-setups` with a remedy where turning the part about one
/// of its axes would do with fewer, `tilt-out-of-range` per row.
///
/// Valid for up to some ten thousand places; one tilting axis, one index axis.
///
/// ```
/// use quillbore_calc::hole::Context;
/// use quillbore_calc::input::{PartAxis, Place};
/// use quillbore_calc::setup::setups;
/// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
/// # use shop::*;
/// # let tables = tables();
/// // One hole from above, one from below.
/// let place = |number, up: f64| Place { number, point_mm: [0.0, 0.0, 10.0 * up], axis: [0.0, 0.0, -up] };
/// let mut row = through(0.8, 10.0);
/// row.places = vec![place(1, 1.0), place(2, -1.0)];
/// let mut input = job(vec![row]);
/// let holes = [Context::new(&input, &tables).row_figures(&input.rows[0]).into()];
/// let mut machine = tables.machines[BENCH.at()].clone();
/// let turned: Vec<bool> = setups(&input, &holes, Some(&machine))
///     .figures
///     .iter()
///     .map(|setup| setup.turned_over)
///     .collect();
/// assert_eq!(turned, [false, true]);
/// // On an index axis along x they are one clamping and one index move.
/// machine.index_axis = true;
/// input.index_about = Some(PartAxis::X);
/// let swung = setups(&input, &holes, Some(&machine)).figures;
/// assert_eq!((swung.len(), swung[0].index_moves), (1, 1));
/// ```
///
/// Source: geometry; common practice, no source, for what counts as one clamping.
#[must_use]
pub fn setups(input: &JobInput, holes: &[Arc<HoleFigures>], machine: Option<&Machine>) -> Setups {
    clamp(&Layout::new(input, holes, machine))
}

/// The clampings of a layout.
pub(crate) fn clamp(layout: &Layout) -> Setups {
    let parts = spots(layout);
    let tilt = layout.tilt_deg;
    let index = layout.index_about.map(PartAxis::unit);
    let mut clampings = cover(&parts.directions, index, tilt);
    let mut result = Setups {
        directions: count(parts.directions.len()),
        ..Setups::default()
    };
    let mut said = alloc::vec![false; layout.rows.len()];
    clampings.sort_by_cached_key(|clamping| {
        let holes = |&direction: &usize| parts.holes(direction);
        core::cmp::Reverse(clamping.directions.iter().map(holes).sum::<u64>())
    });
    let mut seen = BTreeSet::new();
    for clamping in &clampings {
        let turned_over = seen.contains(&clamping.mount.turned_over().key());
        seen.insert(clamping.mount.key());
        let Sequence {
            runs,
            index_moves,
            tilts,
            guide_changes,
            passes,
        } = sequence(clamping, &parts);
        let mut rows: Vec<usize> = runs.iter().flat_map(Run::rows).collect();
        rows.sort_unstable();
        rows.dedup();
        out_of_range(layout, clamping, &rows, &mut said, &mut result.row_findings);
        result.figures.push(SetupFigures {
            directions: count(clamping.directions.len()),
            rows: rows.iter().map(|&row| layout.rows[row].id).collect(),
            holes: runs.iter().map(Run::holes).sum(),
            turned_over,
            index_moves,
            tilts,
            guide_changes,
            passes,
            mount: clamping.mount,
            held: None,
            travel_mm: None,
            order: Vec::new(),
        });
        result.runs.push(runs);
    }
    result.findings = places::said_of_places(layout);
    result
        .findings
        .extend(said_of(layout, &parts, clampings.len()));
    result
}

/// What is said of the clampings as a whole.
fn said_of(layout: &Layout, parts: &Spots, clampings: usize) -> Vec<Finding> {
    let mut findings = Vec::new();
    if parts.assumed > 0 {
        let rows = parts.assumed;
        findings.push(note(Kind::DirectionsAssumed { rows }, None));
    }
    if clampings > 1 {
        let remedy = layout
            .has_index
            .then(|| better_index(&parts.directions, clampings, layout.tilt_deg))
            .flatten();
        let setups = count(clampings);
        findings.push(note(Kind::SeveralSetups { setups }, remedy));
    }
    findings
}

/// The axis of the part that needs fewest clampings when it is turned about, if fewer than `now`.
fn better_index(directions: &[Vector], now: usize, tilt: Limits) -> Option<Remedy> {
    let (setups, axis) = [PartAxis::X, PartAxis::Y, PartAxis::Z]
        .into_iter()
        .map(|axis| (cover(directions, Some(axis.unit()), tilt).len(), axis))
        .min_by_key(|&(setups, _)| setups)?;
    (setups < now).then_some(Remedy::IndexAbout(axis))
}

/// One finding for each row of a clamping that no machine axis gives; a row with a thousand
/// inclined places says so once.
fn out_of_range(
    layout: &Layout,
    clamping: &Clamping,
    rows: &[usize],
    said: &mut [bool],
    findings: &mut Vec<(usize, Finding)>,
) {
    // Without a machine nobody can say what its axes reach.
    let tilt = clamping.mount.out_of_range_deg();
    let Some(tilt_deg) = tilt.filter(|_| layout.on_machine) else {
        return;
    };
    for &row in rows {
        if core::mem::replace(&mut said[row], true) {
            continue;
        }
        let id = layout.rows[row].id;
        let finding = Finding {
            level: Level::Check,
            about: About::Row(id),
            kind: Kind::TiltOutOfRange { tilt_deg },
            remedy: None,
        };
        findings.push((row, finding));
    }
}

fn note(kind: Kind, remedy: Option<Remedy>) -> Finding {
    Finding {
        level: Level::Note,
        about: About::Job,
        kind,
        remedy,
    }
}
