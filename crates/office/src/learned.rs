//! What the shop has learned, as a page shows it: factors by kind of work, every record
//! against its estimate, and how far estimates were off as time went on.

mod behind;
mod errors;
mod groups;
mod runs;
mod start_values;

use chrono::NaiveDate;
use quillbore_job::Shop;

use crate::pool::Pool;

pub use behind::{BehindFactor, Part, behind};
pub use errors::ErrorAt;
pub use groups::{Group, GroupOf, KindOfWork, Made};
pub use runs::{Minutes, Run, Teaches, Wear};
pub use start_values::of_start_value;

/// What the shop has learned.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Learned {
    /// Factors by family and electrode, then by material, by machine, by size.
    pub groups: Vec<Group>,
    /// Every record, the oldest first.
    pub runs: Vec<Run>,
    /// How far estimates were off, lot by lot, the oldest first.
    pub errors: Vec<ErrorAt>,
}

/// What a pool of records has taught on a day.
#[must_use]
pub fn learned(pool: &Pool, shop: &Shop, day: NaiveDate) -> Learned {
    let teaching = pool.teaching(day);
    let runs = runs::all(pool, &teaching, shop, day);
    Learned {
        groups: groups::all(&teaching, shop),
        errors: errors::all(&teaching, shop),
        runs,
    }
}
