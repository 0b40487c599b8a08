//! Sheets of Office Open XML workbooks (ECMA-376).

use std::io::Cursor;

use calamine::{
    Data, DataRef, DataType as _, Reader as _, SheetType, SheetVisible, Xlsx, XlsxError,
};

use super::merged::{Cells, Merged};
use super::room::{Full, Room};
use super::shown::{number, unit_of};
use super::{Sheet, WorkbookError};

/// Most sheets of a workbook: all of them may be one part of the file, which is read for each.
const MOST_SHEETS: usize = 255;

/// Its sheets of cells; sheets of charts and macros have none.
pub(super) fn sheets(bytes: &[u8], room: &mut Room) -> Result<Vec<Sheet>, WorkbookError> {
    let mut book = Xlsx::new(Cursor::new(bytes)).map_err(failed)?;
    let known = book.sheets_metadata().to_vec();
    if known.len() > MOST_SHEETS {
        return Err(WorkbookError::TooLarge);
    }
    let of_cells = known
        .into_iter()
        .filter(|sheet| sheet.typ == SheetType::WorkSheet);
    let each = of_cells.map(|sheet| {
        let is_hidden = sheet.visible != SheetVisible::Visible;
        self::sheet(&mut book, &sheet.name, is_hidden, room)
    });
    each.collect()
}

type Book<'a> = Xlsx<Cursor<&'a [u8]>>;

fn sheet(
    book: &mut Book<'_>,
    name: &str,
    is_hidden: bool,
    room: &mut Room,
) -> Result<Sheet, WorkbookError> {
    let mut cells = Cells::default();
    let is_gap = values(book, name, &mut cells, room).map_err(failed)?;
    if is_gap.map_err(|full| full.error(name))? {
        let noted = uncalculated(book, name, &mut cells, room).map_err(failed)?;
        noted.map_err(|full| full.error(name))?;
    }
    let merged = book.merge_cells_by_sheet_name(name).map_err(failed)?;
    let merged = merged.iter().map(|area| Merged {
        lines: [area.start.0, area.end.0],
        column: area.start.1,
    });
    cells.sheet(name, is_hidden, &merged.collect::<Vec<_>>(), room)
}

/// Puts the values of a sheet into its cells; whether any cell has none.
fn values(
    book: &mut Book<'_>,
    name: &str,
    cells: &mut Cells,
    room: &mut Room,
) -> Result<Result<bool, Full>, XlsxError> {
    let mut is_gap = false;
    let mut reader = book.worksheet_cells_reader(name)?;
    let units: Vec<Option<&str>> = reader
        .styles()
        .iter()
        .map(|style| unit_of(&style.number_format.as_ref()?.format_code))
        .collect();
    while let Some((cell, style)) = reader.next_cell_with_style_id()? {
        let (line, column) = cell.get_position();
        let text = match cell.get_value() {
            DataRef::Empty => {
                is_gap = true;
                continue;
            }
            DataRef::Float(value) => {
                number(*value) + units.get(style).copied().flatten().unwrap_or_default()
            }
            DataRef::DateTime(when) if when.is_datetime() => {
                cells.dates.insert(line);
                let (year, month, day, ..) = when.to_ymd_hms_milli();
                format!("{year:04}-{month:02}-{day:02}")
            }
            other => Data::from(other.clone()).to_string(),
        };
        let put = match cells.text(&text) {
            Ok(Some(text)) => cells.put(line, column, text, room),
            other => other.map(|_| ()),
        };
        if let Err(full) = put {
            return Ok(Err(full));
        }
    }
    Ok(Ok(is_gap))
}

/// Notes the lines in which a formula has no result.
fn uncalculated(
    book: &mut Book<'_>,
    name: &str,
    cells: &mut Cells,
    room: &mut Room,
) -> Result<Result<(), Full>, XlsxError> {
    let mut reader = book.worksheet_cells_reader(name)?;
    while let Some(cell) = reader.next_cell_with_formula_metadata()? {
        if cell.formula.is_some()
            && cell.value.is_empty()
            && let Err(full) = cells.without_result(cell.pos.0, room)
        {
            return Ok(Err(full));
        }
    }
    Ok(Ok(()))
}

fn failed(error: XlsxError) -> WorkbookError {
    match error {
        XlsxError::Password => WorkbookError::Locked,
        error => WorkbookError::damaged(&error),
    }
}
