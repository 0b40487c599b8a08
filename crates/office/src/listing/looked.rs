//! What a look at the shelf comes to: the newest day in it, or why there was none.

use std::sync::Arc;

use chrono::NaiveDate;

use crate::digest::ShelfLine;
use crate::shelf::{Shelf, ShelfError};
use crate::words;

/// The day on which a job was opened.
pub(super) fn opened(line: &ShelfLine) -> Option<NaiveDate> {
    line.says.as_ref().ok()?.summary.opened
}

/// The newest day on which a job was opened.
pub(super) fn newest(lines: &[Arc<ShelfLine>]) -> Option<NaiveDate> {
    lines.iter().filter_map(|line| opened(line)).max()
}

/// That the shelf can't be reached.
pub(super) fn unreachable(shelf: &dyn Shelf, why: &ShelfError) -> String {
    words::digest::unreachable(why, &shelf.place())
}
