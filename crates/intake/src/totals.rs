//! What a foreign table comes to, held against what it says itself, and its lines that are no rows.

use quillbore_job::field::AngleBasis;
use quillbore_job::report::{LineOutcome, ReportLine};
use quillbore_job::row::RowReader;
use quillbore_job::{Column, Row, Unit};

use crate::foreign::Foreign;
use crate::lines::Line;
use crate::new_row::NewRow;
use crate::no_row::Role;
use crate::summary::{Sum, unit_like};
use crate::values::number_in;
use crate::words;

/// Sizes that are looked at for their unit.
const SIZES: usize = 200;

/// What the rows of a table come to.
pub(crate) struct Totals {
    pub(crate) rows: usize,
    pub(crate) holes: u64,
    /// Rows whose count can't be read.
    pub(crate) uncounted: usize,
    /// The last sum that the table gives as a number, and its line.
    pub(crate) sum: Option<Sum>,
    /// The unit that sizes without one look like.
    pub(crate) looks: Option<Unit>,
    /// Every size names a unit.
    pub(crate) in_cells: bool,
}

impl Totals {
    pub(crate) fn of(foreign: &Foreign, rows: &[NewRow]) -> Self {
        let (mut holes, mut uncounted) = (0_u64, 0);
        let mut reader = RowReader::new(AngleBasis::default());
        let mut tried = Row::default();
        for row in rows {
            let count = row
                .cells
                .get(&Column::Count)
                .filter(|text| !text.trim().is_empty());
            let counted = match count {
                _ if !row.places.is_empty() => row.places.len() as u64,
                Some(count) => {
                    reader.put(&mut tried, Column::Count, count, Unit::default());
                    let counted = tried.count.value();
                    uncounted += usize::from(counted.is_none());
                    u64::from(counted.copied().unwrap_or(1))
                }
                None => 1,
            };
            holes = holes.saturating_add(counted);
        }
        let roles = foreign.layout.roles.iter().rev();
        let sum = roles.filter_map(|(at, role)| match role {
            Role::Sum(holes) => Some(Sum {
                line: foreign.lines.line(*at)?.number,
                holes: (*holes)?,
            }),
            _ => None,
        });
        let sizes = rows.iter().filter_map(|row| row.cells.get(&Column::Size));
        let sizes: Vec<&str> = sizes.take(SIZES).map(String::as_str).collect();
        let names = |size: &str| {
            let mut words = size.split(|letter: char| !letter.is_alphabetic());
            size.contains('"') || words.any(|word| matches!(word, "mm" | "in" | "um" | "inch"))
        };
        // A drill is a length by itself.
        let bare = sizes
            .iter()
            .filter(|size| !names(size) && !size.contains('#'));
        let numbers = bare
            .clone()
            .filter_map(|size| Some((*size, number_in(size)?)));
        Self {
            rows: rows.len(),
            holes,
            uncounted,
            sum: { sum }.next(),
            looks: unit_like(numbers),
            in_cells: !sizes.is_empty() && bare.count() == 0,
        }
    }

    /// What is told of the lines that are no rows; the head's first line is told of the whole.
    pub(crate) fn other_lines(&self, foreign: &Foreign) -> Vec<ReportLine> {
        let mut head = false;
        let roles = foreign.layout.roles.iter();
        let lines = roles.filter_map(|(at, role)| Some((foreign.lines.line(*at)?, *role)));
        lines
            .filter_map(|(line, role)| {
                let (outcome, says) = match role {
                    Role::Head if !std::mem::replace(&mut head, true) => return None,
                    Role::Head => (LineOutcome::Taken, words::part_of_head(&text(line))),
                    Role::HeadAgain => (LineOutcome::Taken, words::head_again(&text(line))),
                    Role::Separator => {
                        let separator = foreign.separator.unwrap_or(',');
                        (LineOutcome::Taken, words::separator_line(separator))
                    }
                    Role::Rule => (LineOutcome::Taken, words::rule(&text(line))),
                    Role::Title => (LineOutcome::LeftOut, words::above_the_head(&text(line))),
                    Role::Words => (LineOutcome::LeftOut, words::no_hole(&text(line))),
                    Role::Further => (LineOutcome::LeftOut, words::further_table(&text(line))),
                    Role::Sum(_) => self.of_sum(line),
                };
                Some(ReportLine {
                    number: u32::try_from(line.number).unwrap_or(u32::MAX),
                    outcome,
                    says,
                })
            })
            .collect()
    }

    fn of_sum(&self, line: Line<'_>) -> (LineOutcome, String) {
        let held = self.sum.filter(|sum| sum.line == line.number);
        match held {
            Some(sum) if sum.holes != self.holes => (
                LineOutcome::Guessed,
                words::sum_differs(&text(line), self.holes),
            ),
            held => (
                LineOutcome::LeftOut,
                words::sum(&text(line), held.is_some()),
            ),
        }
    }
}

/// The cells of a line that anything stands in.
fn text(line: Line<'_>) -> String {
    let cells = line.cells().map(str::trim).filter(|cell| !cell.is_empty());
    cells.collect::<Vec<_>>().join("; ")
}
