//! The lines below the heads of a table: its rows, cells that go on below, headings between them.

use std::collections::BTreeSet;

use super::callouts::speaks;
use super::grid::Columns;
use super::heads::{goes_on, heads, is_of_every_row};
use super::line::{Line, Marks, around};

/// In parts of the letters' size: how far a table goes on from line to line, and lines of one cell; by what a gap is
/// wider than others; common practice, no source.
const BELOW: f64 = 4.0;
const CLOSE: f64 = 1.6;
const WIDER: f64 = 1.15;

/// A table has no more lines than this.
const MOST_ROWS: usize = 5_000;

/// Between two rows there are no more lines than this.
const MOST_BETWEEN: usize = 60;

/// A row of a table.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Row {
    pub(super) cells: Vec<String>,
    pub(super) place: [f64; 4],
    pub(super) marks: Marks,
}

/// What stands below heads.
pub(super) struct Body {
    pub(super) rows: Vec<Row>,
    /// The lines of text that it is made of.
    pub(super) taken: Vec<usize>,
    /// Texts that stand alone between its rows, and belong to none.
    pub(super) alone: Vec<String>,
    /// Where its last row stands.
    pub(super) ends: f64,
}

/// One line of texts below heads.
struct Across {
    at: Vec<usize>,
    base: f64,
    columns: BTreeSet<usize>,
    kind: Kind,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Row,
    /// A heading, a star: it stands where every row has a cell, and is no row.
    Alone,
    /// Cells that may go on from the row above, or begin above their own.
    More,
}

/// Reads what stands below heads, from a base line on; texts that go on with a head are put behind it.
pub(super) fn body(
    lines: &[Line],
    columns: &mut Columns,
    heads: &mut [String],
    from: f64,
    below: &[Vec<usize>],
    used: &[bool],
) -> Body {
    let of_every_row = (0..heads.len())
        .map(|at| at == 0 || heads.get(at).is_some_and(|head| is_of_every_row(head)))
        .collect::<Vec<bool>>();
    let across = accepted(lines, columns, &of_every_row, from, below, used);
    let mut body = Body {
        rows: Vec::new(),
        taken: Vec::new(),
        alone: Vec::new(),
        ends: from,
    };
    let rows: Vec<usize> = (0..across.len())
        .filter(|at| across.get(*at).is_some_and(|line| line.kind == Kind::Row))
        .collect();
    let mut parts: Vec<Vec<usize>> = rows.iter().map(|at| vec![*at]).collect();
    let mut above_last = 0;
    for number in 0..=rows.len() {
        let before = number.checked_sub(1).and_then(|at| rows.get(at).copied());
        let next = rows.get(number).copied();
        let between = before.map_or(0, |at| at + 1)..next.unwrap_or(across.len());
        let (mut upper, mut lower): (Vec<usize>, Vec<usize>) = (Vec::new(), Vec::new());
        let mut is_parted = false;
        let between: Vec<usize> = between
            .filter(|at| {
                let goes_on = before.is_none()
                    && across
                        .get(*at)
                        .is_some_and(|line| go_on(lines, columns, heads, line));
                if goes_on {
                    body.taken
                        .extend(across.get(*at).into_iter().flat_map(|line| &line.at));
                }
                !goes_on
            })
            .collect();
        for at in &between {
            match across.get(*at).map(|line| line.kind) {
                Some(Kind::More) if is_parted => lower.push(*at),
                Some(Kind::More) => upper.push(*at),
                _ => is_parted = true,
            }
        }
        if !is_parted {
            let base = |at: usize| across.get(at).map(|line| line.base);
            let bases: Vec<f64> = [before.map_or(Some(from), base)]
                .into_iter()
                .chain(upper.iter().map(|at| base(*at)))
                .chain([next.and_then(base)])
                .flatten()
                .collect();
            let kept = match (before, next) {
                (_, None) => upper.len(),
                (None, Some(_)) => 0,
                _ => of_upper(&bases, above_last, upper.len()),
            };
            lower = upper.split_off(kept);
        }
        above_last = lower.len();
        let mut alone: Vec<usize> = between;
        alone.retain(|at| !upper.contains(at) && !lower.contains(at));
        for (at, row) in upper
            .iter()
            .map(|at| (*at, number.checked_sub(1)))
            .chain(lower.iter().rev().map(|at| (*at, Some(number))))
        {
            let Some(part) = row.and_then(|row| parts.get_mut(row)) else {
                alone.push(at);
                continue;
            };
            if belongs(&across, part, at, columns.size) {
                part.push(at);
            } else {
                alone.push(at);
            }
        }
        alone.sort_unstable();
        for line in alone.iter().filter_map(|at| across.get(*at)) {
            let text = said(lines, &line.at);
            // A callout between the rows is one by itself.
            if !speaks(&text) {
                body.taken.extend(&line.at);
                body.alone.push(text);
            }
        }
    }
    for part in &mut parts {
        // From the top.
        part.sort_unstable();
        let all: Vec<usize> = part
            .iter()
            .filter_map(|at| across.get(*at))
            .flat_map(|line| line.at.iter().copied())
            .collect();
        body.rows.extend(row(lines, columns, heads.len(), &all));
        body.taken.extend(all);
    }
    let last = rows.last().and_then(|at| across.get(*at));
    body.ends = last.map_or(from, |line| line.base);
    body
}

