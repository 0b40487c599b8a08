//! Tables of holes that are drawn on a page: a line of heads, and lines of cells below it.

use quillbore_job::report::Source;
use quillbore_job::{Column, Job, RowsAt, Unit};

use super::callouts::speaks;
use super::line::{Line, Marks, around};
use crate::column::Holds;
use crate::error::IntakeError;
use crate::fits::NOTE;
use crate::foreign::{Foreign, all_places};
use crate::head::Head;
use crate::lines::Lines;
use crate::meaning::Meaning;
use crate::table::Taken;

/// A table on a page.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Chart {
    heads: Vec<String>,
    rows: Vec<Row>,
    foreign: Foreign,
    /// Columns that nobody understands, which go to the notes.
    pub(super) to_notes: Vec<String>,
}

#[derive(Clone, Debug, PartialEq)]
struct Row {
    cells: Vec<String>,
    place: [f64; 4],
    marks: Marks,
}

/// In parts of the letters' size: how far cells of one line stand off its base line, how far heads may be apart,
/// how far a table goes on beside its heads and from line to line; common practice, no source.
const OFF: f64 = 0.35;
const APART: f64 = 30.0;
const BESIDE: f64 = 8.0;
const BELOW: f64 = 4.0;

/// A table has few columns, and no more lines than this.
const MOST_COLUMNS: usize = 30;
const MOST_ROWS: usize = 5_000;

/// The tables of a page, and which of its lines stand in them.
pub(super) fn charts(lines: &[Line]) -> (Vec<Chart>, Vec<bool>) {
    let mut used = vec![false; lines.len()];
    let mut charts = Vec::new();
    let rows = rows(lines);
    for (number, row) in rows.iter().enumerate() {
        for heads in heads(lines, row, &used) {
            let Some((chart, taken)) = chart(
                lines,
                &heads,
                rows.get(number + 1..).unwrap_or_default(),
                &used,
            ) else {
                continue;
            };
            for at in taken {
                used[at] = true;
            }
            charts.push(chart);
        }
    }
    (charts, used)
}

/// Lines of text that stand in one line, from the top and the left.
fn rows(lines: &[Line]) -> Vec<Vec<usize>> {
    let way = |line: &Line| line.along.map(|part| (part * 1e4).round() as i64);
    let mut order: Vec<usize> = (0..lines.len()).collect();
    order.sort_by(|a, b| {
        let [one, other] = [a, b].map(|at| &lines[*at]);
        way(one)
            .cmp(&way(other))
            .then(one.base.total_cmp(&other.base))
    });
    let mut rows: Vec<Vec<usize>> = Vec::new();
    for at in order {
        let line = &lines[at];
        let same = rows
            .last()
            .and_then(|row| row.first())
            .is_some_and(|first| {
                let first = &lines[*first];
                way(first) == way(line) && line.base - first.base <= OFF * first.size.min(line.size)
            });
        match rows.last_mut() {
            Some(row) if same => row.push(at),
            _ => rows.push(vec![at]),
        }
    }
    for row in &mut rows {
        row.sort_by(|a, b| lines[*a].from.total_cmp(&lines[*b].from).then(a.cmp(b)));
    }
    rows
}

/// Parts of a line of texts that are heads of a table of holes.
fn heads(lines: &[Line], row: &[usize], used: &[bool]) -> Vec<Vec<usize>> {
    let mut parts: Vec<Vec<usize>> = Vec::new();
    for at in row.iter().copied().filter(|at| !used[*at]) {
        let near = parts
            .last()
            .and_then(|part| part.last())
            .is_some_and(|last| {
                let (last, line) = (&lines[*last], &lines[at]);
                line.from - last.to <= APART * line.size
            });
        match parts.last_mut() {
            Some(part) if near => part.push(at),
            _ => parts.push(vec![at]),
        }
    }
    parts.retain(|part| {
        let says = |at: &usize| Head::of(&lines[*at].text).says;
        let known = part.iter().filter(|at| says(at).may_be(None)).count();
        // Callouts in a row are no heads.
        let callouts = part.iter().filter(|at| speaks(&lines[**at].text)).count();
        let size = Meaning::Ours(Column::Size);
        let sized = part.iter().any(|at| says(at).may_be(Some(size)));
        part.len() <= MOST_COLUMNS
            && callouts < 2
            && (known >= 3 || (known >= 2 && sized))
            && 2 * known >= part.len()
    });
    parts
}

