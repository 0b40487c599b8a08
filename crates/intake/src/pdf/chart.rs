//! Tables of holes that are drawn on a page: a line of heads, and lines of cells below it.

use quillbore_job::report::Source;
use quillbore_job::{Column, Job, RowsAt, Unit};

use super::body::{Row, begins_as_number, body, said};
use super::callouts::{speaks, split_either};
use super::grid::{Columns, rows};
use super::heads::{heads, is_of_every_row, of_size_and_more, signed_size};
use super::line::{Line, Marks};
use super::notice::Notice;
use crate::column::Holds;
use crate::error::IntakeError;
use crate::fits::NOTE;
use crate::foreign::{Foreign, all_places};
use crate::head::Head;
use crate::lines::Lines;
use crate::meaning::Meaning;
use crate::no_row::Role;
use crate::table::Taken;
use crate::values::number_in;

/// A table on a page.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Chart {
    /// The lines of its heads.
    heads: Vec<Vec<String>>,
    rows: Vec<Row>,
    foreign: Foreign,
    /// Columns that nobody understands, which go to the notes.
    pub(super) to_notes: Vec<String>,
    /// Where its columns stand.
    columns: Columns,
    /// Where its last row stands.
    ends: f64,
}

/// The tables of a page.
#[derive(Default)]
pub(super) struct Charts {
    pub(super) charts: Vec<Chart>,
    /// Which lines of the page stand in them.
    pub(super) used: Vec<bool>,
    /// Which stand in what may be a table, so that those below each other are no callout.
    pub(super) apart: Vec<bool>,
    pub(super) notices: Vec<Notice>,
    /// How many heads had no table below them.
    in_vain: usize,
}

/// The tables of a page, and what goes on of those of the page before it.
pub(super) fn charts(lines: &[Line], before: &[Chart]) -> Charts {
    let mut all = Charts {
        used: vec![false; lines.len()],
        apart: vec![false; lines.len()],
        ..Charts::default()
    };
    let rows = rows(lines);
    for (number, row) in rows.iter().enumerate() {
        let below = rows.get(number + 1..).unwrap_or_default();
        let found = heads(lines, row, &all.used);
        for (part, heads) in found.iter().enumerate() {
            if all.in_vain == MOST_LOOKED_AT {
                break;
            }
            let beside = |part: Option<usize>| found.get(part?);
            let others = [
                beside(part.checked_sub(1)).and_then(|heads| heads.last().copied()),
                beside(Some(part + 1)).and_then(|heads| heads.first().copied()),
            ];
            all.add(lines, heads, others, below);
        }
    }
    let before = before.get(before.len().saturating_sub(MOST_LOOKED_AT)..);
    let before = before.unwrap_or_default();
    for chart in before {
        all.go_on(lines, &rows, chart);
    }
    all.tell_like(lines, &rows, before);
    all
}

/// Heads stand so near above what is below them, in parts of the letters' size; common practice, no source.
const HEADED: f64 = 4.0;

/// So many tables of a page are looked at for lines that go on with them, and so many heads for what may be tables.
const MOST_LOOKED_AT: usize = 50;

impl Charts {
    /// The table below heads, if it is one.
    fn add(
        &mut self,
        lines: &[Line],
        heads: &[usize],
        others: [Option<usize>; 2],
        below: &[Vec<usize>],
    ) {
        let Some((mut columns, from)) =
            Columns::below(lines, heads, others).zip(heads.first().map(|first| lines[*first].base))
        else {
            return;
        };
        let mut texts: Vec<String> = heads.iter().map(|at| lines[*at].text.clone()).collect();
        let body = body(lines, &mut columns, &mut texts, from, below, &self.used);
        if body.rows.is_empty() {
            return;
        }
        let mut taken = heads.to_vec();
        taken.extend(body.taken);
        let speaks_of_sizes = may_be_sized(&texts)
            || body
                .rows
                .iter()
                .any(|row| row.cells.iter().any(|cell| speaks(cell)));
        let heads_text = texts.join(" | ");
        match Chart::of(vec![texts], body.rows, columns, body.ends) {
            Some(chart) => {
                taken.iter().for_each(|at| self.used[*at] = true);
                self.notices
                    .extend(body.alone.into_iter().map(Notice::Alone));
                self.charts.push(chart);
            }
            None => {
                self.in_vain += 1;
                taken.iter().for_each(|at| self.apart[*at] = true);
                if speaks_of_sizes {
                    self.notices.push(Notice::NoSizes(heads_text));
                }
            }
        }
    }

