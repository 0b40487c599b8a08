//! A foreign table as one edit, and what was made of each of its lines.

use std::collections::BTreeMap;

use quillbore_calc::RowId;
use quillbore_calc::input::Place;
use quillbore_job::{CellAt, Column, Edit, Job, Row, Unit, read_cell, read_quantity};

use crate::columns::Meaning;
use crate::foreign::{Foreign, Holds};
use crate::report::{Line, Outcome, Report};
use crate::words;

/// What an intake comes to: one edit, one undo step, and a report.
#[derive(Clone, Debug, PartialEq)]
pub struct Taken {
    /// The edit.
    pub edit: Edit,
    /// Rows of the hole table that it writes.
    pub rows: usize,
    /// Line by line, what became of the text.
    pub report: Report,
}

/// One line of the foreign table, sorted by what its cells mean.
#[derive(Default)]
struct Sorted {
    cells: BTreeMap<Column, String>,
    tolerance: Option<String>,
    lower: Option<String>,
    upper: Option<String>,
    point: [Option<String>; 3],
    axis: [Option<String>; 3],
    notes: Vec<String>,
    left_out: Vec<String>,
}

/// Takes a table whose columns are all understood; lines that differ only in their place become
/// one row.
pub(crate) fn take(foreign: &Foreign, job: &Job, at_row: usize, context: Unit) -> Taken {
    let unit = common_unit(foreign).unwrap_or(context);
    let at_row = at_row.min(job.rows.len());
    let mut report = Report {
        whole: foreign.whole.clone(),
        lines: Vec::new(),
    };
    report.whole.extend(said(foreign));
    let mut rows: Vec<BTreeMap<Column, String>> = Vec::new();
    let mut places: BTreeMap<usize, Vec<Place>> = BTreeMap::new();
    for (number, cells) in &foreign.lines {
        let sorted = sort(foreign, cells, unit);
        let (place, why) = place_of(&sorted, unit);
        let mut row = sorted.cells;
        let mut guesses = limits(&mut row, sorted.tolerance, sorted.lower, sorted.upper);
        let mut notes = sorted.notes;
        if let Some(why) = why {
            notes.extend(sorted.point.iter().chain(&sorted.axis).flatten().cloned());
            guesses.push(why);
        }
        if !notes.is_empty() {
            row.insert(Column::Note, notes.join("; "));
        }
        let same = place.is_some() && rows.last() == Some(&row);
        let unread = unread(job, &row, unit);
        if !same {
            rows.push(row);
        }
        let index = rows.len() - 1;
        if let Some(mut place) = place {
            let row_places = places.entry(index).or_default();
            place.number = u32::try_from(row_places.len() + 1).unwrap_or(u32::MAX);
            row_places.push(place);
        }
        let outcome = match (unread.is_empty(), guesses.is_empty()) {
            (false, _) => Outcome::Unread,
            (true, false) => Outcome::Guessed,
            (true, true) => Outcome::Taken,
        };
        let further = same.then(|| "taken as a further place of the row before".to_owned());
        let all = further.into_iter().chain(unread).chain(guesses);
        let says: Vec<String> = all.chain(sorted.left_out).collect();
        report.lines.push(Line {
            number: *number,
            outcome,
            says: if says.is_empty() {
                "taken".to_owned()
            } else {
                says.join("; ")
            },
        });
    }
    let written = rows.len();
    let edit = edit_of(job, at_row, rows, places, unit);
    Taken {
        edit,
        rows: written,
        report,
    }
}

/// What somebody said of columns that were not understood.
fn said(foreign: &Foreign) -> impl Iterator<Item = String> {
    let columns = foreign.columns.iter().enumerate();
    columns.filter_map(|(at, column)| {
        let holds = column.holds.filter(|_| column.said)?;
        Some(words::said(&foreign.about(at), holds))
    })
}

/// What of a row can't be read, cell by cell.
fn unread(job: &Job, cells: &BTreeMap<Column, String>, unit: Unit) -> Vec<String> {
    let mut row = Row::default();
    for (column, text) in cells {
        read_cell::put(&mut row, *column, text, unit, job.angle_basis());
    }
    let columns = cells.keys().copied();
    columns
        .filter_map(|column| {
            let look = row.cell(column);
            Some(words::unread(column, look.text, look.why?))
        })
        .collect()
}

fn edit_of(
    job: &Job,
    at_row: usize,
    rows: Vec<BTreeMap<Column, String>>,
    places: BTreeMap<usize, Vec<Place>>,
    unit: Unit,
) -> Edit {
    let block = rows
        .into_iter()
        .map(|mut row| {
            Column::ALL
                .iter()
                .map(|column| row.remove(column))
                .collect()
        })
        .collect();
    let cells = Edit::SetCells {
        at: CellAt {
            row: at_row,
            column: Column::Mark,
        },
        rows: block,
        unit,
    };
    if places.is_empty() {
        return cells;
    }
    let mut edits = vec![cells];
    edits.extend(places.into_iter().map(|(index, places)| {
        let past = (at_row + index).checked_sub(job.rows.len());
        let row = match past {
            None => job
                .rows
                .get(at_row + index)
                .map_or(RowId::default(), |row| row.id),
            Some(past) => RowId(job.next_row + u32::try_from(past).unwrap_or(u32::MAX)),
        };
        Edit::SetPlaces { row, places }
    }));
    Edit::Together { edits }
}

/// The unit that the heads agree on; `None` where none names one, or they differ.
fn common_unit(foreign: &Foreign) -> Option<Unit> {
    let mut units = foreign.columns.iter().filter_map(|column| column.unit);
    let first = units.next()?;
    units.all(|unit| unit == first).then_some(first)
}

fn sort(foreign: &Foreign, cells: &[String], unit: Unit) -> Sorted {
    let mut sorted = Sorted::default();
    for (cell, column) in cells.iter().zip(&foreign.columns) {
        if cell.trim().is_empty() {
            // A block that was laid over cells empties those that it is empty over.
            if let (false, Some(Holds::A(Meaning::Ours(ours)))) = (foreign.headed, column.holds) {
                sorted.cells.entry(ours).or_insert_with(|| cell.clone());
            }
            continue;
        }
        let text = with_unit(cell, column.unit.filter(|named| *named != unit));
        match column.holds {
            Some(Holds::A(Meaning::Ours(Column::Note))) => {
                let head = column.head.as_str();
                sorted.notes.push(match column.said && !head.is_empty() {
                    true => format!("{head}: {cell}"),
                    false => cell.clone(),
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
fn limits(
    row: &mut BTreeMap<Column, String>,
    tolerance: Option<String>,
    lower: Option<String>,
    upper: Option<String>,
) -> Vec<String> {
    let nominal = row.get(&Column::Size).cloned();
    let (size, guess) = match (nominal, tolerance, lower, upper) {
        (nominal, None, Some(lower), Some(upper)) => {
            let guess = nominal.map(|nominal| {
                format!("the size {nominal} was left for its limits {lower} and {upper}")
            });
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
            (
                size,
                Some("the size and its limits could not be told apart".to_owned()),
            )
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
fn place_of(sorted: &Sorted, unit: Unit) -> (Option<Place>, Option<String>) {
    let [Some(x), Some(y), z] = &sorted.point else {
        let some = sorted.point.iter().chain(&sorted.axis).any(Option::is_some);
        return (
            None,
            some.then(|| {
                "a place needs x and y at least: what there was went into the note".to_owned()
            }),
        );
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
            None => (
                None,
                Some("the direction is no direction: it went into the note".to_owned()),
            ),
        },
        Err(why) => (None, Some(format!("the place went into the note: {why}"))),
    }
}
