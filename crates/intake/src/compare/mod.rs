//! A newer table, drawing or solid beside the hole table that is there: what is added, gone and changed, as
//! one edit that leaves alone what is the same.

mod differ;
mod most;
mod pairs;

use std::collections::BTreeSet;
use std::sync::Arc;

use quillbore_calc::RowId;
use quillbore_job::apply::{EditRefused, apply};
use quillbore_job::report::Report;
use quillbore_job::{CellAt, Column, Edit, Job, Row, RowsAt, Unit};

use crate::drawn::Marks;
use crate::table::Taken;
use crate::words::compare as words;
pub(crate) use differ::Differs;
use differ::differs;
use pairs::pairs;

/// What a newer file says beside the hole table that is there.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// Rows that are the same.
    pub same: usize,
    /// What differs: changed rows in the table's order, then gone ones, then added ones.
    pub lines: Vec<Difference>,
    /// Makes the hole table what the newer file says; what nothing is said of stays.
    pub edit: Edit,
}

/// A row that differs.
#[derive(Clone, Debug, PartialEq)]
pub struct Difference {
    /// What became of it.
    pub what: Became,
    /// In words.
    pub says: String,
}

/// What became of a row from one revision to the next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Became {
    /// It is there in both, and differs.
    Changed,
    /// It is there no more.
    Gone,
    /// It is new.
    Added,
}

impl Comparison {
    /// How many rows became so.
    #[must_use]
    pub fn count(&self, what: Became) -> usize {
        self.lines.iter().filter(|line| line.what == what).count()
    }
}

/// Compares what was taken of a file in place of the whole table ([`RowsAt::Replace`]) with the rows of a job.
///
/// Rows are told for one another by what is specified, by the file's marks, by their locations, by their size,
/// in this order. What the file says nothing of stays as it is: limits that a solid doesn't show, cells that a
/// table leaves empty. What was answered and overruled of a row stays with it.
///
/// # Errors
/// Where the job can't take what was taken.
pub fn compare(job: &Job, taken: &Taken) -> Result<Comparison, EditRefused> {
    let (after, _) = apply(job, &taken.edit)?;
    let pairs = pairs(&job.rows, &after.rows, taken.is_drawn);
    let mut lines = Vec::new();
    let mut edits = Vec::new();
    let mut same = 0;
    for (at, row) in job.rows.iter().enumerate() {
        let Some(other) = pairs.get(&at).and_then(|to| after.rows.get(*to)) else {
            continue;
        };
        let differs = differs(row, other, taken.is_drawn);
        if differs.is_none() {
            same += 1;
        } else {
            lines.push(Difference {
                what: Became::Changed,
                says: words::changed(row, other, &differs),
            });
        }
        edits.extend(edits_of(at, row, other, &differs));
    }
    let comes: BTreeSet<usize> = pairs.values().copied().collect();
    let gone = job.rows.iter().enumerate();
    let gone: Vec<&Arc<Row>> = gone
        .filter(|(at, _)| !pairs.contains_key(at))
        .map(|(_, row)| row)
        .collect();
    lines.extend(gone.iter().map(|row| Difference {
        what: Became::Gone,
        says: words::row(row),
    }));
    let added = after.rows.iter().enumerate();
    let added = added.filter(|(at, _)| !comes.contains(at));
    let mut marks = Marks::beside(job, RowsAt::Append);
    let added: Vec<Row> = added
        .map(|(_, row)| remarked(row, taken.is_drawn, &mut marks))
        .collect();
    lines.extend(added.iter().map(|row| Difference {
        what: Became::Added,
        says: words::row(row),
    }));
    let gone: Vec<RowId> = gone.iter().map(|row| row.id).collect();
    if !gone.is_empty() {
        edits.push(Edit::DeleteRows { rows: gone });
    }
    let mut report = taken.report.in_short();
    report.whole.push(words::compared(same, &lines));
    report.whole.extend(lines.iter().map(words::line));
    edits.push(appended(&added, unit_of(&taken.edit), report));
    // What the edit said beside the rows: the part's size, where nobody gave one.
    let beside = match &taken.edit {
        Edit::Together { edits } => edits.as_slice(),
        _ => &[],
    };
    let beside = beside
        .iter()
        .filter(|edit| !matches!(edit, Edit::SetRows { .. }));
    Ok(Comparison {
        same,
        lines,
        edit: Edit::Together {
            edits: beside.cloned().chain(edits).collect(),
        },
    })
}

/// A row that comes anew, with a mark of its own where the file has none for it.
fn remarked(row: &Row, is_drawn: bool, marks: &mut Marks) -> Row {
    let mut row = row.clone();
    if is_drawn {
        let basis = quillbore_job::field::AngleBasis::default();
        quillbore_job::row::put(&mut row, Column::Mark, &marks.next(), Unit::Mm, basis);
    }
    row
}

/// The edits that make a row what the other one says.
fn edits_of(at: usize, row: &Row, other: &Row, differs: &Differs) -> Vec<Edit> {
    let mut edits = Vec::new();
    // A row's cells may have been typed in different units.
    for unit in [Unit::Mm, Unit::Inch] {
        let text = |column: &Column| {
            let cell = differs.cells.iter().find(|cell| cell.column == *column)?;
            (cell.unit == unit).then(|| cell.is.clone())
        };
        let cells: Vec<Option<String>> = Column::ALL.iter().map(text).collect();
        if cells.iter().any(Option::is_some) {
            let column = Column::Mark;
            edits.push(Edit::SetCells {
                at: CellAt { row: at, column },
                rows: vec![cells],
                unit,
            });
        }
    }
    if differs.places.is_some() {
        edits.push(Edit::SetPlaces {
            row: row.id,
            places: other.places.to_vec(),
        });
    }
    edits
}

/// The unit that the rows of an edit are typed in.
fn unit_of(edit: &Edit) -> Unit {
    let rows = |edit: &Edit| match edit {
        Edit::SetRows { unit, .. } => Some(*unit),
        _ => None,
    };
    let unit = match edit {
        Edit::Together { edits } => edits.iter().find_map(rows),
        edit => rows(edit),
    };
    unit.unwrap_or_default()
}

/// The rows that come anew, typed in their file's unit, with the report.
fn appended(rows: &[Row], unit: Unit, report: Report) -> Edit {
    let texts = |row: &Row| {
        let text = |column: &Column| {
            let text = row.cell(*column).text;
            (!text.is_empty()).then(|| text.to_owned())
        };
        Column::ALL.iter().map(text).collect()
    };
    Edit::SetRows {
        at: RowsAt::Append,
        cells: rows.iter().map(texts).collect(),
        places: rows.iter().map(|row| row.places.to_vec()).collect(),
        unit,
        report: Some(Arc::new(report)),
    }
}
