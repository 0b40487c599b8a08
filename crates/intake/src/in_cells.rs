//! A table in one column of cells: a mail or a page pasted as lines.

use crate::delimited::{Cells, split};
use crate::error::IntakeError;
use crate::gaps::{has_known_head, split_by_blanks};

/// The lines of a table whose cells stand in one column of cells: parted by upright strokes, or by
/// other signs or two blanks below a known head.
pub(crate) fn lines_in_cells(rows: &[Vec<String>]) -> Result<Option<Cells>, IntakeError> {
    let one = |cells: &Vec<String>| {
        let mut cells = cells.iter();
        let first = cells.next();
        first.is_none_or(|first| line_ends(first) == 0) && cells.all(|cell| cell.trim().is_empty())
    };
    if rows.len() < 2 || !rows.iter().all(one) {
        return Ok(None);
    }
    let firsts = rows
        .iter()
        .map(|cells| cells.first().map_or("", String::as_str));
    let text = firsts.clone().collect::<Vec<_>>().join("\n");
    let cells = split(&text, &|_| false)?;
    let mut filled = firsts.filter(|cell| !cell.trim().is_empty());
    let strokes = cells.separator == '|' && filled.all(|cell| cell.contains('|'));
    if strokes || has_known_head(&cells.lines) {
        return Ok(Some(cells));
    }
    Ok(split_by_blanks(&text))
}

/// Line ends in a cell, a carriage return and a line feed being one.
pub(crate) fn line_ends(cell: &str) -> usize {
    let feeds = cell.matches('\n').count();
    let returns = cell.matches('\r').count();
    feeds + returns - cell.matches("\r\n").count()
}
