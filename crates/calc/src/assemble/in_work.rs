//! In which order a lot is worked through, and what that takes of each tube.
//!
//! The electrodes of the plan are those of this order: what a search finds fewer of would have parts
//! loaded once more for every mark, or electrodes changed to and fro.

use alloc::collections::{BTreeMap, VecDeque};
use alloc::vec::Vec;

use super::tubes::LotTube;
use crate::input::RowId;
use crate::job_figures::{ElectrodeLoad, SetupFigures, Stop};
use crate::packing::{HoleKind, InWork, Plan, WorkHoles, WorkStretch, in_work_order};
use crate::rollup::{Times, TubeUse, part_by_part};
use crate::setup::Run;

/// How often the work of one tube may go on to other holes before its electrodes are carried on; far
/// beyond what a floor would follow.
const MOST_STEPS: u64 = 40_000;

/// What a tube takes in the order of the work.
pub(super) struct TubeWork {
    /// Electrodes, those used up whole inside holes among them.
    pub(super) electrodes: u64,
    /// The first of them.
    pub(super) loads: Vec<ElectrodeLoad>,
    /// Those that holes share, the last one as far as it is used, over the fewest that were found; 1 and
    /// up. At other wears and in other quantities they are taken to be as many times as many, whole ones.
    pub(super) over: f64,
}

impl TubeWork {
    /// What the fewest electrodes of a lot come to in the order of the work.
    pub(super) fn in_order(&self, used: TubeUse) -> TubeUse {
        let shared = libm::ceil(used.shared as f64 * self.over - 1e-9);
        TubeUse {
            shared: shared as u64,
            ..used
        }
    }
}

/// The clampings of a lot as they are worked through.
pub(super) struct LotWork<'a> {
    /// With the drilling order of one part.
    pub(super) setups: &'a [SetupFigures],
    /// Clamping by clamping, the runs that follow each other in that order.
    pub(super) runs: &'a [Vec<Run>],
    pub(super) parts: u32,
    /// To choose by.
    pub(super) times: &'a Times,
}

impl LotWork<'_> {
    /// What a tube takes that could do with so many shared ones; `row_id` names a row by its place in the
    /// job.
    pub(super) fn of(
        &self,
        tube: &LotTube,
        fewest: u64,
        row_id: impl Fn(usize) -> RowId,
    ) -> TubeWork {
        let ends = Ends::of(tube, &row_id);
        let mut stretches: Vec<WorkStretch> = Vec::new();
        let mut setup_of: Vec<usize> = Vec::new();
        for (at, (setup, runs)) in self.setups.iter().zip(self.runs).enumerate() {
            let whole = part_by_part(setup, self.parts, self.times);
            let mut order = setup.order.as_slice();
            let mut pass = None;
            for run in runs {
                let (stops, rest) = order.split_at(run.spots.len().min(order.len()));
                order = rest;
                // A run has one tube.
                let row = run.rows().next();
                if row.is_none_or(|row| tube.places.binary_search(&row).is_err()) {
                    continue;
                }
                let holes = ends.in_order(stops);
                if holes.is_empty() {
                    continue;
                }
                let goes_on = setup_of.last() == Some(&at) && (whole || pass == Some(run.pass));
                pass = Some(run.pass);
                match stretches.last_mut() {
                    Some(last) if goes_on => last.holes.extend(holes),
                    _ => {
                        let parts = self.parts;
                        stretches.push(WorkStretch { holes, parts });
                        setup_of.push(at);
                    }
                }
            }
        }
        let used = in_work_order(&stretches, tube.lot.usable_mm, MOST_STEPS);
        let InWork {
            electrodes,
            loads,
            last_left_mm,
        } = used;
        let loads = loads.into_iter().map(|load| {
            let (setups, holes) = ends.by_row(&load.holes, &setup_of).into_iter().unzip();
            ElectrodeLoad {
                times: super::electrodes::clamp(load.times),
                holes,
                setups,
                left_mm: load.left_mm,
            }
        });
        let whole = tube.lot.median.used(self.parts, 0).whole;
        let unused = last_left_mm / tube.lot.usable_mm.max(1.0);
        let shared = electrodes.saturating_sub(whole) as f64 - unused;
        TubeWork {
            electrodes,
            loads: loads.collect(),
            over: (shared / (fewest as f64).max(1.0)).max(1.0),
        }
    }
}

