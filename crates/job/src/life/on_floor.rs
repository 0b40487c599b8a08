//! The travelers that parts are drilled by, and how many parts those are.

use crate::job::{Issued, Job};
use crate::life::parts::ordered;
use crate::pinned::paper::Paper;
use crate::pinned::slip::lists::kind;

/// The travelers by which parts are drilled, the newest last.
///
/// Without call-offs a traveler is for all parts, so that one released once more takes the place of the one
/// before: the newest count, until all that was ordered is on them. Those of call-offs stand beside each
/// other, until one is withdrawn.
pub(super) fn on_floor(job: &Job) -> Vec<&Issued> {
    if is_called_off(job) {
        return job.standing(Paper::Traveler).collect();
    }
    let wanted = ordered(job).unwrap_or(0);
    let mut counted: u32 = 0;
    let mut found: Vec<&Issued> = Vec::new();
    for traveler in job.standing(Paper::Traveler).rev() {
        counted = counted.saturating_add(parts_on(traveler));
        found.push(traveler);
        if counted >= wanted {
            break;
        }
    }
    found.reverse();
    found
}

/// Whether parts are called off bit by bit.
pub(super) fn is_called_off(job: &Job) -> bool {
    job.slips_of::<kind::Release>().next().is_some()
}

/// The parts that a traveler is for.
pub(super) fn parts_on(traveler: &Issued) -> u32 {
    let lines = traveler.lines.iter();
    lines.fold(0, |sum: u32, line| sum.saturating_add(line.quantity))
}

/// The parts for which travelers were released.
#[must_use]
pub fn parts_on_floor(job: &Job) -> u32 {
    let travelers = on_floor(job).into_iter();
    travelers.map(parts_on).fold(0, u32::saturating_add)
}
