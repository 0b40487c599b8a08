//! Charts of holes with heads: which column of a line stands below which head.

use std::sync::Arc;

use quillbore_job::Column;

use super::notes::Note;
use crate::head::{Head, Says};
use crate::meaning::Meaning;
use crate::seen::ChartLine;

/// A line of a chart, and the texts that it is made of.
pub(super) struct HeadedLine {
    pub(super) line: Arc<ChartLine>,
    pub(super) cells: Vec<usize>,
}

/// In heights of letters: how far a chart goes on beside its heads and from line to line, and how much higher one
/// cell of a line may stand than another; common practice, no source.
const BESIDE: f64 = 8.0;
const BELOW: f64 = 5.0;
const HIGHER: f64 = 0.5;

/// A drawing has few charts, a chart few columns, and no more texts below its heads than this.
const MOST_CHARTS: usize = 20;
const MOST_COLUMNS: usize = 30;
const MOST_TEXTS: usize = 20_000;

/// The lines of all charts, and the texts that are their heads; `lines` are texts in one line each, from the top.
pub(super) fn headed(notes: &[Note<'_>], lines: &[Vec<usize>]) -> (Vec<HeadedLine>, Vec<usize>) {
    let (mut all, mut heads) = (Vec::new(), Vec::new());
    let headed = lines.iter().enumerate();
    let headed = headed.filter(|(_, line)| are_heads(notes, line));
    for (number, line) in headed.take(MOST_CHARTS) {
        let below = lines.iter().skip(number + 1).flatten().copied();
        let found = below_heads(notes, line, below.take(MOST_TEXTS));
        if !found.is_empty() {
            heads.extend(line.iter().copied());
            all.extend(found);
        }
    }
    (all, heads)
}

/// Whether texts in one line are heads of a chart: most are known, one may be the size.
fn are_heads(notes: &[Note<'_>], line: &[usize]) -> bool {
    // Lines of values have numbers in them: `A2 ⌀.0394 .500 DP` names a diameter and a depth, too.
    let has_number = |at: &usize| notes[*at].says.contains(|sign: char| sign.is_ascii_digit());
    if line.len() < 2 || line.len() > MOST_COLUMNS || line.iter().any(has_number) {
        return false;
    }
    let says = line.iter().map(|at| Head::of(notes[*at].says).says);
    let says: Vec<Says> = says.collect();
    let known = says.iter().filter(|says| says.may_be(None)).count();
    let size = Meaning::Ours(Column::Size);
    2 * known >= line.len() && known >= 2 && says.iter().any(|says| says.may_be(Some(size)))
}

/// Which column holds the marks: the one that says so plainly, else one that may, else the first.
fn marks_column(heads: &[String]) -> usize {
    let mark = Meaning::Ours(Column::Mark);
    let says: Vec<Says> = heads.iter().map(|head| Head::of(head).says).collect();
    let plainly = says.iter().position(|says| *says == Says::Plainly(mark));
    let perhaps = || says.iter().position(|says| says.may_be(Some(mark)));
    plainly.or_else(perhaps).unwrap_or(0)
}

/// The lines below heads, of the texts that stand below them from the top.
fn below_heads(
    notes: &[Note<'_>],
    line: &[usize],
    below: impl Iterator<Item = usize>,
) -> Vec<HeadedLine> {
    let (Some(first), Some(last)) = (line.first(), line.last()) else {
        return Vec::new();
    };
    let (first, last) = (&notes[*first], &notes[*last]);
    let left = first.line().0 - BESIDE * first.height;
    let right = last.ends() + BESIDE * last.height;
    let middle = |at: usize| notes[at].line().0.midpoint(notes[at].ends());
    let mut rows: Vec<Vec<usize>> = Vec::new();
    let mut level = first.line().1;
    for at in below.filter(|at| (left..=right).contains(&middle(*at))) {
        let down = level - notes[at].line().1;
        if down > BELOW * first.height {
            break;
        }
        match rows.last_mut() {
            Some(row) if down <= HIGHER * first.height => row.push(at),
            _ => {
                rows.push(vec![at]);
                level = notes[at].line().1;
            }
        }
    }
    let mut heads: Vec<String> = line.iter().map(|at| notes[*at].says.to_owned()).collect();
    let marks = marks_column(&heads);
    if let Some(head) = heads.get_mut(marks) {
        "mark".clone_into(head);
    }
    // A column ends in the middle between its head and the next one.
    let between = |pair: &[usize]| match pair {
        [one, next] => notes[*one].ends().midpoint(notes[*next].line().0),
        _ => f64::INFINITY,
    };
    let ends: Vec<f64> = line.windows(2).map(between).collect();
    let rows = rows.into_iter().filter(|row| row.len() > 1);
    let rows = rows.filter_map(|mut row| {
        row.sort_by(|a, b| middle(*a).total_cmp(&middle(*b)));
        let mut cells = vec![String::new(); heads.len()];
        for at in &row {
            let column = ends.partition_point(|end| *end < middle(*at));
            let cell = cells.get_mut(column)?;
            if !cell.is_empty() {
                cell.push(' ');
            }
            cell.push_str(notes[*at].says);
        }
        let mark = cells.get(marks).filter(|mark| is_mark(mark))?.clone();
        let heads = heads.clone();
        Some(HeadedLine {
            line: Arc::new(ChartLine { mark, heads, cells }),
            cells: row,
        })
    });
    rows.collect()
}

/// Marks are short, and one word.
fn is_mark(says: &str) -> bool {
    !says.is_empty() && says.chars().count() <= LONGEST_MARK && !says.contains(' ')
}

/// Letters of the longest mark.
const LONGEST_MARK: usize = 8;
