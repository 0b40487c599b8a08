//! A foreign table as one edit, and what was made of each of its lines.

use std::collections::BTreeMap;
use std::sync::Arc;

use quillbore_calc::input::Place;
use quillbore_job::report::{LineOutcome, Report, ReportLine, Source};
use quillbore_job::row::RowReader;
use quillbore_job::{Column, Edit, Job, Row, RowsAt, Unit};

use crate::cell_words::{CellWord, TakenWord};
use crate::column::{ForeignColumn, Holds, How};
use crate::counts::{by_mark, counts_and_places, without_count};
use crate::error::IntakeError;
use crate::fits::COUNT;
use crate::foreign::Foreign;
use crate::from_note::{Kept, NotesRead, Remarks, end_of};
use crate::line::{Reading, join_depth, place_of, place_typed, sort};
use crate::lines::Line;
use crate::meaning::Meaning;
use crate::mend::{Mended, end_in_head};
use crate::new_row::{Cells, NewRow, edit_of, is_blank};
use crate::summary::{FromNotes, Summary, Units};
use crate::totals::Totals;
use crate::whole::Whole;
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
    /// It is of a drawing or a solid, whose rows have marks of ours and, as a rule, no limits.
    pub is_drawn: bool,
}

impl Foreign {
    /// Takes the table as rows of a job's hole table; `unit` is what bare numbers are meant in unless
    /// the head says otherwise.
    ///
    /// # Errors
    /// Where a column is not understood: nothing is taken then.
    pub fn take(&self, job: &Job, at: RowsAt, unit: Unit) -> Result<Taken, IntakeError> {
        let questions = self.questions();
        if !questions.is_empty() {
            return Err(IntakeError::NotUnderstood(questions));
        }
        if self.from != Source::Pasted && !self.may_have_holes() {
            return Err(IntakeError::NoSizes);
        }
        Ok(take(self, job, at, unit))
    }
}

impl Foreign {
    /// What the table comes to as its columns are understood now; bare numbers are in `unit` unless
    /// heads say otherwise. It reads every cell: to be kept until a column is said to hold something
    /// else.
    #[must_use]
    pub fn summary(&self, unit: Unit) -> Summary {
        let job = Job::default();
        let taking = Taking::of(self, &job, unit, Kept::default());
        let totals = Totals::of(self, &taking.rows);
        let mut named = self.named_units();
        let first = named.next();
        Summary {
            rows: totals.rows,
            holes: totals.holes,
            uncounted: totals.uncounted,
            sum: totals.sum,
            units: match first {
                Some(first) if named.all(|unit| unit == first) => Units::Named(first),
                Some(_) => Units::Several,
                None if self.said_unit().is_some() => Units::Named(self.unit(unit)),
                None if totals.in_cells => Units::InCells,
                None => Units::Unnamed {
                    looks: totals.looks,
                },
            },
            from_notes: taking.from_notes,
        }
    }
}

impl Foreign {
    /// Whether a column holds what tells one hole from another: a letter has marks and notes at most.
    fn may_have_holes(&self) -> bool {
        let tells = |column: &ForeignColumn| {
            !matches!(
                column.holds,
                None | Some(
                    Holds::LeftOut
                        | Holds::A(Meaning::Ours(Column::Mark | Column::Note | Column::Count))
                )
            )
        };
        // A head makes it a table, what somebody said of a column is so, and without rows nothing is doubted.
        let filled = |column: &ForeignColumn| column.look.filled > 0;
        self.is_headed()
            || !self.columns.iter().any(filled)
            || self
                .columns
                .iter()
                .any(|column| tells(column) || column.is_said())
    }
}

/// The rows so far, and what became of the lines that they were read from.
pub(crate) struct Taking<'a> {
    foreign: &'a Foreign,
    job: &'a Job,
    unit: Unit,
    pub(crate) rows: Vec<NewRow>,
    lines: Vec<ReportLine>,
    reader: RowReader,
    reading: Reading<'a>,
    /// The line as it was read to see what of it can't be.
    tried: Row,
    /// The table is a list of places and nothing else: all of it is one row.
    places_alone: bool,
    /// Rows have counts.
    counts: bool,
    /// What the head over the ends says, where it is a word for one.
    says_end: Option<CellWord>,
    /// Words of cells that were taken as others, each once, by their small letters.
    words: BTreeMap<(String, &'static str), TakenWord>,
    /// What is told of counts beside locations.
    of_counts: [Option<String>; 2],
    /// How many cells were taken apart, and the first of them with its line.
    splits: usize,
    first_split: Option<(usize, String)>,
    /// What the rows that it lies over have already.
    kept: Kept,
    notes: NotesRead,
    from_notes: FromNotes,
}

