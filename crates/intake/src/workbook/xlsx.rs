//! Sheets of Office Open XML workbooks (ECMA-376).

use std::io::Cursor;

use calamine::{
    Data, DataRef, DataType as _, Reader as _, SheetType, SheetVisible, Xlsx, XlsxError,
};

use super::merged::{Cells, Merged, TooMany};
use super::shown::{number, unit_of};
use super::{Sheet, WorkbookError};

/// Its sheets of cells; sheets of charts and macros have none.
pub(super) fn sheets(bytes: &[u8]) -> Result<Vec<Sheet>, WorkbookError> {
    let mut book = Xlsx::new(Cursor::new(bytes)).map_err(failed)?;
    let known = book.sheets_metadata().to_vec();
    let of_cells = known
        .into_iter()
        .filter(|sheet| sheet.typ == SheetType::WorkSheet);
    let each = of_cells.map(|sheet| {
        let is_hidden = sheet.visible != SheetVisible::Visible;
        self::sheet(&mut book, sheet.name, is_hidden)
    });
    each.collect()
}

type Book<'a> = Xlsx<Cursor<&'a [u8]>>;

fn sheet(book: &mut Book<'_>, name: String, is_hidden: bool) -> Result<Sheet, WorkbookError> {
    let too_many = |_: TooMany| WorkbookError::TooManyCells(name.clone());
    let mut cells = Cells::default();
    if values(book, &name, &mut cells)
        .map_err(failed)?
        .map_err(too_many)?
    {
        uncalculated(book, &name, &mut cells).map_err(failed)?;
    }
    let merged = book.merge_cells_by_sheet_name(&name).map_err(failed)?;
    let merged = merged.iter().map(|area| Merged {
        lines: [area.start.0, area.end.0],
        column: area.start.1,
    });
    cells.sheet(name, is_hidden, &merged.collect::<Vec<_>>())
}

/// Puts the values of a sheet into its cells; whether any cell has none.
fn values(
    book: &mut Book<'_>,
    name: &str,
    cells: &mut Cells,
) -> Result<Result<bool, TooMany>, XlsxError> {
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
        if let Err(too_many) = cells.put(line, column, &text) {
            return Ok(Err(too_many));
        }
    }
    Ok(Ok(is_gap))
}

/// Notes the lines in which a formula has no result.
fn uncalculated(book: &mut Book<'_>, name: &str, cells: &mut Cells) -> Result<(), XlsxError> {
    let mut reader = book.worksheet_cells_reader(name)?;
    while let Some(cell) = reader.next_cell_with_formula_metadata()? {
        if cell.formula.is_some() && cell.value.is_empty() {
            cells.uncalculated.insert(cell.pos.0);
        }
    }
    Ok(())
}

fn failed(error: XlsxError) -> WorkbookError {
    match error {
        XlsxError::Password => WorkbookError::Locked,
        error => WorkbookError::Damaged(error.to_string()),
    }
}
