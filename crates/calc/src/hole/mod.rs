//! One row of the hole table, from its limits and depth to its minutes, wear and electrodes.
//!
//! `row_figures` computes one row; `Context` does so for many, with what the shop's tables say
//! worked out once. For a lot's joint draw, `Context::drill` prepares a row and `Drill::at`
//! recomputes it for sampled lot factors in a few nanoseconds:
//!
//! - [`Draw`] holds three factors about the median, all 1 at the median. `feed` multiplies the
//!   feed (the sparking minutes are divided by it), `wear` multiplies the wear by length,
//!   `handling` multiplies every minute that does not go with the feed.
//! - [`DrawnHole`] holds what comes out. Its target depth is counted from the work's surface, as
//!   the usable length U is; its stages say what electrodes a plan for the lot has to find.
//! - The depth law's own spread is not a lot factor: it stands in one hole's P10 and P90 only.

mod draw;

pub use draw::{Draw, DrawnHole, Stage};
