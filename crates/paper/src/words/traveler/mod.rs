//! Words of the traveler, each of its parts in a file of its own.

pub mod depths;
pub mod floor;
pub mod held;
pub mod holes;
pub mod inspection;
pub mod kit;
pub mod lessons;
pub mod lifting;
pub mod limits;
pub mod of_order;
pub mod on_the_way;
pub mod operations;
pub mod order;
pub mod part;
pub mod plan;
pub mod plugged;
pub mod record;
pub mod stop;
pub mod title;

use quillbore_job::words::own::{self, Rests};

/// What stands in the foot of every page.
pub const FOOT: &str = "Stays with the parts. Valid for this lot and revision only.";
/// What planned figures rest on.
pub fn rests_on(rests: Rests) -> String {
    match rests.behind {
        None => "Planned minutes, wear and settings rest on start values, not on runs of this shop: not \
                 calibrated."
            .to_owned(),
        Some(behind) => {
            let sure = if rests.calibrated {
                "calibrated"
            } else {
                "not calibrated yet"
            };
            let records = own::records(behind);
            format!(
                "Planned minutes, wear and settings rest on start values and on what this shop's runs \
                 make of them ({records}): {sure}."
            )
        }
    }
}

/// The same beside a figure.
pub fn rests_on_shortly(rests: Rests) -> String {
    match rests.behind {
        None => "start values, not calibrated".to_owned(),
        Some(_) if rests.calibrated => "by runs of this shop".to_owned(),
        Some(_) => "by runs of this shop, not calibrated yet".to_owned(),
    }
}

/// Rows whose hole locations are not given.
pub fn unplaced(marks: &str) -> String {
    format!("No hole locations are given for {marks}: take them from the drawing.")
}
