//! Text into the lines of slips.

use crate::pinned::slip::lists::Line;
use crate::typed::entry::{Entry, Unit};
use crate::typed::field::Value;
use crate::typed::read_cell::entry;
use crate::typed::read_field::value_of;

/// Reads a text as the entry of a slip's line; white space alone is an empty one.
#[must_use]
pub fn read_line(line: Line, text: &str, unit: Unit) -> Entry<Value> {
    entry(text, unit, |text| value_of(line.kind(), text, unit))
}