/// The table below heads, and the lines of text that stand in it.
fn chart(
    lines: &[Line],
    heads: &[usize],
    below: &[Vec<usize>],
    used: &[bool],
) -> Option<(Chart, Vec<usize>)> {
    let first = &lines[*heads.first()?];
    let last = &lines[*heads.last()?];
    let parts = heads.iter().zip(heads.iter().skip(1));
    let ends: Vec<f64> = parts
        .map(|(one, next)| (lines[*one].to + lines[*next].from) / 2.0)
        .collect();
    let (left, right) = (
        first.from - BESIDE * first.size,
        last.to + BESIDE * last.size,
    );
    let mut taken = heads.to_vec();
    let mut rows: Vec<Row> = Vec::new();
    let mut before = first.base;
    for row in below
        .iter()
        .take_while(|row| is_turned_alike(lines, row, first))
    {
        let within = row
            .iter()
            .copied()
            .filter(|at| !used[*at] && (left..=right).contains(&lines[*at].middle()));
        let within: Vec<usize> = within.collect();
        let Some(base) = within.first().map(|at| lines[*at].base) else {
            continue;
        };
        if base - before > BELOW * first.size || rows.len() == MOST_ROWS {
            break;
        }
        if within.len() < 2 {
            // A table ends where a line has one cell alone.
            break;
        }
        before = base;
        let mut cells = vec![String::new(); heads.len()];
        for at in &within {
            let column = ends.partition_point(|end| *end < lines[*at].middle());
            let cell = cells.get_mut(column)?;
            if !cell.is_empty() {
                cell.push(' ');
            }
            cell.push_str(lines[*at].text.trim());
        }
        let all = within.iter().map(|at| &lines[*at]);
        rows.push(Row {
            cells,
            place: all.clone().map(Line::place).reduce(around)?,
            marks: all.fold(Marks::default(), |marks, line| marks.and(line.marks)),
        });
        taken.extend(within);
    }
    let heads = heads.iter().map(|at| lines[*at].text.clone()).collect();
    Some((Chart::of(heads, rows)?, taken))
}

fn is_turned_alike(lines: &[Line], row: &[usize], first: &Line) -> bool {
    row.first().is_some_and(|at| {
        let along = lines[*at].along;
        (along[0] - first.along[0]).abs() < 1e-3 && (along[1] - first.along[1]).abs() < 1e-3
    })
}

impl Chart {
    /// A table of which some column holds sizes.
    fn of(heads: Vec<String>, rows: Vec<Row>) -> Option<Self> {
        let mut foreign = foreign(&heads, rows.iter()).ok()?;
        let size = Meaning::Ours(Column::Size);
        if rows.is_empty() || !foreign.columns.iter().any(|column| column.holds(size)) {
            return None;
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
        })
    }

    /// Its lines that are rows, each with its place.
    pub(super) fn rows(&self) -> impl Iterator<Item = (usize, [f64; 4], Marks)> {
        // The first line is the heads'.
        let rows = self.foreign.rows().filter_map(|(at, _)| at.checked_sub(1));
        rows.filter_map(|at| self.rows.get(at).map(|row| (at, row.place, row.marks)))
    }

    /// A line as one text.
    pub(super) fn text(&self, row: usize) -> String {
        let cells = self.rows.get(row).map(|row| row.cells.as_slice());
        cells.unwrap_or_default().join(" | ")
    }

    /// Its heads as one text.
    pub(super) fn heads_text(&self) -> String {
        self.heads.join(" | ")
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

fn foreign<'r>(
    heads: &[String],
    rows: impl Iterator<Item = &'r Row>,
) -> Result<Foreign, IntakeError> {
    let mut lines = Lines::default();
    lines.push(1, 0, heads.iter().map(String::as_str));
    for (number, row) in (2..).zip(rows) {
        lines.push(number, 0, row.cells.iter().map(String::as_str));
    }
    // Where it lies is told by whoever takes it.
    Foreign::of_lines(Source::named(""), lines, None, &all_places())
}
