//! The shop's sheet as bytes: format 3 of shop files. Text and unit stand in it, never text and value.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use serde::{Deserialize, Serialize};

use super::edit::MOST_ROWS;
use super::kind::read_shop;
use super::lists::{ShopColumn, ShopLine, ShopList};
use super::of_file::sheet_of;
use super::own::{MOST_CHANGES, ShopChange, ShopRow, ShopSheet};
use crate::file::parts::{Cell, Cells, Day, Key, UnitName};
use crate::ground::text::{TextError, decode, format_number, parse, written};
use crate::shop::disk::read as read_rows;
use crate::shop::error::ShopError;
use crate::shop::logo::Logo;
use crate::typed::entry::{Entry, Unit};

/// The format of shop files that is written.
pub(crate) const SHOP_FORMAT: u32 = 3;

/// A sheet on disk.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct SheetFile {
    format: u32,
    unit: UnitName,
    #[serde(default, skip_serializing_if = "Cells::is_empty")]
    lines: Cells<ShopLine>,
    #[serde(default)]
    next_row: u32,
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    lists: BTreeMap<String, Vec<RowFile>>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    without_samples: Vec<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    left_out: Vec<(String, String)>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    logo: String,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    changes: Vec<(Day, String, String)>,
}

/// A row on disk.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct RowFile {
    id: u32,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    stands_for: Option<String>,
    #[serde(default, skip_serializing_if = "Cells::is_empty")]
    cells: Cells<ShopColumn>,
}

impl Key for ShopLine {
    const WHAT: &'static str = "line of the shop";
    const ALL: &'static [Self] = Self::ALL;
    fn key(self) -> &'static str {
        Self::key(self)
    }
}

impl Key for ShopColumn {
    const WHAT: &'static str = "column of the shop";
    const ALL: &'static [Self] = Self::ALL;
    fn key(self) -> &'static str {
        Self::key(self)
    }
}

/// A sheet's file: the same sheet gives the same text, one cell a line.
#[must_use]
pub fn write_sheet(sheet: &ShopSheet) -> String {
    written(&on_disk(sheet))
}

fn on_disk(sheet: &ShopSheet) -> SheetFile {
    let lists = sheet.rows.iter().filter(|(_, rows)| !rows.is_empty());
    SheetFile {
        format: SHOP_FORMAT,
        unit: unit_name(sheet.unit),
        lines: cells(sheet.lines.iter()),
        next_row: sheet.next_row,
        lists: lists
            .map(|(list, rows)| {
                let rows = rows.iter().map(|row| RowFile {
                    id: row.id,
                    stands_for: row.stands_for.clone(),
                    cells: cells(row.cells.iter()),
                });
                (list.key().to_owned(), rows.collect())
            })
            .collect(),
        without_samples: {
            let lists = sheet.without_samples.iter();
            lists.map(|list| list.key().to_owned()).collect()
        },
        left_out: {
            let left_out = sheet.left_out.iter();
            left_out
                .map(|(list, name)| (list.key().to_owned(), name.clone()))
                .collect()
        },
        logo: sheet
            .logo
            .as_ref()
            .map_or_else(String::new, |logo| STANDARD.encode(logo.bytes())),
        changes: {
            let changes = sheet.changes.iter();
            changes
                .map(|change| (Day(change.day), change.by.clone(), change.what.clone()))
                .collect()
        },
    }
}

fn cells<'a, K: Copy + 'a, V: 'a>(typed: impl Iterator<Item = (&'a K, &'a Entry<V>)>) -> Cells<K> {
    let cells = typed.filter_map(|(key, entry)| {
        let unit = unit_name(entry.unit()?);
        Some((*key, Cell(entry.text().to_owned(), unit)))
    });
    Cells(cells.collect())
}

/// Whether bytes are a sheet as it is written now, and no file of an older format.
pub(crate) fn is_sheet(bytes: &[u8]) -> bool {
    let text = decode(bytes);
    let format = text.and_then(format_number);
    format.is_ok_and(|format| format >= u64::from(SHOP_FORMAT))
}