/// Takes a table whose columns are all understood; lines that differ only in their place become
/// one row.
fn take(foreign: &Foreign, job: &Job, at: RowsAt, context: Unit) -> Taken {
    let (at, lies_over) = match at {
        RowsAt::Over { row } => {
            let row = row.min(job.rows.len());
            (RowsAt::Over { row }, job.rows.len() - row)
        }
        RowsAt::Append | RowsAt::Replace => (at, 0),
    };
    let kept = match at {
        RowsAt::Over { row } => {
            let lines = foreign.rows().count();
            let there = job.rows.iter().skip(row).take(lines);
            Kept::of(there.map(AsRef::as_ref))
        }
        RowsAt::Append | RowsAt::Replace => Kept::default(),
    };
    let mut taking = Taking::of(foreign, job, context, kept);
    if foreign.laid {
        taking.leave_blank_end(lies_over);
    }
    if let (true, RowsAt::Over { row }) = (taking.places_alone, at) {
        let there = job.rows.get(row).map_or("", |row| row.note.text());
        taking.keep_note(there);
    }
    taking.ended(at)
}

impl<'a> Taking<'a> {
    /// Takes all rows of a table.
    pub(crate) fn of(foreign: &'a Foreign, job: &'a Job, context: Unit, kept: Kept) -> Self {
        let unit = foreign.unit(context);
        let mut taking = Self {
            foreign,
            job,
            unit,
            reading: Reading::of(foreign, unit),
            rows: Vec::new(),
            lines: Vec::new(),
            reader: RowReader::new(job.angle_basis()),
            tried: Row::default(),
            places_alone: foreign.is_places_alone(),
            counts: foreign
                .columns
                .iter()
                .any(|column| column.holds(COUNT) && column.look.filled > 0),
            says_end: end_in_head(&foreign.columns),
            words: BTreeMap::new(),
            of_counts: [None, None],
            splits: 0,
            first_split: None,
            kept,
            notes: NotesRead::default(),
            from_notes: FromNotes::default(),
        };
        for (at, line) in foreign.rows() {
            taking.line(at, line);
        }
        taking.of_counts = counts_and_places(&mut taking.rows);
        taking
    }

    /// The edit and the report.
    fn ended(mut self, at: RowsAt) -> Taken {
        let foreign = self.foreign;
        let totals = Totals::of(foreign, &self.rows);
        let as_it_stands = |line: &ReportLine| line.outcome == LineOutcome::Taken;
        // Cells that were pasted as they stand are typing by other means: nothing is to be said of them.
        let plain = foreign.is_typing()
            && self.words.is_empty()
            && self.splits == 0
            && self.lines.iter().all(as_it_stands);
        let whole = if plain {
            Vec::new()
        } else {
            let first_split = self.first_split.take();
            let splits =
                first_split.map(|(line, said)| words::split_cells(self.splits, line, &said));
            let words = (!self.words.is_empty()).then(|| words::words_taken(self.words.values()));
            let whole = Whole {
                foreign,
                unit: self.unit,
                sections: &self.reading.sections,
                totals: &totals,
            };
            whole
                .said()
                .into_iter()
                .chain(words)
                .chain(splits)
                .chain(words::notes::of_the_whole(self.from_notes))
                .chain(self.of_counts.into_iter().flatten())
                .collect()
        };
        self.lines.extend(totals.other_lines(foreign));
        self.lines.sort_by_key(|line| line.number);
        let report = Report {
            from: foreign.from.clone(),
            whole,
            taken: 0,
            lines: self.lines,
            outline: Vec::new(),
        };
        let kept = (!plain).then(|| Arc::new(report.in_short()));
        Taken {
            rows: self.rows.len(),
            edit: edit_of(at, self.rows, self.unit, kept),
            report,
            is_drawn: false,
        }
    }

