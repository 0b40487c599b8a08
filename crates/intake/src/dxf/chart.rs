//! Charts of holes set in texts: a line for each mark, and the mark again beside its holes.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::headed::{HeadedLine, headed};
use super::notes::{Note, speaks_of_hole};
use crate::seen::ChartLine;

/// What charts say of marks.
pub(super) struct Chart {
    /// Each mark's line, as one text.
    pub(super) lines: BTreeMap<String, String>,
    /// Each mark's line in a chart with heads.
    pub(super) headed: BTreeMap<String, Arc<ChartLine>>,
    /// Lines of a mark that has several: nobody can say which is meant.
    pub(super) doubled: Vec<String>,
    /// Which texts stand in a chart, and so beside no hole.
    pub(super) cells: Vec<bool>,
}

impl Chart {
    /// Finds the lines of charts: texts in one line of which the first is a mark that stands elsewhere, too,
    /// and what follows reads as a callout.
    pub(super) fn of(notes: &[Note<'_>]) -> Self {
        let mut times: BTreeMap<&str, usize> = BTreeMap::new();
        for note in notes.iter().filter(|note| is_mark(note.says)) {
            *times.entry(note.says).or_default() += 1;
        }
        let mut chart = Self {
            lines: BTreeMap::new(),
            headed: BTreeMap::new(),
            doubled: Vec::new(),
            cells: vec![false; notes.len()],
        };
        let mut twice: Vec<String> = Vec::new();
        let lines = lines(notes);
        let (headed, heads) = headed(notes, &lines);
        for at in heads {
            chart.cells[at] = true;
        }
        for HeadedLine { line, cells } in headed {
            let words: Vec<&str> = cells.iter().map(|at| notes[*at].says).collect();
            for at in cells {
                chart.cells[at] = true;
            }
            let mark = line.mark.clone();
            if let Some(before) = chart.lines.insert(mark.clone(), words.join(" ")) {
                chart.doubled.push(before);
                twice.push(mark.clone());
            }
            chart.headed.insert(mark, line);
        }
        for line in lines {
            for start in 0..line.len() {
                let mark = notes[line[start]].says;
                let alone =
                    times.get(mark).is_none_or(|times| *times < 2) || chart.cells[line[start]];
                let cells = &line[start..line.len().min(start + MOST_CELLS)];
                let Some(said) = (!alone).then(|| said(notes, cells)).flatten() else {
                    continue;
                };
                for at in cells {
                    chart.cells[*at] = true;
                }
                if let Some(before) = chart.lines.insert(mark.to_owned(), said) {
                    chart.doubled.push(before);
                    twice.push(mark.to_owned());
                }
                break;
            }
        }
        for mark in twice {
            chart.doubled.extend(chart.lines.remove(&mark));
            chart.headed.remove(&mark);
        }
        chart
    }
}

/// A line of a chart as one text, if it speaks of a hole.
fn said(notes: &[Note<'_>], cells: &[usize]) -> Option<String> {
    let words: Vec<&str> = cells.iter().map(|at| notes[*at].says).collect();
    let (_, rest) = words.split_first()?;
    speaks_of_hole(&rest.join(" ")).then(|| words.join(" "))
}

/// A hole's mark: one or two capitals, and a number of up to three digits.
fn is_mark(says: &str) -> bool {
    let letters = says.chars().take_while(char::is_ascii_uppercase).count();
    let rest = says.get(letters..).unwrap_or_default();
    (1..=2).contains(&letters) && rest.len() <= 3 && rest.chars().all(|sign| sign.is_ascii_digit())
}

/// A chart has few columns.
const MOST_CELLS: usize = 12;

/// How far cells of one line may be apart, and how much higher one may stand, in letter heights.
const APART: f64 = 20.0;
const HIGHER: f64 = 0.5;

/// Level texts that stand in one line, from left to right.
fn lines(notes: &[Note<'_>]) -> Vec<Vec<usize>> {
    let mut order: Vec<usize> = (0..notes.len())
        .filter(|at| notes[*at].is_level())
        .collect();
    order.sort_by(|a, b| {
        notes[*b]
            .line()
            .1
            .total_cmp(&notes[*a].line().1)
            .then(a.cmp(b))
    });
    let mut lines: Vec<Vec<usize>> = Vec::new();
    for at in order {
        let same = lines
            .last()
            .and_then(|line| line.first())
            .is_some_and(|first| {
                let first = &notes[*first];
                first.line().1 - notes[at].line().1 <= HIGHER * first.height
            });
        match lines.last_mut() {
            Some(line) if same => line.push(at),
            _ => lines.push(vec![at]),
        }
    }
    let mut apart = Vec::new();
    for mut line in lines {
        line.sort_by(|a, b| {
            notes[*a]
                .line()
                .0
                .total_cmp(&notes[*b].line().0)
                .then(a.cmp(b))
        });
        for at in line {
            let near = apart.last().and_then(|line: &Vec<usize>| line.last());
            let near = near.is_some_and(|last: &usize| {
                let (last, note) = (&notes[*last], &notes[at]);
                let gap = note.line().0 - last.ends();
                (note.line().1 - last.line().1).abs() <= HIGHER * last.height
                    && (0.0 - last.height..=APART * last.height).contains(&gap)
            });
            match apart.last_mut() {
                Some(line) if near => line.push(at),
                _ => apart.push(vec![at]),
            }
        }
    }
    apart
}
