//! Lines of texts below the heads of a table: which are its rows, and where it ends.

use std::collections::BTreeSet;

use super::grid::Columns;
use super::heads::{heads, is_of_every_row, is_of_sizes};
use super::line::Line;

/// In parts of the letters' size: how far a table goes on from line to line, and lines of one cell; common practice,
/// no source.
const BELOW: f64 = 4.0;
pub(super) const CLOSE: f64 = 1.6;

/// Rows that are so many times farther apart than others are parted by more than blank; common practice, no source.
const WIDE: f64 = 1.5;

/// A table has no more lines than this.
const MOST_ROWS: usize = 5_000;

/// Between two rows there are no more lines than this.
const MOST_BETWEEN: usize = 60;

/// One line of texts below heads.
pub(super) struct Across {
    pub(super) at: Vec<usize>,
    pub(super) base: f64,
    pub(super) columns: BTreeSet<usize>,
    pub(super) kind: Kind,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// It has a cell where every row has one, and others.
    Row,
    /// A heading, a star: it stands where every row has a cell, and is no row.
    Alone,
    /// Cells that may go on from the row above, or begin above their own.
    More,
}

/// The lines that are the table's, the last of which is a row or goes on with it.
pub(super) fn accepted(
    lines: &[Line],
    columns: &mut Columns,
    own: &Own,
    from: f64,
    below: &[Vec<usize>],
    used: &[bool],
) -> Vec<Across> {
    let mut all: Vec<Across> = Vec::new();
    let (mut before, mut kept, mut rows) = (from, 0, 0);
    // How far rows are apart.
    let mut pitch = f64::INFINITY;
    let mut like = Like::default();
    for row in below {
        if !columns.is_turned_alike(lines, row) {
            break;
        }
        let within = columns.within(lines, row, used);
        let Some(line) = across(lines, columns, own, within) else {
            continue;
        };
        let is_beyond = line.base - before > BELOW * columns.size;
        if is_beyond || rows == MOST_ROWS || all.len() - kept == MOST_BETWEEN {
            break;
        }
        if line.kind == Kind::Row {
            let between = all.get(kept..).unwrap_or_default();
            let is_next = between.is_empty() && line.base - before <= WIDE * pitch;
            let is_sound = |line: &Across| {
                fits(lines, columns, line)
                    && like.takes(lines, columns, own, line, between)
                    && heads(lines, row, used).is_empty()
            };
            if !is_next && !is_sound(&line) {
                break;
            }
            if between.is_empty() && rows > 0 {
                pitch = pitch.min(line.base - before);
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
    let most = pitch.min(CLOSE * columns.size).max(columns.size);
    let is_row = |line: &Across| line.kind == Kind::Row;
    let through = all.get(..kept.saturating_sub(1)).unwrap_or_default();
    let begins = through.iter().rposition(is_row).map_or(0, |row| row + 1);
    let of_last = all.get(begins..kept).unwrap_or_default().iter();
    let of_last: BTreeSet<usize> = of_last.flat_map(|line| line.columns.clone()).collect();
    while let (Some(last), Some(more)) = (all.get(kept.wrapping_sub(1)), all.get(kept)) {
        let stands_below = more.kind == Kind::More
            && more.base - last.base <= 1.05 * most
            && more.columns.is_subset(&of_last)
            && more.at.iter().all(|at| columns.fits(&lines[*at]));
        if !stands_below {
            break;
        }
        kept += 1;
    }
    all.truncate(kept);
    all
}

/// What every row has a cell for.
pub(super) struct Own {
    of_every_row: Vec<bool>,
    sizes: Vec<bool>,
}

impl Own {
    /// By the heads; marks stand in the first column whatever it is called.
    pub(super) fn of(heads: &[String]) -> Self {
        let every = heads.iter().enumerate();
        Self {
            of_every_row: every
                .map(|(at, head)| at == 0 || is_of_every_row(head))
                .collect(),
            sizes: heads.iter().map(|head| is_of_sizes(head)).collect(),
        }
    }

    /// Whether columns hold sizes and nothing else.
    pub(super) fn are_sizes(&self, columns: &BTreeSet<usize>) -> bool {
        columns
            .iter()
            .all(|column| *column > 0 && self.sizes.get(*column) == Some(&true))
    }
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
        own: &Own,
        line: &Across,
        between: &[Across],
    ) -> bool {
        let most = if self.filled == 0 {
            columns.count()
        } else {
            self.filled
        };
        let mut each = cells(lines, columns, line).into_iter();
        let is_seen = |(column, is_number): (usize, bool)| {
            own.of_every_row.get(column) != Some(&true)
                || self.seen.contains(&(column, is_number))
                || !self.seen.contains(&(column, !is_number))
        };
        // Cells of several lines begin above the row's own.
        let more = between.iter().filter(|other| {
            other.kind == Kind::More && line.base - other.base <= CLOSE * columns.size
        });
        let mut filled = line.columns.clone();
        filled.extend(more.flat_map(|other| &other.columns));
        2 * filled.len() > most && each.all(is_seen)
    }
}

fn cells(lines: &[Line], columns: &Columns, line: &Across) -> BTreeSet<(usize, bool)> {
    let cells = line.at.iter().map(|at| &lines[*at]);
    cells
        .map(|line| (columns.column(line), begins_as_number(&line.text)))
        .collect()
}

/// Whether a cell is a number, or one with a sign before it.
pub(super) fn begins_as_number(text: &str) -> bool {
    const BEFORE: [char; 9] = [
        '+', '-', '.', ',', '\u{d8}', '\u{2300}', '\u{b1}', '\u{2212}', ' ',
    ];
    let text = text.trim_start_matches(BEFORE);
    text.starts_with(|sign: char| sign.is_ascii_digit())
}

fn across(lines: &[Line], columns: &Columns, own: &Own, at: Vec<usize>) -> Option<Across> {
    let base = at.first().map(|at| lines[*at].base)?;
    let filled: BTreeSet<usize> = at.iter().map(|at| columns.column(&lines[*at])).collect();
    let of_every_row = |column: &usize| own.of_every_row.get(*column) == Some(&true);
    let kind = match filled.iter().any(of_every_row) {
        true if filled.len() >= 2 => Kind::Row,
        true if own.are_sizes(&filled) => Kind::More,
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