    /// Takes one line: as a row, as a further place of the row before, or not at all where somebody
    /// left out all that stands in it.
    fn line(&mut self, at: usize, line: Line<'_>) {
        let (foreign, unit) = (self.foreign, self.unit);
        let sorted = sort(&self.reading, at, line);
        let (place, why) = place_of(&sorted, unit);
        let typed_place = (place.is_some() && self.counts).then(|| place_typed(&sorted));
        let mut row = sorted.cells;
        let mut mended = Mended::default();
        mended.size(&mut row, unit);
        let mut guesses = sorted.guesses;
        guesses.extend(sorted.limits.join(&mut row, unit));
        guesses.extend(join_depth(&mut row, sorted.depth_tolerance, unit));
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
        notes.extend(row.remove(&Column::Note).filter(|note| !note.is_empty()));
        if !notes.is_empty() {
            row.insert(Column::Note, notes.join("; "));
        }
        // A block that lies as it was laid is typing, and a location is one hole.
        if !foreign.laid && place.is_none() {
            let by_mark = by_mark(&mut row);
            let counted = self.counts && by_mark.is_none();
            guesses.extend(by_mark);
            guesses.extend(counted.then(|| without_count(&row)).flatten());
        }
        let says_end = sorted.says_end.or(self.says_end);
        let unread = self.read(&mut row, &mut mended, says_end);
        // A block that lies as it was laid is typing: its notes are notes.
        if !foreign.laid {
            let remarks = Remarks {
                texts: &sorted.remarks,
                row: &self.tried,
                basis: self.job.angle_basis(),
                kept: self.kept,
            };
            let found = remarks.read(&mut self.notes, &mut row, &mut guesses);
            self.from_notes.add(found);
        }
        if end_of(&self.tried).is_none() && !self.kept.end {
            mended.end_deep(&mut row);
        }
        guesses.extend(mended.guesses);
        // Locations alone below a row that has one are its own.
        let goes_on = !foreign.laid
            && !self.places_alone
            && place.is_some()
            && is_blank(&row)
            && self.rows.last().is_some_and(|row| !row.places.is_empty());
        if goes_on && let Some(above) = self.rows.last() {
            row.clone_from(&above.cells);
        }
        // Where it was laid a line empties the cells that it lies over; else it says nothing of a row.
        let empties = foreign.laid && !self.places_alone && !row.is_empty();
        let nothing = place.is_none() && is_blank(&row) && !empties;
        // The number of a line tells which one it was only where nothing else does.
        let marked = row
            .get(&Column::Mark)
            .is_some_and(|mark| !mark.trim().is_empty());
        let mut left_out = sorted.left_out;
        left_out.extend(sorted.row_number.filter(|_| !marked));
        left_out.extend(sorted.unit.filter(|_| !sorted.has_length));
        if nothing && left_out.is_empty() {
            return;
        }
        let outcome = match (unread.is_empty(), guesses.is_empty(), nothing) {
            (false, ..) => LineOutcome::Unread,
            (true, false, _) => LineOutcome::Guessed,
            (true, true, true) => LineOutcome::LeftOut,
            (true, true, false) if left_out.is_empty() => LineOutcome::Taken,
            (true, true, false) => LineOutcome::InPart,
        };
        for taken in mended.words {
            let key = (taken.word.to_lowercase(), taken.english);
            self.words.entry(key).or_insert(taken);
        }
        self.splits += mended.splits.len();
        if let (None, Some(first)) = (&self.first_split, mended.splits.first()) {
            self.first_split = Some((line.number, first.clone()));
        }
        let further = !nothing && self.put(row, place, typed_place);
        let further = further.then(|| words::FURTHER_PLACE.to_owned());
        let all = further.into_iter().chain(breaks).chain(unread);
        let all = all.chain(guesses).chain(mended.splits).chain(mended.read);
        let says: Vec<String> = all.chain(left_out).collect();
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

    /// What of a row can't be read, cell by cell, once what can be mended is.
    fn read(
        &mut self,
        row: &mut Cells,
        mended: &mut Mended,
        says_end: Option<CellWord>,
    ) -> Vec<String> {
        let mut unread = self.unread(row);
        let mut again = false;
        for (column, _) in &unread {
            again |= mended.unread(row, *column, says_end, self.unit);
        }
        if again {
            unread = self.unread(row);
        }
        let text = |column: Column| row.get(&column).map_or("", String::as_str);
        let said = unread.iter();
        said.map(|(column, why)| words::unread(*column, text(*column), why))
            .collect()
    }

    /// The cells of a row that can't be read, and why.
    fn unread(&mut self, cells: &Cells) -> Vec<(Column, String)> {
        let mut row = Row::default();
        for (column, text) in cells {
            self.reader.put(&mut row, *column, text, self.unit);
        }
        self.tried = row;
        let columns = cells.keys().copied();
        columns
            .filter_map(|column| Some((column, self.tried.cell(column).why?.to_owned())))
            .collect()
    }

    /// Puts a line's cells and place; true where they are a further place of the row before.
    fn put(&mut self, cells: Cells, place: Option<Place>, typed_place: Option<String>) -> bool {
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
            self.rows.push(NewRow {
                cells,
                places,
                typed_place,
            });
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

impl Foreign {
    /// Whether it is a block of cells that nobody said anything of, and that lies as it was pasted.
    fn is_typing(&self) -> bool {
        self.from == Source::Pasted
            && self.laid
            && self.separator.is_none()
            && self.layout.roles.is_empty()
            && self
                .columns
                .iter()
                .all(|column| column.look.filled == 0 || column.how == How::Place)
    }
}
