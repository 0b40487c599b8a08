//! A table of holes that is drawn on a page: a line of heads, and lines of cells below it.

use quillbore_job::report::Source;
use quillbore_job::{Column, Job, RowsAt, Unit};

use super::across::begins_as_number;
use super::body::Row;
use super::callouts::{speaks, split_either};
use super::grid::Columns;
use super::heads::{is_of_every_row, of_size_and_more, signed_size};
use super::line::{Line, Marks};
use crate::column::Holds;
use crate::error::IntakeError;
use crate::fits::NOTE;
use crate::foreign::{Foreign, all_places};
use crate::lines::Lines;
use crate::meaning::Meaning;
use crate::no_row::Role;
use crate::table::Taken;
use crate::values::number_in;

/// A table on a page.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Chart {
    /// The lines of its heads.
    pub(super) heads: Vec<Vec<String>>,
    rows: Vec<Row>,
    foreign: Foreign,
    /// Columns that nobody understands, which go to the notes.
    pub(super) to_notes: Vec<String>,
    /// Where its columns stand.
    pub(super) columns: Columns,
    /// Where its last row stands.
    pub(super) ends: f64,
}

impl Chart {
    /// A table of which some column holds sizes, or two their limits.
    pub(super) fn of(
        mut heads: Vec<Vec<String>>,
        mut rows: Vec<Row>,
        columns: Columns,
        ends: f64,
    ) -> Option<Self> {
        let mut foreign = foreign(&heads, rows.iter()).ok()?;
        if !foreign.is_headed() {
            return None;
        }
        // Further lines of heads stand first of what is below.
        while foreign.layout.roles.get(&heads.len()) == Some(&Role::Head) && !rows.is_empty() {
            heads.push(rows.remove(0).cells);
        }
        if rows.is_empty() {
            return None;
        }
        if !has_sizes(&foreign) {
            say_signed_limits(&mut foreign);
        }
        if !has_sizes(&foreign) {
            let callouts = of_callouts(&foreign)?;
            foreign
                .say(callouts, Holds::A(Meaning::Ours(Column::Size)))
                .ok()?;
        }
        let mut to_notes = Vec::new();
        for question in foreign.questions() {
            foreign.say(question.column, Holds::A(NOTE)).ok()?;
            to_notes.push(question.head);
        }
        Some(Self {
            heads,
            rows,
            foreign,
            to_notes,
            columns,
            ends,
        })
    }

    /// Whether the texts of a line stand in its columns, below a base line where one is given.
    pub(super) fn is_like(
        &self,
        lines: &[Line],
        row: &[usize],
        used: &[bool],
        from: Option<f64>,
    ) -> bool {
        let within = self.columns.within(lines, row, used);
        let within: Vec<&Line> = within.into_iter().map(|at| &lines[at]).collect();
        let mut filled: Vec<usize> = within
            .iter()
            .map(|line| self.columns.column(line))
            .collect();
        filled.dedup();
        self.columns.is_turned_alike(lines, row)
            && within.iter().all(|line| self.columns.fits(line))
            && within
                .iter()
                .all(|line| from.is_none_or(|from| line.base > from))
            && within.iter().any(|line| begins_as_number(&line.text))
            && filled.len() == within.len()
            && filled.len() >= 2
            && 2 * filled.len() > self.columns.count()
    }

    /// Whether words stand right above a line in its columns, as heads of another table do.
    pub(super) fn is_headed_by(
        &self,
        lines: &[Line],
        above: &[usize],
        below: &[Vec<usize>],
    ) -> bool {
        let base = |row: &[usize]| row.first().map(|at| lines[*at].base);
        let apart = base(above)
            .zip(below.first().and_then(|row| base(row)))
            .map_or(f64::INFINITY, |(above, below)| below - above);
        let words = above.iter().map(|at| &lines[*at]);
        let words = words.filter(|line| self.columns.fits(line) && !begins_as_number(&line.text));
        apart <= HEADED * self.columns.size && words.count() >= 2
    }

    /// Whether the texts of a line are numbers where those of its rows are, and words where those are.
    pub(super) fn has_such(&self, lines: &[Line], row: &[usize], used: &[bool]) -> bool {
        let within = self.columns.within(lines, row, used);
        let mut texts = within
            .iter()
            .map(|at| (self.columns.column(&lines[*at]), &lines[*at].text));
        let heads = self.heads.first();
        texts.all(|(column, text)| {
            let head = heads.and_then(|heads| heads.get(column));
            if !head.is_some_and(|head| is_of_every_row(head)) {
                return true;
            }
            let cells = self.rows.iter().filter_map(|row| row.cells.get(column));
            let mut filled = cells.filter(|cell| !cell.is_empty());
            filled.any(|cell| begins_as_number(cell) == begins_as_number(text))
        })
    }

