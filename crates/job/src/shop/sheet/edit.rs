//! Everything that can be done to the shop's sheet, as values that carry text.

use std::sync::Arc;

use super::kind::{ShopKind, read_shop};
use super::lists::{ShopColumn, ShopLine, ShopList};
use super::own::{ShopRow, ShopSheet};
use super::samples::sample;
use crate::ground::limits::LONGEST_TEXT;
use crate::shop::logo::Logo;
use crate::typed::entry::Unit;

/// Most rows of one list.
pub(super) const MOST_ROWS: usize = 5_000;

/// One edit of the shop's sheet.
#[derive(Clone, Debug, PartialEq)]
pub enum ShopEdit {
    /// Put text into a single line; empty text leaves it as in the samples.
    SetLine {
        /// Which line.
        line: ShopLine,
        /// What was typed.
        text: String,
        /// The unit that a bare number is meant in.
        unit: Unit,
    },
    /// Put texts into cells of a list; empty text leaves a cell as is usual.
    SetCells {
        /// Which list.
        list: ShopList,
        /// Rows, each with the texts of its columns; the new ones come in this order.
        rows: Vec<(ShopRowAt, Vec<(ShopColumn, String)>)>,
        /// The unit that bare numbers are meant in.
        unit: Unit,
    },
    /// Take rows out; a sample among them counts no more.
    DeleteRows {
        /// Which list.
        list: ShopList,
        /// Which rows.
        rows: Vec<ShopRowAt>,
    },
    /// The samples of a list count, or count no more; those that were left out one by one come back
    /// with the others.
    Samples {
        /// Which list.
        list: ShopList,
        /// Whether they count.
        count: bool,
    },
    /// Show and type in another unit; no text changes.
    SetUnit(Unit),
    /// Another logo, or none.
    SetLogo(Option<Arc<Logo>>),
    /// Several edits as one step: all of them, or none.
    Together(Vec<ShopEdit>),
}

/// Which row of a list.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ShopRowAt {
    /// One of its own.
    Own(u32),
    /// A sample, by its name.
    Sample(String),
    /// One that is not there yet.
    New,
}

/// Why an edit of the shop's sheet was refused; the sheet stays as it was.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ShopRefused {
    /// The row is not there any more.
    NoSuchRow,
    /// The list has no such column.
    NoSuchColumn {
        /// The list.
        list: ShopList,
        /// The column.
        column: ShopColumn,
    },
    /// The list would have more rows than it can.
    TooManyRows {
        /// Most rows of a list.
        most: usize,
    },
    /// Rows of this list are the program's: none is added.
    NoNewRows {
        /// The list.
        list: ShopList,
    },
    /// A text is longer than any cell needs.
    TextTooLong {
        /// Most characters of a text.
        most: usize,
    },
    /// A block reaches past the last column.
    PastLastColumn {
        /// Columns that the block has.
        columns: usize,
        /// Columns from where it begins to the table's end.
        room: usize,
    },
}

/// Does an edit; rows that it doesn't touch stay shared.
///
/// # Errors
/// Where the edit can't be done; the sheet stays as it was.
pub fn apply_shop(sheet: &ShopSheet, edit: &ShopEdit) -> Result<ShopSheet, ShopRefused> {
    let mut sheet = sheet.clone();
    change(&mut sheet, edit)?;
    Ok(sheet)
}

fn change(sheet: &mut ShopSheet, edit: &ShopEdit) -> Result<(), ShopRefused> {
    match edit {
        ShopEdit::SetLine { line, text, unit } => {
            check_length(text)?;
            let entry = read_shop(line.kind(), text, *unit);
            let lines = Arc::make_mut(&mut sheet.lines);
            if entry.is_empty() {
                lines.remove(line);
            } else {
                lines.insert(*line, entry);
            }
        }
        ShopEdit::SetCells { list, rows, unit } => {
            for (at, cells) in rows {
                set_row(sheet, *list, at, cells, *unit)?;
            }
        }
        ShopEdit::DeleteRows { list, rows } => {
            for at in rows {
                delete(sheet, *list, at)?;
            }
        }
        ShopEdit::Samples { list, count: true } => {
            sheet.without_samples.remove(list);
            sheet.left_out.retain(|(of, _)| of != list);
        }
        ShopEdit::Samples { list, count: false } => {
            sheet.without_samples.insert(*list);
            sheet.left_out.retain(|(of, _)| of != list);
        }
        ShopEdit::SetUnit(unit) => sheet.unit = *unit,
        ShopEdit::SetLogo(logo) => sheet.logo.clone_from(logo),
        ShopEdit::Together(edits) => {
            for edit in edits {
                change(sheet, edit)?;
            }
        }
    }
    Ok(())
}

