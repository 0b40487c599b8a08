//! Text into the typed cells of a row.

use crate::Unit;
use crate::entry::Entry;
use crate::field::AngleBasis;
use crate::read_quantity::{self as read, Misread};
use crate::row::{Column, Row};

/// Longest mark, in characters.
const LONGEST_MARK: usize = 20;

/// Longest name of a tube, in characters.
const LONGEST_NAME: usize = 120;

/// Longest note, in characters.
const LONGEST_NOTE: usize = 2_000;

/// Reads a text as a typed cell; white space alone is an empty one.
pub fn entry<T>(text: &str, unit: Unit, read: impl FnOnce(&str) -> Result<T, Misread>) -> Entry<T> {
    if text.trim().is_empty() {
        return Entry::Empty;
    }
    let text = text.to_owned();
    match read(&text) {
        Ok(value) => Entry::Read { text, unit, value },
        Err(why) => Entry::Unread {
            text,
            unit,
            why: why.to_string(),
        },
    }
}

/// Puts a text into a row's cell, read in `unit`; `basis` holds for angles that don't say theirs.
pub fn put(row: &mut Row, column: Column, text: &str, unit: Unit, basis: AngleBasis) {
    match column {
        Column::Mark => row.mark = entry(text, unit, |text| read::line(text, LONGEST_MARK)),
        Column::Count => row.count = entry(text, unit, read::holes),
        Column::Size => row.size = entry(text, unit, |text| read::size(text, unit)),
        Column::Depth => row.depth = entry(text, unit, |text| read::depth(text, unit)),
        Column::End => row.end = entry(text, unit, read::hole_end),
        Column::Angle => row.angle = entry(text, unit, |text| read::tilt(text, basis)),
        Column::Surface => row.surface = entry(text, unit, |text| read::surface(text, unit)),
        Column::Behind => row.behind = entry(text, unit, |text| read::length_or_zero(text, unit)),
        Column::Backed => row.backed = entry(text, unit, read::yes_no),
        Column::Layers => row.layers = entry(text, unit, |text| read::layers(text, unit)),
        Column::CoreTrapped => row.core_trapped = entry(text, unit, read::yes_no),
        Column::Ends => row.ends = entry(text, unit, read::ends),
        Column::Tube => row.tube = entry(text, unit, |text| read::line(text, LONGEST_NAME)),
        Column::DressEvery => row.dress_every = entry(text, unit, read::dress_every),
        Column::Note => row.note = entry(text, unit, |text| read::lines(text, LONGEST_NOTE)),
    }
}