    /// Its lines that are rows, each with its place.
    pub(super) fn rows(&self) -> impl Iterator<Item = (usize, [f64; 4], Marks)> {
        let heads = self.heads.len();
        let rows = self.foreign.rows();
        let rows = rows.filter_map(move |(at, _)| at.checked_sub(heads));
        rows.filter_map(|at| self.rows.get(at).map(|row| (at, row.place, row.marks)))
    }

    /// A line as one text.
    pub(super) fn text(&self, row: usize) -> String {
        let cells = self.rows.get(row).map(|row| row.cells.as_slice());
        cells.unwrap_or_default().join(" | ")
    }

    /// Its heads as one text.
    pub(super) fn heads_text(&self) -> String {
        let first = self.heads.first().map(|heads| heads.join(" | "));
        first.unwrap_or_default()
    }

    /// The unit that its heads name.
    pub(super) fn named_unit(&self) -> Option<Unit> {
        let mut units = self.foreign.named_units();
        let first = units.next()?;
        units.all(|unit| unit == first).then_some(first)
    }

    /// Takes some of its lines as rows of a job's hole table.
    pub(super) fn take(&self, job: &Job, rows: &[usize], unit: Unit) -> Result<Taken, IntakeError> {
        let chosen = rows.iter().filter_map(|at| self.rows.get(*at));
        let mut foreign = foreign(&self.heads, chosen)?;
        for (at, column) in self.foreign.columns.iter().enumerate() {
            let now = foreign.columns.get(at).and_then(|column| column.holds);
            if let Some(holds) = column.holds.filter(|holds| now != Some(*holds)) {
                foreign.say(at, holds)?;
            }
        }
        foreign.take(job, RowsAt::Append, unit)
    }
}

/// The head that stands above sizes alone.
const SIZE: &str = "SIZE";

fn has_sizes(foreign: &Foreign) -> bool {
    let held = |meaning: Meaning| foreign.columns.iter().any(|column| column.holds(meaning));
    held(Meaning::Ours(Column::Size)) || (held(Meaning::Lower) && held(Meaning::Upper))
}

/// Says that `DIA +` and `DIA -` are the limits of a size, where their numbers are.
fn say_signed_limits(foreign: &mut Foreign) {
    let questions = foreign.questions();
    let signed = |sign: char| {
        let mut signed = questions.iter();
        signed.find(|question| signed_size(&question.head) == Some(sign))
    };
    let Some((upper, lower)) = signed('+').zip(signed('-')) else {
        return;
    };
    let is_limit = |row: crate::lines::Line<'_>| {
        let number = |column: usize| number_in(row.cell(column)?);
        let both = number(upper.column).zip(number(lower.column));
        both.is_some_and(|(upper, lower)| lower > 0.0 && (lower..=1.3 * lower).contains(&upper))
    };
    if foreign.rows().all(|(_, row)| is_limit(row)) {
        for (column, meaning) in [
            (upper.column, Meaning::Upper),
            (lower.column, Meaning::Lower),
        ] {
            if foreign.say(column, Holds::A(meaning)).is_err() {
                return;
            }
        }
    }
}

/// The column that nobody understands of which some cells are callouts.
fn of_callouts(foreign: &Foreign) -> Option<usize> {
    let is_callout = |cell: &str| speaks(cell) && split_either(cell).is_some();
    let questions = foreign
        .questions()
        .into_iter()
        .map(|question| question.column);
    let mut callouts = questions.filter(|column| {
        let mut cells = foreign.rows().filter_map(|(_, row)| row.cell(*column));
        cells.any(is_callout)
    });
    let only = callouts.next()?;
    callouts.next().is_none().then_some(only)
}

fn foreign<'r>(
    heads: &[Vec<String>],
    rows: impl Iterator<Item = &'r Row>,
) -> Result<Foreign, IntakeError> {
    let mut lines = Lines::default();
    let of_callouts = heads.first().and_then(|heads| of_size_and_more(heads));
    for heads in heads {
        let heads = heads.iter().enumerate();
        lines.push(
            1,
            0,
            heads.map(|(at, head)| match of_callouts == Some(at) {
                true => SIZE,
                false => head,
            }),
        );
    }
    for (number, row) in (2..).zip(rows) {
        lines.push(number, 0, row.cells.iter().map(String::as_str));
    }
    // Where it lies is told by whoever takes it.
    Foreign::of_lines(Source::named(""), lines, None, &all_places())
}

/// Heads stand so near above what is below them, in parts of the letters' size; common practice, no source.
const HEADED: f64 = 4.0;
