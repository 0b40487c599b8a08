//! Tables: figures set right, units in the heads, heads again on every page.

mod column;
mod content;
mod layout;
mod set;
mod tiers;

pub use column::{Align, Column, Width};
pub use content::{Cell, Table, TableRow};
pub use tiers::set_in_tiers;