/// Reads a shop's sheet from a file's bytes, also from one of an older format that gave numbers.
///
/// # Errors
/// Where the bytes are no shop file of a known format; nothing is taken from them then.
pub fn read_sheet(bytes: &[u8]) -> Result<ShopSheet, ShopError> {
    read_any(bytes).map_err(|error| error.of(bytes))
}

fn read_any(bytes: &[u8]) -> Result<ShopSheet, ShopError> {
    let text = decode(bytes)?;
    match format_number(text)? {
        1 | 2 => Ok(sheet_of(&read_rows(bytes)?)),
        3 => sheet(parse(text)?),
        0 => Err(TextError::UnknownFormat { found: 0 }.into()),
        found => {
            let newest = SHOP_FORMAT;
            Err(TextError::NewerFormat { found, newest }.into())
        }
    }
}

fn sheet(file: SheetFile) -> Result<ShopSheet, ShopError> {
    let mut sheet = ShopSheet {
        unit: unit(file.unit),
        next_row: file.next_row,
        ..ShopSheet::default()
    };
    let lines = Arc::make_mut(&mut sheet.lines);
    for (line, Cell(text, read_in)) in file.lines.0 {
        let entry = read_shop(line.kind(), &text, unit(read_in));
        if !entry.is_empty() {
            lines.insert(line, entry);
        }
    }
    let list_of = |key: &str| {
        ShopList::of_key(key).ok_or_else(|| ShopError::ListUnknown {
            name: key.to_owned(),
        })
    };
    let mut ids = BTreeSet::new();
    for (key, rows) in file.lists {
        let list = list_of(&key)?;
        if rows.len() > MOST_ROWS {
            return Err(ShopError::TooManyRows {
                list: list.key(),
                most: MOST_ROWS,
            });
        }
        let mut own = Vec::with_capacity(rows.len());
        for row in rows {
            if row.id >= file.next_row || !ids.insert(row.id) {
                return Err(ShopError::RowIdentity { id: row.id });
            }
            own.push(Arc::new(shop_row(list, row)?));
        }
        sheet.rows.insert(list, own);
    }
    for key in &file.without_samples {
        sheet.without_samples.insert(list_of(key)?);
    }
    for (key, name) in file.left_out {
        sheet.left_out.insert((list_of(&key)?, name));
    }
    if !file.logo.is_empty() {
        let bytes = STANDARD.decode(&file.logo);
        let bytes = bytes.map_err(|_| ShopError::LogoDamaged)?;
        let logo = Logo::new(bytes).map_err(|_| ShopError::LogoDamaged)?;
        sheet.logo = Some(Arc::new(logo));
    }
    let changes = file.changes.into_iter().map(|(Day(day), by, what)| {
        let change = ShopChange { day, by, what };
        Arc::new(change)
    });
    sheet.changes = changes.collect();
    let too_many = sheet.changes.len().saturating_sub(MOST_CHANGES);
    sheet.changes.drain(..too_many);
    Ok(sheet)
}

fn shop_row(list: ShopList, row: RowFile) -> Result<ShopRow, ShopError> {
    let mut cells = BTreeMap::new();
    for (column, Cell(text, read_in)) in row.cells.0 {
        if !list.columns().contains(&column) {
            return Err(ShopError::ColumnElsewhere {
                list: list.key(),
                column: column.key(),
            });
        }
        let entry = read_shop(column.kind(), &text, unit(read_in));
        if !entry.is_empty() {
            cells.insert(column, entry);
        }
    }
    Ok(ShopRow {
        id: row.id,
        stands_for: row.stands_for,
        cells,
    })
}

const fn unit_name(unit: Unit) -> UnitName {
    match unit {
        Unit::Mm => UnitName::Mm,
        Unit::Inch => UnitName::Inch,
    }
}

const fn unit(name: UnitName) -> Unit {
    match name {
        UnitName::Mm => Unit::Mm,
        UnitName::Inch => Unit::Inch,
    }
}
