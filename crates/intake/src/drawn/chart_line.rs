//! A line of a chart, as the cells of its holes' row.

use quillbore_job::report::Source;
use quillbore_job::{Column, Edit, Job, RowsAt, Unit};

use crate::column::Holds;
use crate::fits::NOTE;
use crate::foreign::{Foreign, all_places};
use crate::lines::Lines;
use crate::new_row::{Cells, rows_of};
use crate::seen::ChartLine;

/// The cells of a line of a chart as its heads say what they hold; what nobody understands is a note. `None` where
/// it can't be read, or its heads name another unit.
pub(super) fn cells(line: &ChartLine, unit: Unit) -> Option<Cells> {
    let mut lines = Lines::default();
    lines.push(1, 0, line.heads.iter().map(String::as_str));
    lines.push(2, 0, line.cells.iter().map(String::as_str));
    let mut foreign = Foreign::of_lines(Source::named(""), lines, None, &all_places()).ok()?;
    for question in foreign.questions() {
        foreign.say(question.column, Holds::A(NOTE)).ok()?;
    }
    let edit = foreign
        .take(&Job::default(), RowsAt::Append, unit)
        .ok()?
        .edit;
    let is_of_unit = matches!(&edit, Edit::SetRows { unit: of, .. } if *of == unit);
    let row = rows_of(edit).into_iter().next().filter(|_| is_of_unit)?;
    row.cells.contains_key(&Column::Size).then_some(row.cells)
}
