//! The columns of the run records: one order for the table on the screen and the blanks on the
//! traveler.

use super::lists::{kind, line};
use super::view::LineOf;

/// The lines of a run record that stand side by side, as on the traveler; what takes more words has
/// lines of its own.
pub const RUN_COLUMNS: [LineOf<kind::Run>; 18] = [
    LineOf::new(line::Date),
    LineOf::new(line::Serials),
    LineOf::new(line::Mark),
    LineOf::new(line::Holes),
    LineOf::new(line::ElectrodeNumber),
    LineOf::new(line::TubeUsed),
    LineOf::new(line::TubeBefore),
    LineOf::new(line::TubeAfter),
    LineOf::new(line::Dressed),
    LineOf::new(line::DepthReached),
    LineOf::new(line::SparkMinutes),
    LineOf::new(line::FloorMinutes),
    LineOf::new(line::StopMinutes),
    LineOf::new(line::Breakages),
    LineOf::new(line::Good),
    LineOf::new(line::Scrap),
    LineOf::new(line::Pins),
    LineOf::new(line::By),
];