fn check_length(text: &str) -> Result<(), ShopRefused> {
    if text.chars().count() > LONGEST_TEXT {
        return Err(ShopRefused::TextTooLong { most: LONGEST_TEXT });
    }
    Ok(())
}

/// Whether rows can be added to a list, or only those that the program knows are changed.
const fn takes_new_rows(list: ShopList) -> bool {
    !matches!(list, ShopList::Families | ShopList::StartValues)
}

fn set_row(
    sheet: &mut ShopSheet,
    list: ShopList,
    at: &ShopRowAt,
    cells: &[(ShopColumn, String)],
    unit: Unit,
) -> Result<(), ShopRefused> {
    for (column, text) in cells {
        check_length(text)?;
        if !list.columns().contains(column) || column.kind() == ShopKind::Computed {
            let column = *column;
            return Err(ShopRefused::NoSuchColumn { list, column });
        }
    }
    let is_blank = cells.iter().all(|(_, text)| text.trim().is_empty());
    if is_blank && !matches!(at, ShopRowAt::Own(_)) {
        return Ok(());
    }
    let row = Arc::make_mut(row_at(sheet, list, at)?);
    for (column, text) in cells {
        let entry = read_shop(column.kind(), text, unit);
        if entry.is_empty() {
            row.cells.remove(column);
        } else {
            row.cells.insert(*column, entry);
        }
    }
    let (id, is_empty) = (row.id, row.cells.is_empty());
    // A row that says nothing of its own is the sample again, or no row.
    if is_empty && let Some(rows) = sheet.rows.get_mut(&list) {
        rows.retain(|row| row.id != id);
    }
    Ok(())
}

/// The row to type in; a new one where there is none yet.
fn row_at<'a>(
    sheet: &'a mut ShopSheet,
    list: ShopList,
    at: &ShopRowAt,
) -> Result<&'a mut Arc<ShopRow>, ShopRefused> {
    let rows = sheet.rows.entry(list).or_default();
    let place = match at {
        ShopRowAt::Own(id) => {
            let place = rows.iter().position(|row| row.id == *id);
            Some(place.ok_or(ShopRefused::NoSuchRow)?)
        }
        ShopRowAt::Sample(name) => {
            if sample(list, name).is_none() {
                return Err(ShopRefused::NoSuchRow);
            }
            let mut stand_ins = rows.iter().map(|row| row.stands_for.as_ref());
            stand_ins.position(|stands_for| stands_for == Some(name))
        }
        ShopRowAt::New if !takes_new_rows(list) => return Err(ShopRefused::NoNewRows { list }),
        ShopRowAt::New => None,
    };
    let too_many = ShopRefused::TooManyRows { most: MOST_ROWS };
    let place = match place {
        Some(place) => place,
        None if rows.len() >= MOST_ROWS => return Err(too_many),
        None => {
            let id = sheet.next_row;
            sheet.next_row = id.checked_add(1).ok_or(too_many)?;
            let stands_for = match at {
                ShopRowAt::Sample(name) => Some(name.clone()),
                _ => None,
            };
            rows.push(Arc::new(ShopRow {
                id,
                stands_for,
                ..ShopRow::default()
            }));
            rows.len() - 1
        }
    };
    rows.get_mut(place).ok_or(ShopRefused::NoSuchRow)
}

fn delete(sheet: &mut ShopSheet, list: ShopList, at: &ShopRowAt) -> Result<(), ShopRefused> {
    match at {
        ShopRowAt::Own(id) => {
            let rows = sheet.rows.entry(list).or_default();
            let place = rows.iter().position(|row| row.id == *id);
            let row = rows.remove(place.ok_or(ShopRefused::NoSuchRow)?);
            // Families and start values are always there: without a row of its own the sample counts.
            if let Some(sample) = &row.stands_for
                && takes_new_rows(list)
            {
                sheet.left_out.insert((list, sample.clone()));
            }
        }
        ShopRowAt::Sample(name) if takes_new_rows(list) => {
            sheet.left_out.insert((list, name.clone()));
        }
        ShopRowAt::Sample(_) | ShopRowAt::New => {}
    }
    Ok(())
}
