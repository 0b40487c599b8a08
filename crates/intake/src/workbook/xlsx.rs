//! Sheets of Office Open XML workbooks (ECMA-376).

use std::borrow::Cow;
use std::io::Cursor;

use calamine::{
    Data, DataRef, DataType as _, Reader as _, SheetType, SheetVisible, Xlsx, XlsxError,
};

use super::merged::{Cells, Merged};
use super::room::{Full, Room};
use super::shown::{fraction, is_of_fractions, number, unit_of};
use super::{CELLS_BETWEEN_LOOKS, Sheet, WorkbookError};
use crate::watch::{Watch, share};

/// Most sheets of a workbook: all of them may be one part of the file, which is read for each.
const MOST_SHEETS: usize = 255;

/// Its sheets of cells, of which some `may_merge`; sheets of charts and macros have none.
pub(super) fn sheets(
    bytes: &[u8],
    may_merge: bool,
    room: &mut Room,
    watch: Watch<'_>,
) -> Result<Vec<Sheet>, WorkbookError> {
    let mut book = Xlsx::new(Cursor::new(bytes)).map_err(failed)?;
    let known = book.sheets_metadata().to_vec();
    if known.len() > MOST_SHEETS {
        return Err(WorkbookError::TooLarge);
    }
    let of_cells = |sheet: &calamine::Sheet| sheet.typ == SheetType::WorkSheet;
    let all = known.iter().filter(|sheet| of_cells(sheet)).count();
    let of_cells = known.into_iter().filter(of_cells).enumerate();
    let each = of_cells.map(|(at, sheet)| {
        let watch = |done: f64| watch((share(at, all) + done * share(1, all)).min(1.0));
        let is_hidden = sheet.visible != SheetVisible::Visible;
        let cells = cells(&mut book, &sheet.name, room, &watch)?;
        let merged = match may_merge {
            true => merged(&mut book, &sheet.name)?,
            false => Vec::new(),
        };
        cells.sheet(&sheet.name, is_hidden, &merged, room)
    });
    each.collect()
}

type Book<'a> = Xlsx<Cursor<&'a [u8]>>;

fn cells(
    book: &mut Book<'_>,
    name: &str,
    room: &mut Room,
    watch: Watch<'_>,
) -> Result<Cells, WorkbookError> {
    let mut cells = Cells::default();
    let read = values(book, name, &mut cells, room, watch).map_err(failed)?;
    let is_gap = match read.map_err(|full| full.error(name))? {
        Values::Stopped => return Err(WorkbookError::Stopped),
        Values::All { is_gap } => is_gap,
    };
    if is_gap {
        let noted = uncalculated(book, name, &mut cells, room).map_err(failed)?;
        noted.map_err(|full| full.error(name))?;
    }
    Ok(cells)
}

fn merged(book: &mut Book<'_>, name: &str) -> Result<Vec<Merged>, WorkbookError> {
    let merged = book.merge_cells_by_sheet_name(name).map_err(failed)?;
    let merged = merged.iter().map(|area| Merged {
        lines: [area.start.0, area.end.0],
        column: area.start.1,
    });
    Ok(merged.collect())
}

/// How far the values of a sheet were read.
enum Values {
    /// Until somebody stopped it.
    Stopped,
    /// To the end; whether any cell has none.
    All { is_gap: bool },
}

/// What a cell's style says of its text.
#[derive(Clone, Copy, Default)]
struct Style {
    /// The unit that its number format puts behind its number.
    unit: &'static str,
    /// Its number is shown as a fraction.
    is_fraction: bool,
    /// It is struck through.
    is_struck: bool,
}

impl Style {
    fn of(style: &calamine::Style) -> Self {
        let format = style.number_format.as_ref();
        let format = format.map_or("", |format| format.format_code.as_str());
        let font = style.font.as_ref();
        Self {
            unit: unit_of(format).unwrap_or_default(),
            is_fraction: is_of_fractions(format),
            is_struck: font.is_some_and(|font| font.strikethrough),
        }
    }
}

/// Puts the values of a sheet into its cells.
fn values(
    book: &mut Book<'_>,
    name: &str,
    cells: &mut Cells,
    room: &mut Room,
    watch: Watch<'_>,
) -> Result<Result<Values, Full>, XlsxError> {
    let (mut is_gap, mut count) = (false, 0_usize);
    let mut reader = book.worksheet_cells_reader(name)?;
    let last = reader.dimensions().end.0;
    let styles: Vec<Style> = reader.styles().iter().map(Style::of).collect();
    while let Some((cell, style)) = reader.next_cell_with_style_id()? {
        let (line, column) = cell.get_position();
        count += 1;
        if count % CELLS_BETWEEN_LOOKS == 0 && watch(share(line as usize, last as usize)) {
            return Ok(Ok(Values::Stopped));
        }
        let text: Cow<'_, str> = match cell.get_value() {
            DataRef::Empty => {
                is_gap = true;
                continue;
            }
            DataRef::Float(value) => {
                let style = styles.get(style).copied().unwrap_or_default();
                let fraction = style.is_fraction.then(|| fraction(*value)).flatten();
                if style.is_fraction && value.fract() != 0.0 {
                    cells.fractions.insert(line);
                }
                (fraction.unwrap_or_else(|| number(*value)) + style.unit).into()
            }
            DataRef::String(text) => text.into(),
            DataRef::SharedString(text) => (*text).into(),
            DataRef::DateTime(when) if when.is_datetime() => {
                cells.dates.insert(line);
                let (year, month, day, ..) = when.to_ymd_hms_milli();
                format!("{year:04}-{month:02}-{day:02}").into()
            }
            other => Data::from(other.clone()).to_string().into(),
        };
        if styles.get(style).is_some_and(|style| style.is_struck) {
            cells.struck.insert(line);
        }
        let put = match cells.text(&text) {
            Ok(Some(text)) => cells.put(line, column, text, room),
            other => other.map(|_| ()),
        };
        if let Err(full) = put {
            return Ok(Err(full));
        }
    }
    Ok(Ok(Values::All { is_gap }))
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
