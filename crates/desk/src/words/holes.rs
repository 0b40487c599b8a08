//! What is written at the hole table and at the places of a row.

use std::fmt::Display;

/// The head of the block.
pub const HEAD: &str = "Holes";

/// What a row of the table is called.
pub const ROW: &str = "hole";

/// The head of the column of electrodes.
pub const ELECTRODE: &str = "electrode";

/// The head of the column of what the electrode drills.
pub const DRILLS: &str = "drills";

/// The head of the column of verdicts.
pub const VERDICT: &str = "verdict";

/// The head of the column of minutes a hole.
pub const MINUTES_A_HOLE: &str = "a hole";

/// The unit of minutes.
pub const MINUTES: &str = "min";

/// The head of the column of wear.
pub const WEAR: &str = "wear";

/// The head of the column of electrodes a hole.
pub const PER_HOLE: &str = "per hole";

/// Makes an empty row.
pub const INSERT_ROW: &str = "insert row";

/// Takes the row out.
pub const TAKE_ROW_OUT: &str = "take row out";

/// The first line of places as text, which names each column and its unit.
pub const PLACES_HEAD: &str = "no\tx (mm)\ty (mm)\tz (mm)\ti\tj\tk";

/// What is typed as places.
pub const PLACES_HINT: &str = "one place a line: number, x, y, z and the direction i, j, k into the part; paste them from a spreadsheet";

/// The name of the lines of places.
pub const PLACES: &str = "places";

/// Puts the lines of places away.
pub const FOLD_PLACES: &str = "fold the places away";

/// Shows every column, or the usual ones again.
#[must_use]
pub const fn columns(all: bool) -> &'static str {
    if all { "fewer columns" } else { "all columns" }
}

/// Lays the places of a row out.
#[must_use]
pub fn places(count: usize, row: &str) -> String {
    match count {
        0 => format!("places of {row}"),
        count => format!("{count} places of {row}"),
    }
}

/// An electrode by its diameter, and whether it has more than one channel.
#[must_use]
pub fn electrode(outer: &str, channels: u8) -> String {
    let several = if channels > 1 { " multi" } else { "" };
    format!("{outer}{several}")
}

/// A line of places that can't be read.
#[must_use]
pub fn place_refused(line: impl Display, why: impl Display) -> String {
    format!("line {line}: {why}")
}

/// Gives the typed places to a row.
#[must_use]
pub fn give_places(count: usize, row: &str) -> String {
    format!("give {count} places to {row}")
}
