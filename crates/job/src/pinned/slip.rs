//! Slips pinned to a job's sheet as its life goes on: calls, the order, parts that came, run
//! records, trouble, deliveries. A slip is a list of typed lines, read and kept like the sheet's.

pub(crate) mod choices;
pub mod holds;
pub(crate) mod lists;
pub(crate) mod pinned;
pub(crate) mod run_columns;
pub(crate) mod view;

pub use choices::{Outcome, Point};
pub use lists::{Has, Line, SlipKind, TypedKind, TypedLine, kind, line};
pub use pinned::Slip;
pub use run_columns::RUN_COLUMNS;
pub use view::{LineOf, View};
