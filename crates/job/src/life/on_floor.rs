//! The travelers that parts are drilled by, and how many parts those are.

use crate::job::{Issued, Job};
use crate::pinned::paper::Paper;
use crate::pinned::slip::lists::kind;

/// The travelers by which parts are drilled, the newest last.
///
/// Without call-offs a traveler is for all parts, so that one released once more takes the place of the one
/// before; those of call-offs stand beside each other, until one is withdrawn.
pub(super) fn on_floor(job: &Job) -> Vec<&Issued> {
    let mut standing: Vec<&Issued> = job.standing(Paper::Traveler).collect();
    if !is_called_off(job) {
        standing.drain(..standing.len().saturating_sub(1));
    }
    standing
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
