//! Where a job stands in its life, and what is still in the way of the next step. Everything here is
//! read off the slips, the issued papers and the results.

pub(crate) mod begin;
pub(crate) mod blockers;
pub mod changed;
pub(crate) mod deed;
pub mod drawer;
mod drilled;
pub(crate) mod electrode_numbers;
pub mod inspected;
mod on_floor;
pub mod order;
pub(crate) mod parts;
pub(crate) mod recorded;
pub(crate) mod released;
pub(crate) mod run_plan;
pub(crate) mod state;
pub(crate) mod trouble;
pub(crate) mod untaught;

pub use begin::begins;
pub use blockers::{Blocker, Found, blockers};
pub use deed::{Deed, next_deed};
pub use on_floor::parts_on_floor;
pub use parts::{
    OrderedAt, actual_hours, left_to_deliver, not_sent, ordered, ordered_at, settled, sum,
};
pub use recorded::{HoursEach, hours_each};
pub use released::changed_since_release;
pub use run_plan::{RunPlan, Stretch, stretches};
pub use state::{State, outcome, state};
pub use trouble::{holds_delivery, is_open};
