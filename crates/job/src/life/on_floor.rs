//! The travelers that parts are drilled by, and how many parts those are.

use crate::job::{Issued, Job};
use crate::life::parts::sum;
use crate::pinned::paper::Paper;
use crate::pinned::slip::lists::{kind, line};

/// The travelers by which parts are drilled, the newest last.
///
/// Parts that are released once more stand on two travelers, and nobody can say that they are twice as
/// many: the newest count, until all parts that came are on one. Where nobody counted what came, all of them
/// count.
pub(super) fn on_floor(job: &Job) -> Vec<&Issued> {
    let came = sum::<kind::Received, _>(job, line::Count);
    let mut counted: u32 = 0;
    let mut found: Vec<&Issued> = Vec::new();
    for traveler in job.standing(Paper::Traveler).rev() {
        counted = counted.saturating_add(parts_on(traveler));
        if came > 0 && counted > came && !found.is_empty() {
            break;
        }
        found.push(traveler);
    }
    found.reverse();
    found
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
