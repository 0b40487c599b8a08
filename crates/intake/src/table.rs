//! A foreign table as one edit, and what was made of each of its lines.

use std::collections::BTreeMap;
use std::sync::Arc;

use quillbore_calc::input::Place;
use quillbore_job::report::{LineOutcome, Report, ReportLine, Source};
use quillbore_job::{Column, Edit, Job, Row, RowsAt, Unit, row};

use crate::error::IntakeError;
use crate::foreign::Foreign;
use crate::line::{limits, place_of, sort};
use crate::lines::Line;
use crate::words;

/// What an intake comes to: one edit, one undo step, and a report.
#[derive(Clone, Debug, PartialEq)]
pub struct Taken {
    /// The edit; it carries the report in short, where there is more to say than that every line was
    /// taken.
    pub edit: Edit,
    /// Rows of the hole table that it writes.
    pub rows: usize,
    /// Line by line, what became of the text.
    pub report: Report,
}

impl Foreign {
    /// Takes the table as rows of a job's hole table; `unit` is what bare numbers are meant in unless
    /// the head says otherwise.
    ///
    /// # Errors
    /// Where a column is not understood: nothing is taken then.
    pub fn take(&self, job: &Job, at: RowsAt, unit: Unit) -> Result<Taken, IntakeError> {
        let questions = self.questions();
        if questions.is_empty() {
            return Ok(take(self, job, at, unit));
        }
        Err(IntakeError::NotUnderstood(questions))
    }
}

/// A row on its way into the hole table.
struct NewRow {
    cells: BTreeMap<Column, String>,
    places: Vec<Place>,
}

impl NewRow {
    /// Gives it a further place, where there is one; true where there is.
    fn add(&mut self, place: Option<Place>) -> bool {
        let number = u32::try_from(self.places.len() + 1).unwrap_or(u32::MAX);
        let place = place.map(|place| Place { number, ..place });
        self.places.extend(place);
        place.is_some()
    }

    fn add_to_note(&mut self, more: &str) {
        let note = self.cells.entry(Column::Note).or_default();
        if !note.is_empty() && !more.is_empty() {
            note.push_str("; ");
        }
        note.push_str(more);
    }

    fn is_blank(&self) -> bool {
        self.places.is_empty() && is_blank(&self.cells)
    }
}

fn is_blank(cells: &BTreeMap<Column, String>) -> bool {
    cells.values().all(|text| text.trim().is_empty())
}

/// The rows so far, and what became of the lines that they were read from.
struct Taking {
    rows: Vec<NewRow>,
    lines: Vec<ReportLine>,
    /// The line before as it was read to see what of it can't be.
    tried: Row,
    /// The table is a list of places and nothing else: all of it is one row.
    places_alone: bool,
}

/// Takes a table whose columns are all understood; lines that differ only in their place become
/// one row.
fn take(foreign: &Foreign, job: &Job, at: RowsAt, context: Unit) -> Taken {
    let unit = common_unit(foreign).unwrap_or(context);
    let (at, lies_over) = match at {
        RowsAt::Over { row } => {
            let row = row.min(job.rows.len());
            (RowsAt::Over { row }, job.rows.len() - row)
        }
        RowsAt::Append | RowsAt::Replace => (at, 0),
    };
    let mut taking = Taking {
        rows: Vec::new(),
        lines: Vec::new(),
        tried: Row::default(),
        places_alone: foreign.is_places_alone(),
    };
    for line in foreign.taken() {
        taking.line(foreign, job, line, unit);
    }
    if !foreign.headed {
        taking.leave_blank_end(lies_over);
    }
    if let (true, RowsAt::Over { row }) = (taking.places_alone, at) {
        let there = job.rows.get(row).map_or("", |row| row.note.text());
        taking.keep_note(there);
    }
    let Taking { rows, lines, .. } = taking;
    let said: Vec<String> = said(foreign).collect();
    let as_it_stands = |line: &ReportLine| line.outcome == LineOutcome::Taken;
    // Cells that were pasted as they stand are typing by other means: nothing is to be said of them.
    let plain = foreign.from == Source::Pasted
        && !foreign.headed
        && said.is_empty()
        && lines.iter().all(as_it_stands);
    let mut whole = foreign.whole.clone();
    if !plain {
        whole.push(words::units(unit, &other_units(foreign, unit)));
    }
    whole.extend(said);
    let report = Report {
        from: foreign.from.clone(),
        whole,
        taken: 0,
        lines,
    };
    let kept = (!plain).then(|| Arc::new(report.in_short()));
    Taken {
        rows: rows.len(),
        edit: edit_of(at, rows, unit, kept),
        report,
    }
}

