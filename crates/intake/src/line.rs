//! One line of a foreign table: its cells by what they mean, its size, its place.

use std::collections::BTreeMap;

use quillbore_calc::input::Place;
use quillbore_job::{Column, Unit, read_quantity};

use crate::column::{ForeignColumn, Holds};
use crate::columns::Meaning;
use crate::lines::Line;
use crate::words;

/// One line of the foreign table, sorted by what its cells mean.
#[derive(Default)]
pub(crate) struct Sorted {
    pub(crate) cells: BTreeMap<Column, String>,
    pub(crate) tolerance: Option<String>,
    pub(crate) lower: Option<String>,
    pub(crate) upper: Option<String>,
    pub(crate) point: [Option<String>; 3],
    pub(crate) axis: [Option<String>; 3],
    pub(crate) notes: Vec<String>,
    pub(crate) left_out: Vec<String>,
}

/// Sorts a line's cells by what their columns hold; without a head, empty cells count too.
pub(crate) fn sort(columns: &[ForeignColumn], headed: bool, line: Line<'_>, unit: Unit) -> Sorted {
    let mut sorted = Sorted::default();
    for (cell, column) in line.cells().zip(columns) {
        if cell.trim().is_empty() {
            // A block that was laid over cells empties those that it is empty over.
            if let (false, Some(Holds::A(Meaning::Ours(ours)))) = (headed, column.holds) {
                sorted.cells.entry(ours).or_insert_with(|| cell.to_owned());
            }
            continue;
        }
        let text = with_unit(cell, column.unit.filter(|named| *named != unit));
        match column.holds {
            Some(Holds::A(Meaning::Ours(Column::Note))) => {
                let head = column.head.as_str();
                sorted.notes.push(match column.said && !head.is_empty() {
                    true => format!("{head}: {cell}"),
                    false => cell.to_owned(),
                });
            }
            Some(Holds::A(Meaning::Ours(ours))) => {
                sorted.cells.insert(ours, text);
            }
            Some(Holds::A(Meaning::Tolerance)) => sorted.tolerance = Some(text),
            Some(Holds::A(Meaning::Lower)) => sorted.lower = Some(text),
            Some(Holds::A(Meaning::Upper)) => sorted.upper = Some(text),
            Some(Holds::A(Meaning::Point(axis))) => set(&mut sorted.point, axis, text),
            Some(Holds::A(Meaning::Axis(axis))) => set(&mut sorted.axis, axis, text),
            Some(Holds::LeftOut) => {
                sorted
                    .left_out
                    .push(words::cell_left_out(&column.head, cell));
            }
            // Nothing is taken before every column with something in it is understood.
            None => {}
        }
    }
    sorted
}

fn set(parts: &mut [Option<String>; 3], index: usize, text: String) {
    if let Some(part) = parts.get_mut(index) {
        *part = Some(text);
    }
}

/// A bare number with the unit that its own head names.
fn with_unit(cell: &str, unit: Option<Unit>) -> String {
    let bare = !cell.chars().any(char::is_alphabetic);
    match unit {
        Some(Unit::Mm) if bare => format!("{cell} mm"),
        Some(Unit::Inch) if bare => format!("{cell} in"),
        _ => cell.to_owned(),
    }
}

/// Joins a tolerance, or lower and upper limits, to the size; says what was guessed.
pub(crate) fn limits(
    row: &mut BTreeMap<Column, String>,
    tolerance: Option<String>,
    lower: Option<String>,
    upper: Option<String>,
) -> Vec<String> {
    let nominal = row.get(&Column::Size).cloned();
    let (size, guess) = match (nominal, tolerance, lower, upper) {
        (nominal, None, Some(lower), Some(upper)) => {
            let guess = nominal.map(|nominal| words::left_for_limits(&nominal, &lower, &upper));
            (format!("{lower}/{upper}"), guess)
        }
        (None, None, None, Some(upper)) => (format!("{upper} MAX"), None),
        (Some(nominal), Some(tolerance), None, None) => (joined(&nominal, &tolerance), None),
        (nominal, tolerance, lower, upper) => {
            let parts: Vec<String> = [tolerance, lower, upper].into_iter().flatten().collect();
            if parts.is_empty() {
                return Vec::new();
            }
            let size = nominal
                .into_iter()
                .chain(parts)
                .collect::<Vec<_>>()
                .join(" ");
            (size, Some(words::SIZE_AND_LIMITS.to_owned()))
        }
    };
    row.insert(Column::Size, size);
    guess.into_iter().collect()
}

/// `0.8` and `0.02` are 0.8 plus or minus 0.02; a signed tolerance or a fit class stands as it is.
fn joined(nominal: &str, tolerance: &str) -> String {
    let plain = tolerance
        .chars()
        .all(|letter| letter.is_ascii_digit() || matches!(letter, '.' | ','));
    if plain {
        format!("{nominal} +-{tolerance}")
    } else {
        format!("{nominal} {tolerance}")
    }
}

/// The place that a line names, or why it can't be read; its number is set by the caller.
pub(crate) fn place_of(sorted: &Sorted, unit: Unit) -> (Option<Place>, Option<String>) {
    let [Some(x), Some(y), z] = &sorted.point else {
        let some = sorted.point.iter().chain(&sorted.axis).any(Option::is_some);
        return (None, some.then(|| words::HALF_A_PLACE.to_owned()));
    };
    let coordinate =
        |text: &str| read_quantity::coordinate(text, unit).map(quillbore_calc::Length::mm);
    let read = || -> Result<Place, read_quantity::Misread> {
        let z_mm = z.as_deref().map_or(Ok(0.0), coordinate)?;
        let axis = match &sorted.axis {
            [None, None, None] => [0.0, 0.0, -1.0],
            parts => {
                let mut axis = [0.0; 3];
                for (part, text) in axis.iter_mut().zip(parts) {
                    *part = text
                        .as_deref()
                        .map_or(Ok(0.0), read_quantity::vector_part)?;
                }
                axis
            }
        };
        Ok(Place {
            number: 0,
            point_mm: [coordinate(x)?, coordinate(y)?, z_mm],
            axis,
        })
    };
    match read() {
        Ok(place) => match quillbore_calc::direction::unit(place.axis) {
            Some(axis) => (Some(Place { axis, ..place }), None),
            None => (None, Some(words::NO_DIRECTION.to_owned())),
        },
        Err(why) => (None, Some(words::place_unread(&why.to_string()))),
    }
}
