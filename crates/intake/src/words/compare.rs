//! What is said of a newer file beside the hole table that is there.

use quillbore_job::words::english::column;
use quillbore_job::{Column, Row};

use super::count;
use crate::compare::{Became, Difference, Differs};

/// A row that changed: `B, 12 holes: size 0.80 is 0.85; 2 locations are new, 2 are gone`.
pub(crate) fn changed(row: &Row, newer: &Row, differs: &Differs) -> String {
    let mut said = Vec::new();
    for cell in &differs.cells {
        let name = column(cell.column).name;
        said.push(match (cell.column, cell.was.as_str()) {
            (Column::Count, _) => format!("{} before, {} now", holes(row), newer.holes()),
            (Column::Note, "") => format!("{name}: {}", cell.is),
            (Column::Note, _) => format!("{name} goes on: {}", newer.note.text()),
            (_, "") => format!("{name} is now {}", cell.is),
            (_, was) => match cell.was_unit {
                None => format!("{name} was {was}, is {}", cell.is),
                Some(unit) => format!(
                    "{name} was {was} {}, is {} {}",
                    unit.symbol(),
                    cell.is,
                    cell.unit.symbol()
                ),
            },
        });
    }
    if let Some(places) = differs.places.filter(|places| !places.are_first) {
        let locations = |n: usize| {
            count(
                u64::try_from(n).unwrap_or(u64::MAX),
                "location",
                "locations",
            )
        };
        said.push(match (places.come, places.gone) {
            (0, gone) => format!("{} gone", locations(gone)),
            (come, 0) => format!("{} new", locations(come)),
            (come, gone) => format!("{} new, {gone} gone", locations(come)),
        });
    }
    format!("{}: {}", name(row), said.join("; "))
}

/// A row by its mark, holes, size and depth.
pub(crate) fn row(row: &Row) -> String {
    let size = match row.size.text() {
        "" => String::new(),
        size => format!(" of {size}"),
    };
    let depth = match row.depth.text() {
        "" => String::new(),
        depth => format!(", {depth} deep"),
    };
    format!("{}: {}{size}{depth}", name(row), holes(row))
}

/// How many rows are the same, changed, gone and new.
pub(crate) fn compared(same: usize, lines: &[Difference]) -> String {
    let of = |what| lines.iter().filter(|line| line.what == what).count();
    format!(
        "Compared with the rows that were there: {same} the same, {} changed, {} gone, {} new.",
        of(Became::Changed),
        of(Became::Gone),
        of(Became::Added)
    )
}

/// A row that differs, with what became of it before it.
pub(crate) fn line(line: &Difference) -> String {
    format!("{} {}.", became(line.what), line.says)
}

/// What became of a row, by word.
#[must_use]
pub const fn became(what: Became) -> &'static str {
    match what {
        Became::Changed => "changed:",
        Became::Gone => "gone:",
        Became::Added => "new:",
    }
}

fn name(row: &Row) -> String {
    match row.mark.text().trim() {
        "" => "a row without a mark".to_owned(),
        mark => mark.to_owned(),
    }
}

fn holes(row: &Row) -> String {
    count(u64::from(row.holes()), "hole", "holes")
}
