//! A foreign table as one edit, and what was made of each of its lines.

use std::collections::BTreeMap;

use quillbore_calc::RowId;
use quillbore_calc::input::Place;
use quillbore_job::{CellAt, Column, Edit, Job, Unit, read_quantity};

use crate::columns::{Head, Meaning, heads};
use crate::delimited::split;
use crate::encoding::decode;
use crate::report::{Line, Outcome, Report};

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

/// Why a text could not be taken at all.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum IntakeError {
    /// The bytes are no text.
    #[error("This is no text file")]
    NotText,
    /// There is nothing in it.
    #[error("There is no line with anything in it")]
    Empty,
}

impl IntakeError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(self) -> &'static str {
        match self {
            Self::NotText => {
                "save the hole table from the spreadsheet as CSV or as tab-separated text"
            }
            Self::Empty => "give a table with one hole, or one kind of hole, a line",
        }
    }
}

/// Takes a block of text that was pasted with the cursor at `at`; `unit` is what bare numbers are
/// meant in unless the block's head says otherwise.
///
/// Without a head the cells go where the cursor stands, one beside the other.
///
/// # Errors
/// Where nothing is in the text.
pub fn take_block(job: &Job, text: &str, at: CellAt, unit: Unit) -> Result<Taken, IntakeError> {
    let cells = split(text);
    let mut lines = cells.lines.into_iter().peekable();
    let first = lines.peek().ok_or(IntakeError::Empty)?;
    let mut report = Report::default();
    match heads(&first.1) {
        Some(heads) => {
            lines.next();
            report.whole.push(says_heads(&heads));
            Ok(by_heads(job, at.row, &heads, lines.collect(), unit, report))
        }
        None => Ok(by_place(at, lines.collect(), unit, report)),
    }
}

/// Takes a file of delimited text as the hole table of a job; without a head its columns are
/// taken as mark, count, size, depth and so on, in the hole table's order.
///
/// # Errors
/// Where the bytes are no text, or nothing is in it.
pub fn take_file(job: &Job, bytes: &[u8], unit: Unit) -> Result<Taken, IntakeError> {
    let decoded = decode(bytes).ok_or(IntakeError::NotText)?;
    let at = CellAt {
        row: job.rows.len(),
        column: Column::Mark,
    };
    let mut taken = take_block(job, &decoded.text, at, unit)?;
    if decoded.guessed {
        taken.report.whole.push(format!(
            "The file does not say how its letters are stored; {} was taken: look at signs such as the diameter and plus-minus.",
            decoded.encoding
        ));
    }
    Ok(taken)
}

/// Cells side by side from the cursor on; what runs past the last column goes into the note.
fn by_place(at: CellAt, lines: Vec<(usize, Vec<String>)>, unit: Unit, mut report: Report) -> Taken {
    let room = Column::ALL.len()
        - Column::ALL
            .iter()
            .position(|c| *c == at.column)
            .unwrap_or(0);
    let mut rows = Vec::new();
    for (number, cells) in lines {
        let mut outcome = Outcome::Taken;
        let mut says = format!("taken, {} cells", cells.len());
        let mut row: Vec<Option<String>> = cells.iter().take(room).cloned().map(Some).collect();
        if cells.len() > room {
            let beyond = cells.get(room..).unwrap_or_default().join("; ");
            if let Some(Some(note)) = row.last_mut() {
                *note = format!("{note}; {beyond}");
            }
            outcome = Outcome::Guessed;
            says =
                format!("more cells than columns: \u{201c}{beyond}\u{201d} was put into the note");
        }
        rows.push(row);
        report.lines.push(Line {
            number,
            outcome,
            says,
        });
    }
    Taken {
        rows: rows.len(),
        edit: Edit::SetCells { at, rows, unit },
        report,
    }
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
    others: Vec<String>,
}

