//! What is written at the hole table and at the places of a row.

use std::fmt::Display;

use quillbore_calc::quantity::MM_PER_INCH;
use quillbore_job::{Form, Job, Unit};

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

/// The head of the column of minutes.
pub const MINUTES_PER_HOLE: &str = "min per hole";

/// The head of the column of wear.
pub const WEAR: &str = "wear";

/// The head of the column of how many electrodes a hole takes.
pub const ELECTRODES_PER_HOLE: &str = "electrodes per hole";

/// The head of the column of the flush with the tip at the bottom.
pub const FLUSH: &str = "flush at bottom";
/// What it counts.
pub const FLUSH_UNIT: &str = "ml/min";
/// The head of the column of what the flush pushes with.
pub const PUSH: &str = "push";

/// Makes an empty row.
pub const INSERT_ROW: &str = "insert row";

/// Deletes the row.
pub const DELETE_ROW: &str = "delete row";

/// The key that inserts a row.
pub const INSERT_KEY: &str = "Insert";

/// The keys that delete a row.
pub const DELETE_KEY: &str = "Ctrl+Delete";

/// What an empty table says.
pub const EMPTY: &str = "Type a hole, or paste a table with Ctrl+V, or drop the customer's file here (Ctrl+I): it is shown before it lands.";

/// The first line of places as text, which names each column and its unit.
pub const PLACES_HEAD: &str = "no\tx (mm)\ty (mm)\tz (mm)\ti\tj\tk";

/// What is typed as places.
pub const PLACES_HINT: &str = "one location a line: number, x, y, z and the direction i, j, k into the part; paste them from a spreadsheet";

/// The name of the lines of places.
pub const PLACES: &str = "hole locations";

/// Puts the lines of places away.
pub const FOLD_PLACES: &str = "close";

/// Shows every column.
pub const ALL_COLUMNS: &str = "all columns";

/// The holes in short, where their block is folded.
#[must_use]
pub fn in_short(job: &Job, form: Form) -> String {
    let holes: u64 = job.rows.iter().map(|row| u64::from(row.holes())).sum();
    let count = |count: u64, one: &str, several: &str| match count {
        1 => format!("1 {one}"),
        count => format!("{} {several}", form.count(count as f64)),
    };
    let rows = job.rows.len() as u64;
    let (holes, rows) = (count(holes, "hole", "holes"), count(rows, "row", "rows"));
    format!("{holes} in {rows}")
}

/// Lays the places of a row out.
#[must_use]
pub fn places(count: usize, row: &str) -> String {
    match count {
        0 => format!("hole locations of {row}"),
        1 => format!("1 hole location of {row}"),
        count => format!("{count} hole locations of {row}"),
    }
}

/// An electrode by its diameter, and whether it has more than one channel.
#[must_use]
pub fn electrode(outer: &str, channels: u8) -> String {
    let several = if channels > 1 { " multi" } else { "" };
    format!("{outer}{several}")
}

/// What an electrode loses in a hole: a tenth of a millimeter is as well as it is known.
#[must_use]
pub fn wear(mm: f64, unit: Unit, form: Form) -> String {
    match unit {
        Unit::Mm => form.fixed(mm, 1),
        Unit::Inch => form.fixed(mm / MM_PER_INCH, 2),
    }
}

/// A line of places that can't be read.
#[must_use]
pub fn place_refused(line: impl Display, why: impl Display) -> String {
    format!("line {line}: {why}")
}

/// Gives the typed places to a row.
#[must_use]
pub fn give_places(count: usize, row: &str) -> String {
    match count {
        1 => format!("give 1 location to {row}"),
        count => format!("give {count} locations to {row}"),
    }
}

/// Said where somebody typed what the cell above holds.
pub const REPEATED: &str = "The same as above: a single \" in a cell takes it.";
