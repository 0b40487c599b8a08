//! Electrodes for a lot: which holes share an electrode, so that the fewest electrodes are used.
//!
//! A hole may start on an electrode only if the length left is at least its reach (what must be
//! left to get to the bottom) plus what it consumes; after it the length left is less by what it
//! consumed. Within one electrode drilling by falling reach works if any order does (earliest due
//! date first, Jackson 1955 «memory»), so a set of holes fits if for every reach p in it the holes
//! with reach >= p together consume no more than the usable length less p. What remains is bin
//! packing with nested capacities.
//!
//! Lengths are held as whole millionths of a millimeter, so every comparison is exact and a sum of
//! wears that meets the usable length on paper also meets it here. That rounding, at most half a
//! nanometer a hole, is the only tolerance.

mod ascent;
mod asked;
mod basis;
mod bounds;
mod columns;
mod exact;
mod farley;
mod first_fit;
mod grid;
mod group;
mod hand_out;
mod in_work;
mod lot;
mod pattern;
mod plan;
mod refill;
mod repack;
#[cfg(test)]
mod samples;
mod search;
mod terms;
mod whole_columns;
mod worth;

pub use asked::{Packed, PackingAsked, PackingQuestion};
pub use in_work::{InWork, WorkHoles, WorkLoad, WorkStretch, in_work_order};
pub use plan::electrodes_for_lot;
pub use terms::{Effort, Electrode, Fill, HoleKind, Plan, Unplaceable, WhyUnplaceable};