/// Cells by the meaning of their heads; lines that differ only in their place become one row.
fn by_heads(
    job: &Job,
    at_row: usize,
    heads: &[Head],
    lines: Vec<(usize, Vec<String>)>,
    context: Unit,
    mut report: Report,
) -> Taken {
    let unit = common_unit(heads).unwrap_or(context);
    let mut rows: Vec<BTreeMap<Column, String>> = Vec::new();
    let mut places: BTreeMap<usize, Vec<Place>> = BTreeMap::new();
    for (number, cells) in lines {
        let (sorted, mut guesses) = sort(heads, &cells, unit);
        let (place, why) = place_of(&sorted, unit);
        let mut row = sorted.cells;
        guesses.extend(limits(
            &mut row,
            sorted.tolerance,
            sorted.lower,
            sorted.upper,
        ));
        let mut others = sorted.others;
        if let Some(why) = why {
            others.extend(sorted.point.iter().chain(&sorted.axis).flatten().cloned());
            guesses.push(why);
        }
        if !others.is_empty() {
            let before = row.remove(&Column::Note).filter(|note| !note.is_empty());
            let note: Vec<String> = before.into_iter().chain(others).collect();
            row.insert(Column::Note, note.join("; "));
        }
        let same = place.is_some() && rows.last() == Some(&row);
        if !same {
            rows.push(row);
        }
        let index = rows.len() - 1;
        if let Some(mut place) = place {
            let row_places = places.entry(index).or_default();
            place.number = u32::try_from(row_places.len() + 1).unwrap_or(u32::MAX);
            row_places.push(place);
        }
        report.lines.push(match (same, guesses.is_empty()) {
            (true, _) => Line {
                number,
                outcome: Outcome::Taken,
                says: "taken as a further place of the row before".to_owned(),
            },
            (false, true) => Line {
                number,
                outcome: Outcome::Taken,
                says: "taken".to_owned(),
            },
            (false, false) => Line {
                number,
                outcome: Outcome::Guessed,
                says: guesses.join("; "),
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
fn common_unit(heads: &[Head]) -> Option<Unit> {
    let mut units = heads.iter().filter_map(|head| head.unit);
    let first = units.next()?;
    units.all(|unit| unit == first).then_some(first)
}

fn sort(heads: &[Head], cells: &[String], unit: Unit) -> (Sorted, Vec<String>) {
    let mut sorted = Sorted::default();
    let mut guesses = Vec::new();
    for (index, cell) in cells.iter().enumerate() {
        if cell.is_empty() {
            continue;
        }
        let Some(head) = heads.get(index) else {
            sorted.others.push(cell.clone());
            guesses.push(format!(
                "\u{201c}{cell}\u{201d} stands under no head and was put into the note"
            ));
            continue;
        };
        let text = with_unit(cell, head.unit.filter(|named| *named != unit));
        match head.meaning {
            Meaning::Ours(column) => {
                if let Some(before) = sorted.cells.insert(column, text) {
                    sorted.others.push(before);
                    guesses.push(format!(
                        "two columns look like \u{201c}{}\u{201d}: the first was put into the note",
                        head.text
                    ));
                }
            }
            Meaning::Tolerance => sorted.tolerance = Some(text),
            Meaning::Lower => sorted.lower = Some(text),
            Meaning::Upper => sorted.upper = Some(text),
            Meaning::Point(axis) => set(&mut sorted.point, axis, text),
            Meaning::Axis(axis) => set(&mut sorted.axis, axis, text),
            Meaning::Other => {
                sorted.others.push(format!("{}: {cell}", head.text));
                guesses.push(format!(
                    "\u{201c}{}\u{201d} is no column of the hole table and was put into the note",
                    head.text
                ));
            }
        }
    }
    (sorted, guesses)
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

fn says_heads(heads: &[Head]) -> String {
    let known: Vec<&str> = heads
        .iter()
        .filter(|head| head.meaning != Meaning::Other)
        .map(|head| head.text.as_str())
        .collect();
    format!(
        "The first line was taken as the head: {}.",
        known.join(", ")
    )
}
