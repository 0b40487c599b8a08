//! A list written as a table.

use csv::{Terminator, WriterBuilder};
use quillbore_job::Unit;
use quillbore_job::shop::sheet::{ShopColumn, ShopList, ShopSheet, shown_rows};
use quillbore_job::words::shop_sheet as names;

use super::bare::guarded;
use super::{cell, typed_columns};

/// A list of a sheet as CSV: a line of heads with their units, then a line for each row of its own; where it
/// has none, for each sample, so that there is something to change.
#[must_use]
pub fn write(sheet: &ShopSheet, list: ShopList) -> String {
    let own = shown_rows(sheet, list, false);
    let rows = if own.is_empty() {
        shown_rows(sheet, list, true)
    } else {
        own
    };
    let columns: Vec<ShopColumn> = typed_columns(list).collect();
    let mut writer = WriterBuilder::new()
        .terminator(Terminator::CRLF)
        .from_writer(Vec::new());
    // Writing to memory can't fail.
    let _ = writer.write_record(columns.iter().map(|column| head(*column, sheet.unit)));
    for row in &rows {
        let cells = columns.iter();
        let cells = cells.map(|column| guarded(&cell(row, *column, sheet.unit)));
        let _ = writer.write_record(cells);
    }
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8_lossy(&bytes).into_owned()
}

fn head(column: ShopColumn, unit: Unit) -> String {
    match names::column_unit(column, unit) {
        "" => names::column(column).to_owned(),
        of => format!("{} ({of})", names::column(column)),
    }
}
