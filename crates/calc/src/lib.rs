//! The mathematics of drilling small deep holes by EDM: pure, no_std.
//!
//! Every function is pure: tables, rates, dates and seeds are arguments. A half-filled hole is a
//! normal state: functions return a value and findings, they never panic. This crate knows
//! nothing of files, formats, clocks, words or screens.
#![no_std]

extern crate alloc;

mod chance;
mod dice;
mod idx;
mod interpolate;
mod row_id;
mod vector;

pub mod assemble;
pub mod broken;
pub mod burn;
mod burning;
pub mod conduct;
pub mod cost;
pub mod direction;
pub mod entry;
pub mod figure;
pub mod finding;
pub mod flush;
pub mod head;
pub mod hole;
pub mod input;
pub mod job_figures;
pub mod learn;
pub mod mount;
pub mod order;
pub mod outline;
pub mod packing;
pub mod plunge;
pub mod price;
pub mod promise;
pub mod push;
pub mod quantity;
pub mod reach;
pub mod recorded;
pub mod rollup;
pub mod setup;
pub mod size;
pub mod size_choice;
pub mod span;
pub mod spread;
pub mod standards;
pub mod start_hole;
pub mod stop;
pub mod surface;
pub mod tables;
pub mod travel;
pub mod wear;
pub mod working;

pub use figure::Figure;
pub use finding::{Finding, Kind, Level, Remedy};
pub use idx::Idx;
pub use input::{JobInput, RowId, RowInput};
pub use job_figures::JobFigures;
pub use quantity::{Angle, Band, Length, Limits, Spread};
pub use tables::Tables;