/// The order of stops in which one part takes as few electrodes as a search found, electrode by electrode;
/// none where it takes no more as they come.
///
/// - `plan`: what the search found, of this tube in one part.
/// - `stops`: all stops of the tube, as they come.
/// - `row_id`: names a row by its place in the job.
pub(super) fn electrode_by_electrode(
    tube: &LotTube,
    plan: &Plan,
    stops: &[Stop],
    row_id: impl Fn(usize) -> RowId,
) -> Option<Vec<usize>> {
    let ends = Ends::of(tube, &row_id);
    let electrodes = |stops: &[Stop]| {
        let holes = ends.in_order(stops);
        let work = [WorkStretch { holes, parts: 1 }];
        in_work_order(&work, tube.lot.usable_mm, MOST_STEPS).electrodes
    };
    let mut waiting: BTreeMap<u32, VecDeque<usize>> = BTreeMap::new();
    for (at, stop) in stops.iter().enumerate() {
        let kind = ends.known.get(&(stop.row, stop.far))?.kind.id;
        waiting.entry(kind).or_default().push_back(at);
    }
    let mut order = Vec::with_capacity(stops.len());
    for fill in &plan.electrodes {
        for &(kind, number) in (0..fill.times).flat_map(|_| &fill.holes) {
            let waiting = waiting.get_mut(&kind)?;
            for _ in 0..number {
                order.push(waiting.pop_front()?);
            }
        }
    }
    let regrouped: Vec<Stop> = order.iter().map(|&at| stops[at]).collect();
    let better = order.len() == stops.len() && electrodes(&regrouped) < electrodes(stops);
    better.then_some(order)
}

/// The ends of a tube's holes, by row and side.
struct Ends {
    known: BTreeMap<(RowId, bool), WorkHoles>,
    /// Holes of a row in one part, by the row's place among the tube's.
    rows: Vec<(RowId, u32)>,
}

impl Ends {
    fn of(tube: &LotTube, row_id: &impl Fn(usize) -> RowId) -> Self {
        let mut known = BTreeMap::new();
        let rows = tube.lot.rows.iter().zip(&tube.places);
        let mut kinds = tube.lot.median.kinds.iter();
        for (row, &place) in rows.clone() {
            let stages = row.at_median.stages.iter().flatten();
            for (far, (stage, kind)) in stages.zip(kinds.by_ref()).enumerate() {
                let holes = WorkHoles {
                    kind: *kind,
                    whole: stage.whole,
                };
                known.insert((row_id(place), far > 0), holes);
            }
        }
        Self {
            known,
            rows: rows.map(|(row, &at)| (row_id(at), row.holes)).collect(),
        }
    }

    /// The ends that are drilled at these stops, those alike that follow each other together.
    fn in_order(&self, stops: &[Stop]) -> Vec<WorkHoles> {
        let mut holes: Vec<WorkHoles> = Vec::new();
        for stop in stops {
            let Some(of) = self.known.get(&(stop.row, stop.far)) else {
                continue;
            };
            // A stop without a place stands for all holes of its row.
            let count = if stop.place.is_some() {
                1
            } else {
                of.kind.count
            };
            match holes.last_mut() {
                Some(last) if last.kind.id == of.kind.id => {
                    last.kind.count = last.kind.count.saturating_add(count);
                }
                _ => holes.push(WorkHoles {
                    kind: HoleKind { count, ..of.kind },
                    ..*of
                }),
            }
        }
        holes
    }

    /// Holes by clamping and row, both ends of a row as one where they share a clamping.
    fn by_row(
        &self,
        holes: &[(usize, u32, u32)],
        setup_of: &[usize],
    ) -> Vec<(usize, (RowId, u32))> {
        let mut found: Vec<(usize, (RowId, u32))> = Vec::new();
        for &(stretch, id, count) in holes {
            let (setup, row) = (setup_of[stretch], self.rows[id as usize / 2].0);
            let mut known = found.iter_mut();
            match known.find(|(at, (of, _))| (*at, *of) == (setup, row)) {
                Some((_, (_, sum))) => *sum = sum.saturating_add(count),
                None => found.push((setup, (row, count))),
            }
        }
        found
    }
}