    /// What goes on of a table of the page before.
    fn go_on(&mut self, lines: &[Line], rows: &[Vec<usize>], chart: &Chart) {
        let first = rows.iter().position(|row| {
            chart.is_like(lines, row, &self.used, None) && chart.has_such(lines, row, &self.used)
        });
        let Some((first, below)) = first.and_then(|first| Some((first, rows.get(first..)?))) else {
            return;
        };
        let above = first.checked_sub(1).and_then(|above| rows.get(above));
        if above.is_some_and(|above| chart.is_headed_by(lines, above, below)) {
            return;
        }
        let Some(from) = below
            .first()
            .and_then(|row| row.first())
            .map(|at| lines[*at].base)
        else {
            return;
        };
        let mut columns = chart.columns.clone();
        let mut texts = chart.heads.first().cloned().unwrap_or_default();
        let body = body(lines, &mut columns, &mut texts, from, below, &self.used);
        let Some(chart) = Chart::of(chart.heads.clone(), body.rows, columns, body.ends) else {
            return;
        };
        body.taken.iter().for_each(|at| self.used[*at] = true);
        self.notices.push(Notice::Continued(chart.heads_text()));
        self.notices
            .extend(body.alone.into_iter().map(Notice::Alone));
        self.charts.push(chart);
    }
}

impl Charts {
    /// Tells lines that stand in the columns of tables, below these or on the page behind theirs, and are none of
    /// their rows.
    fn tell_like(&mut self, lines: &[Line], rows: &[Vec<usize>], before: &[Chart]) {
        let own = self.charts.iter().take(MOST_LOOKED_AT);
        let own = own.map(|chart| (Some(chart.ends), chart));
        let mut notices = Vec::new();
        let mut left: Vec<bool> = self.used.clone();
        for (from, chart) in own.chain(before.iter().map(|chart| (None, chart))) {
            let like = rows
                .iter()
                .filter(|row| chart.is_like(lines, row, &left, from))
                .map(|row| chart.columns.within(lines, row, &left));
            let like: Vec<Vec<usize>> = like.collect();
            if like.is_empty() {
                continue;
            }
            let texts = like.iter().map(|at| said(lines, at)).collect();
            notices.push(Notice::LikeTable(chart.heads_text(), texts));
            for at in like.into_iter().flatten() {
                left[at] = true;
                self.apart[at] = true;
            }
        }
        self.notices.extend(notices);
    }
}

fn may_be_sized(heads: &[String]) -> bool {
    let sizes = [
        Meaning::Ours(Column::Size),
        Meaning::Ours(Column::Depth),
        Meaning::Lower,
        Meaning::Upper,
    ];
    heads.iter().any(|head| {
        sizes
            .iter()
            .any(|size| Head::of(head).says.may_be(Some(*size)))
    })
}

impl Chart {
    /// A table of which some column holds sizes, or two their limits.
    fn of(
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
    fn is_like(&self, lines: &[Line], row: &[usize], used: &[bool], from: Option<f64>) -> bool {
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
    fn is_headed_by(&self, lines: &[Line], above: &[usize], below: &[Vec<usize>]) -> bool {
        let base = |row: &[usize]| row.first().map(|at| lines[*at].base);
        let apart = base(above)
            .zip(below.first().and_then(|row| base(row)))
            .map_or(f64::INFINITY, |(above, below)| below - above);
        let words = above.iter().map(|at| &lines[*at]);
        let words = words.filter(|line| self.columns.fits(line) && !begins_as_number(&line.text));
        apart <= HEADED * self.columns.size && words.count() >= 2
    }

    /// Whether the texts of a line are numbers where those of its rows are, and words where those are.
    fn has_such(&self, lines: &[Line], row: &[usize], used: &[bool]) -> bool {
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
