//! Words of the traveler, each of its parts in a file of its own.

pub mod depths;
pub mod holes;
pub mod inspection;
pub mod kit;
pub mod lessons;
pub mod lifting;
pub mod limits;
pub mod of_order;
pub mod operations;
pub mod order;
pub mod part;
pub mod plan;
pub mod record;
pub mod stop;
pub mod title;

/// What stands in the foot of every page.
pub const FOOT: &str = "Goes with the parts. Valid for this lot and revision only.";
/// What planned figures rest on.
pub const START_VALUES: &str = "Planned minutes, wear and settings rest on start values, not on runs of this shop: not calibrated.";
/// The same beside a figure.
pub const START_VALUES_SHORT: &str = "start values, not calibrated";

/// Rows whose hole locations are not given.
pub fn unplaced(marks: &str) -> String {
    format!("No hole locations are given for {marks}: take them from the drawing.")
}
