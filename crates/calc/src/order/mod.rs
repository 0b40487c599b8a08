//! Hole order: in which order holes are visited so that little is travelled between them.
//!
//! A uniform grid gives each hole a short list of neighbors: the nearest in each quadrant, so that
//! clusters stay linked, and the nearest of all. Three starts (greedy, nearest neighbor, Hilbert
//! curve) are improved by 2-opt and Or-opt over those lists, then by local kicks that are taken
//! back if they don't help (iterated local search; Lourenço, Martin and Stützle 2003 «memory»). An
//! open path is a closed tour cut at its longest move and searched on with the ends free.

mod descent;
mod distance;
mod hole_order;
mod iterate;
mod neighbors;
mod open;
mod point_grid;
#[cfg(test)]
mod samples;
mod start;
mod tour;

pub use distance::Metric;
pub use hole_order::{Ends, HoleOrder, OrderEffort, hole_order, hole_order_until, kicks_for};