/// The lines that are the table's, the last of which is a row or goes on with it.
fn accepted(
    lines: &[Line],
    columns: &mut Columns,
    of_every_row: &[bool],
    from: f64,
    below: &[Vec<usize>],
    used: &[bool],
) -> Vec<Across> {
    let mut all: Vec<Across> = Vec::new();
    let (mut before, mut kept, mut rows) = (from, 0, 0);
    let mut like = Like::default();
    for row in below {
        if !columns.is_turned_alike(lines, row) {
            break;
        }
        let within = columns.within(lines, row, used);
        let Some(line) = across(lines, columns, of_every_row, within) else {
            continue;
        };
        let is_beyond = line.base - before > BELOW * columns.size;
        if is_beyond || rows == MOST_ROWS || all.len() - kept == MOST_BETWEEN {
            break;
        }
        if line.kind == Kind::Row {
            let is_next = kept == all.len();
            let is_sound = |line: &Across| {
                fits(lines, columns, line)
                    && like.takes(lines, columns, of_every_row, line)
                    && heads(lines, row, used).is_empty()
            };
            if !is_next && !is_sound(&line) {
                break;
            }
            like.add(lines, columns, &line);
            for at in &line.at {
                columns.widen(&lines[*at]);
            }
            rows += 1;
            kept = all.len() + 1;
        }
        before = line.base;
        all.push(line);
    }
    // The last row may go on below.
    let pitch = all.iter().take(kept).map(|line| line.base);
    let pitch: Vec<f64> = pitch.collect();
    let pitch = pitch.windows(2).map(|pair| match pair {
        [one, next] => next - one,
        _ => f64::INFINITY,
    });
    let most = pitch.fold(CLOSE * columns.size, f64::min).max(columns.size);
    while let (Some(last), Some(more)) = (all.get(kept.wrapping_sub(1)), all.get(kept)) {
        let stands_below = more.kind == Kind::More
            && more.base - last.base <= 1.05 * most
            && more
                .columns
                .iter()
                .all(|column| last.columns.contains(column))
            && more.at.iter().all(|at| columns.fits(&lines[*at]));
        if !stands_below {
            break;
        }
        kept += 1;
    }
    all.truncate(kept);
    all
}

/// What the rows of a table are like.
#[derive(Default)]
struct Like {
    /// Columns with whether what stands there begins as a number.
    seen: BTreeSet<(usize, bool)>,
    /// Columns that the fullest row fills.
    filled: usize,
}

impl Like {
    fn add(&mut self, lines: &[Line], columns: &Columns, line: &Across) {
        self.seen.extend(cells(lines, columns, line));
        self.filled = self.filled.max(line.columns.len());
    }

    /// Whether a row below a heading is as full as the others, with numbers where they have some.
    fn takes(
        &self,
        lines: &[Line],
        columns: &Columns,
        of_every_row: &[bool],
        line: &Across,
    ) -> bool {
        let most = if self.filled == 0 {
            columns.count()
        } else {
            self.filled
        };
        let mut each = cells(lines, columns, line).into_iter();
        let is_seen = |(column, is_number): (usize, bool)| {
            of_every_row.get(column) != Some(&true)
                || self.seen.contains(&(column, is_number))
                || !self.seen.contains(&(column, !is_number))
        };
        2 * line.columns.len() > most && each.all(is_seen)
    }
}

fn cells(lines: &[Line], columns: &Columns, line: &Across) -> BTreeSet<(usize, bool)> {
    let cells = line.at.iter().map(|at| &lines[*at]);
    cells
        .map(|line| (columns.column(line), begins_as_number(&line.text)))
        .collect()
}