impl Taking {
    /// Takes one line: as a row, as a further place of the row before, or not at all where somebody
    /// left out all that stands in it.
    fn line(&mut self, foreign: &Foreign, job: &Job, line: Line<'_>, unit: Unit) {
        let sorted = sort(&foreign.columns, foreign.headed, line, unit);
        let (place, why) = place_of(&sorted, unit);
        let mut row = sorted.cells;
        let mut guesses = limits(&mut row, sorted.tolerance, sorted.lower, sorted.upper);
        let breaks = (line.breaks > 0).then(|| words::line_breaks(line.breaks));
        // In a single column nothing tells the lines of a cell from those of the table.
        let (guess, breaks) = match foreign.columns.len() {
            1 => (breaks, None),
            _ => (None, breaks),
        };
        guesses.extend(guess);
        let mut notes = sorted.notes;
        if let Some(why) = why {
            notes.extend(sorted.point.iter().chain(&sorted.axis).flatten().cloned());
            guesses.push(why);
        }
        if !notes.is_empty() {
            row.insert(Column::Note, notes.join("; "));
        }
        let unread = unread(job, &row, unit, &mut self.tried);
        // Without a head a line empties the cells that it lies over; else it says nothing of a row.
        let empties = !foreign.headed && !self.places_alone && !row.is_empty();
        let nothing = place.is_none() && is_blank(&row) && !empties;
        if nothing && sorted.left_out.is_empty() {
            return;
        }
        let outcome = match (unread.is_empty(), guesses.is_empty(), nothing) {
            (false, ..) => LineOutcome::Unread,
            (true, false, _) => LineOutcome::Guessed,
            (true, true, true) => LineOutcome::LeftOut,
            (true, true, false) if sorted.left_out.is_empty() => LineOutcome::Taken,
            (true, true, false) => LineOutcome::InPart,
        };
        let further = !nothing && self.put(row, place);
        let further = further.then(|| words::FURTHER_PLACE.to_owned());
        let all = further.into_iter().chain(breaks).chain(unread);
        let all = all.chain(guesses);
        let says: Vec<String> = all.chain(sorted.left_out).collect();
        self.lines.push(ReportLine {
            number: u32::try_from(line.number).unwrap_or(u32::MAX),
            outcome,
            says: if says.is_empty() {
                words::TAKEN.to_owned()
            } else {
                says.join("; ")
            },
        });
    }

    /// Puts a line's cells and place; true where they are a further place of the row before.
    fn put(&mut self, cells: BTreeMap<Column, String>, place: Option<Place>) -> bool {
        if self.places_alone
            && let Some(row) = self.rows.last_mut()
        {
            if let Some(note) = cells.get(&Column::Note) {
                row.add_to_note(note);
            }
            return row.add(place);
        }
        // A row without places stands for itself: a place would take its number of holes away.
        let same = |row: &NewRow| !row.places.is_empty() && row.cells == cells;
        let further = place.is_some() && self.rows.last().is_some_and(same);
        if !further {
            let places = Vec::new();
            self.rows.push(NewRow { cells, places });
        }
        if let Some(row) = self.rows.last_mut() {
            row.add(place);
        }
        further
    }

    /// A list of places that lies over a row leaves its note: what can't be read is added to it.
    fn keep_note(&mut self, there: &str) {
        if let Some(row) = self.rows.first_mut()
            && let Some(more) = row.cells.remove(&Column::Note)
        {
            row.add_to_note(there);
            row.add_to_note(&more);
        }
    }

    /// Blank lines at a block's end that lie over no row are none.
    fn leave_blank_end(&mut self, lies_over: usize) {
        let mut at = self.lines.len();
        while self.rows.len() > lies_over && self.rows.last().is_some_and(NewRow::is_blank) {
            self.rows.pop();
            // A blank row was read from one line, since only places are put together.
            at = at.saturating_sub(1);
            let Some(line) = self.lines.get_mut(at) else {
                return;
            };
            if line.outcome == LineOutcome::Taken {
                self.lines.remove(at);
            } else {
                line.outcome = LineOutcome::LeftOut;
            }
        }
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

/// What of a row can't be read, cell by cell; the row `before` was read in the same way and saves
/// reading what is the same, and this one is the next one's.
fn unread(
    job: &Job,
    cells: &BTreeMap<Column, String>,
    unit: Unit,
    before: &mut Row,
) -> Vec<String> {
    let mut row = Row::default();
    let basis = job.angle_basis();
    for (column, text) in cells {
        row::put_after(&mut row, *column, text, unit, basis, Some(before));
    }
    *before = row;
    let row = before;
    let columns = cells.keys().copied();
    columns
        .filter_map(|column| {
            let look = row.cell(column);
            Some(words::unread(column, look.text, look.why?))
        })
        .collect()
}

fn edit_of(at: RowsAt, rows: Vec<NewRow>, unit: Unit, report: Option<Arc<Report>>) -> Edit {
    let (mut cells, mut places) = (Vec::new(), Vec::new());
    for mut row in rows {
        let columns = Column::ALL.iter();
        cells.push(columns.map(|column| row.cells.remove(column)).collect());
        places.push(row.places);
    }
    Edit::SetRows {
        at,
        cells,
        places,
        unit,
        report,
    }
}

/// The unit that the heads agree on; `None` where none names one, or they differ.
fn common_unit(foreign: &Foreign) -> Option<Unit> {
    let mut units = foreign.columns.iter().filter_map(|column| column.unit);
    let first = units.next()?;
    units.all(|unit| unit == first).then_some(first)
}

/// The heads that name another unit than the one that bare numbers are read in.
fn other_units(foreign: &Foreign, unit: Unit) -> Vec<(&str, Unit)> {
    let columns = foreign.columns.iter();
    let named = columns.filter_map(|column| Some((column.head.as_str(), column.unit?)));
    named.filter(|(_, named)| *named != unit).collect()
}
