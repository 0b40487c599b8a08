//! The lines below the heads of a table: its rows, cells that go on below, headings between them.

use super::across::{Across, CLOSE, Kind, Own, accepted, begins_as_number};
use super::callouts::speaks;
use super::grid::Columns;
use super::heads::goes_on;
use super::line::{Line, Marks, around};

/// By what a gap is wider than others; common practice, no source.
const WIDER: f64 = 1.15;

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

/// Reads what stands below heads, from a base line on; texts that go on with a head are put behind it.
pub(super) fn body(
    lines: &[Line],
    columns: &mut Columns,
    heads: &mut [String],
    from: f64,
    below: &[Vec<usize>],
    used: &[bool],
) -> Body {
    let own = Own::of(heads);
    let across = accepted(lines, columns, &own, from, below, used);
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
        let [upper, lower] = shared(&across, [before, next], from, &between, above_last);
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
            let is_part = belongs(&across, part, at, &own, columns.size)
                && across
                    .get(at)
                    .is_some_and(|line| !is_beside(lines, columns, &across, part, line));
            if is_part {
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

/// Which of the lines between two rows go on with the upper one, and which begin above the lower; where a heading parts
/// them, that does it.
fn shared(
    across: &[Across],
    [before, next]: [Option<usize>; 2],
    from: f64,
    between: &[usize],
    above_last: usize,
) -> [Vec<usize>; 2] {
    let (mut upper, mut lower): (Vec<usize>, Vec<usize>) = (Vec::new(), Vec::new());
    let mut is_parted = false;
    for at in between {
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
    [upper, lower]
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

/// Whether a line goes on with a row: something stands in its columns there, or right beside it; a size only right
/// beside it.
fn belongs(across: &[Across], part: &[usize], at: usize, own: &Own, size: f64) -> bool {
    let Some(line) = across.get(at) else {
        return false;
    };
    let mut others = part.iter().filter_map(|other| across.get(*other));
    others.any(|other| {
        let is_close = (line.base - other.base).abs() <= 0.8 * CLOSE * size;
        let mut columns = line.columns.iter();
        is_close
            || (!own.are_sizes(&line.columns)
                && columns.all(|column| other.columns.contains(column)))
    })
}

/// Whether words stand above or below a number that needs none, and not close to its row: a heading may stand there.
fn is_beside(
    lines: &[Line],
    columns: &Columns,
    across: &[Across],
    part: &[usize],
    line: &Across,
) -> bool {
    let close = 0.8 * CLOSE * columns.size;
    let part = || part.iter().filter_map(|at| across.get(*at));
    let has_number = |column: usize| {
        let cells = part().flat_map(|other| &other.at).map(|at| &lines[*at]);
        let mut own = cells.filter(|cell| columns.column(cell) == column);
        own.any(|cell| begins_as_number(&cell.text))
    };
    let mut cells = line.at.iter().map(|at| &lines[*at]);
    part().all(|other| (line.base - other.base).abs() > close)
        && cells.any(|cell| !begins_as_number(&cell.text) && has_number(columns.column(cell)))
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
