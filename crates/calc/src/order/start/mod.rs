//! Three tours to start from.

mod greedy;
mod hilbert;
mod nearest;

pub(super) use greedy::greedy;
pub(super) use hilbert::hilbert;
pub(super) use nearest::nearest;