pub(super) fn begins_as_number(text: &str) -> bool {
    const BEFORE: [char; 9] = [
        '+', '-', '.', ',', '\u{d8}', '\u{2300}', '\u{b1}', '\u{2212}', ' ',
    ];
    let text = text.trim_start_matches(BEFORE);
    text.starts_with(|sign: char| sign.is_ascii_digit())
}

fn across(
    lines: &[Line],
    columns: &Columns,
    of_every_row: &[bool],
    at: Vec<usize>,
) -> Option<Across> {
    let base = at.first().map(|at| lines[*at].base)?;
    let filled: BTreeSet<usize> = at.iter().map(|at| columns.column(&lines[*at])).collect();
    let of_every_row = |column: &usize| of_every_row.get(*column) == Some(&true);
    let kind = match filled.iter().any(of_every_row) {
        true if filled.len() >= 2 => Kind::Row,
        true => Kind::Alone,
        false => Kind::More,
    };
    Some(Across {
        at,
        base,
        columns: filled,
        kind,
    })
}

/// Whether in most of its columns something of a line stands where the table's texts do.
fn fits(lines: &[Line], columns: &Columns, line: &Across) -> bool {
    let fitting = line.at.iter().filter(|at| columns.fits(&lines[**at]));
    let fitting: BTreeSet<usize> = fitting.map(|at| columns.column(&lines[*at])).collect();
    fitting.len() >= 2 && 3 * fitting.len() >= 2 * line.columns.len()
}

/// Puts a line behind the heads that it goes on with; false where it doesn't with all.
fn go_on(lines: &[Line], columns: &Columns, heads: &mut [String], line: &Across) -> bool {
    let text = |at: &usize| lines[*at].text.trim().to_owned();
    let said = line
        .at
        .iter()
        .map(|at| (columns.column(&lines[*at]), text(at)));
    let said: Vec<(usize, String)> = said.collect();
    let all = said
        .iter()
        .all(|(column, text)| heads.get(*column).is_some_and(|head| goes_on(head, text)));
    if all {
        for (column, text) in said {
            if let Some(head) = heads.get_mut(column) {
                *head = format!("{head} {text}");
            }
        }
    }
    all
}

/// How many of the lines between two rows belong to the upper one: those before the widest gap; where none is the
/// widest, as many as stand above it too, where any do, since its cells stand in their middle.
fn of_upper(bases: &[f64], above: usize, between: usize) -> usize {
    let gaps: Vec<f64> = bases
        .windows(2)
        .map(|pair| match pair {
            [one, next] => next - one,
            _ => 0.0,
        })
        .collect();
    let widest = gaps.iter().copied().fold(0.0, f64::max);
    let at = gaps
        .iter()
        .position(|gap| *gap >= widest)
        .unwrap_or(between);
    let others = gaps.iter().enumerate().filter(|(other, _)| *other != at);
    let next = others.map(|(_, gap)| *gap).fold(0.0, f64::max);
    if widest > WIDER * next {
        at
    } else if above > 0 {
        above.min(between)
    } else {
        between
    }
}

/// Whether a line goes on with a row: something stands in its columns there, or right beside it.
fn belongs(across: &[Across], part: &[usize], at: usize, size: f64) -> bool {
    let Some(line) = across.get(at) else {
        return false;
    };
    let mut others = part.iter().filter_map(|other| across.get(*other));
    others.any(|other| {
        let is_close = (line.base - other.base).abs() <= 0.8 * CLOSE * size;
        is_close
            || line
                .columns
                .iter()
                .all(|column| other.columns.contains(column))
    })
}

fn row(lines: &[Line], columns: &Columns, width: usize, all: &[usize]) -> Option<Row> {
    let mut cells = vec![String::new(); width];
    for at in all {
        let cell = cells.get_mut(columns.column(&lines[*at]))?;
        if !cell.is_empty() {
            cell.push(' ');
        }
        cell.push_str(lines[*at].text.trim());
    }
    let all = all.iter().map(|at| &lines[*at]);
    Some(Row {
        cells,
        place: all.clone().map(Line::place).reduce(around)?,
        marks: all.fold(Marks::default(), |marks, line| marks.and(line.marks)),
    })
}

/// Texts as one.
pub(super) fn said(lines: &[Line], at: &[usize]) -> String {
    let texts: Vec<&str> = at.iter().map(|at| lines[*at].text.trim()).collect();
    texts.join(" ")
}
