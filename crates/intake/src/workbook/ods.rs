//! Sheets of OpenDocument workbooks (ISO/IEC 26300, part 1, chapter 9). The library that reads the other kind
//! lays out repeated cells before it counts them, so that a small file can take all memory; this reader counts
//! first.

use std::collections::BTreeSet;

use quick_xml::Reader;
use quick_xml::escape::resolve_xml_entity;
use quick_xml::events::{BytesRef, BytesStart, Event};

use super::bounded::Packed;
use super::merged::{Cells, Merged, is_within};
use super::room::{Full, Room};
use super::shown::{fraction, number, unit_of};
use super::{CELLS_BETWEEN_LOOKS, Sheet, WorkbookError};
use crate::watch::{Watch, share};

/// The sheets of its content.
pub(super) fn sheets(
    packed: &Packed<'_>,
    room: &mut Room,
    watch: Watch<'_>,
) -> Result<Vec<Sheet>, WorkbookError> {
    let manifest = packed.text("META-INF/manifest.xml")?;
    if manifest.is_some_and(|manifest| manifest.contains("encryption-data")) {
        return Err(WorkbookError::Locked);
    }
    let content = packed.text("content.xml")?.unwrap_or_default();
    let mut reading = Reading::default();
    let mut xml = Reader::from_str(&content);
    xml.config_mut().expand_empty_elements = true;
    for count in 1_usize.. {
        if count % (EVENTS_OF_A_CELL * CELLS_BETWEEN_LOOKS) == 0 {
            let at = usize::try_from(xml.buffer_position()).unwrap_or(usize::MAX);
            if watch(share(at, content.len())) {
                return Err(WorkbookError::Stopped);
            }
        }
        match xml
            .read_event()
            .map_err(|error| WorkbookError::damaged(&error))?
        {
            Event::Start(tag) => reading.begins(&tag),
            Event::End(tag) => reading.ends(tag.name().as_ref(), room)?,
            Event::Text(text) => reading.says(&text.xml10_content()),
            Event::CData(text) => reading.says(&text.xml10_content()),
            Event::GeneralRef(entity) => reading.says(&character(&entity)),
            Event::Eof => break,
            _ => {}
        }
    }
    Ok(reading.sheets)
}

/// A cell begins and ends at the least.
const EVENTS_OF_A_CELL: usize = 2;

/// What was read so far, and what is open.
#[derive(Default)]
struct Reading {
    sheets: Vec<Sheet>,
    /// Styles of tables that are not shown, and the style that is open.
    hides: BTreeSet<String>,
    style: String,
    /// Tables in tables: what stands in a cell's own table is no cell of ours.
    depth: usize,
    /// Remarks pinned to a cell: their text is none of the cell's.
    remarks: usize,
    sheet: Open,
    row: Vec<(u32, Cell)>,
    row_repeats: u32,
    cell: Option<Cell>,
}

/// The table that is open.
#[derive(Default)]
struct Open {
    name: String,
    is_hidden: bool,
    cells: Cells,
    merged: Vec<Merged>,
    line: u32,
    column: u32,
}

/// A cell that is open, or stands in the row that is.
#[derive(Clone, Default)]
struct Cell {
    repeats: u32,
    kind: String,
    value: String,
    has_formula: bool,
    /// Lines that it is merged over.
    lines: u32,
    paragraphs: usize,
    text: String,
}

impl Reading {
    fn begins(&mut self, tag: &BytesStart<'_>) {
        let named = |name| attribute(tag, name).unwrap_or_default();
        let count = |name| {
            attribute(tag, name)
                .and_then(|text| text.trim().parse().ok())
                .unwrap_or(1)
        };
        match tag.name().as_ref() {
            "style:style" => self.style = named("style:name"),
            "style:table-properties" if named("table:display") == "false" => {
                self.hides.insert(self.style.clone());
            }
            "table:table" => {
                self.depth += 1;
                if self.depth == 1 {
                    self.sheet = Open {
                        name: named("table:name"),
                        is_hidden: self.hides.contains(&named("table:style-name")),
                        ..Open::default()
                    };
                }
            }
            "office:annotation" => self.remarks += 1,
            _ if self.depth != 1 || self.remarks > 0 => {}
            "table:table-row" => {
                self.row.clear();
                self.sheet.column = 0;
                self.row_repeats = count("table:number-rows-repeated");
            }
            "table:table-cell" | "table:covered-table-cell" => {
                let values = [
                    "office:value",
                    "office:date-value",
                    "office:boolean-value",
                    "office:string-value",
                ];
                self.cell = Some(Cell {
                    repeats: count("table:number-columns-repeated"),
                    kind: named("office:value-type"),
                    value: values
                        .into_iter()
                        .find_map(|name| attribute(tag, name))
                        .unwrap_or_default(),
                    has_formula: attribute(tag, "table:formula").is_some(),
                    lines: count("table:number-rows-spanned"),
                    ..Cell::default()
                });
            }
            "text:p" => {
                if let Some(cell) = &mut self.cell {
                    if cell.paragraphs > 0 {
                        cell.text.push('\n');
                    }
                    cell.paragraphs += 1;
                }
            }
            "text:s" | "text:tab" => self.says(" "),
            "text:line-break" => self.says("\n"),
            _ => {}
        }
    }

    fn says(&mut self, text: &str) {
        if let Some(cell) = self.cell.as_mut().filter(|cell| cell.paragraphs > 0)
            && self.depth == 1
            && self.remarks == 0
        {
            cell.text.push_str(text);
        }
    }

    fn ends(&mut self, tag: &str, room: &mut Room) -> Result<(), WorkbookError> {
        match tag {
            "table:table" => {
                self.depth = self.depth.saturating_sub(1);
                if self.depth == 0 {
                    let Open {
                        name,
                        is_hidden,
                        cells,
                        merged,
                        ..
                    } = std::mem::take(&mut self.sheet);
                    self.sheets
                        .push(cells.sheet(&name, is_hidden, &merged, room)?);
                }
            }
            "office:annotation" => self.remarks = self.remarks.saturating_sub(1),
            _ if self.depth != 1 || self.remarks > 0 => {}
            "table:table-cell" | "table:covered-table-cell" => {
                if let Some(cell) = self.cell.take() {
                    let at = self.sheet.column;
                    self.sheet.column = at.saturating_add(cell.repeats);
                    if cell.has_formula || !cell.shown().is_empty() {
                        if !is_within(at) {
                            return Err(Full::Cells.error(&self.sheet.name));
                        }
                        self.row.push((at, cell));
                    }
                }
            }
            "table:table-row" => {
                let put = self.row_ends(room);
                put.map_err(|full| full.error(&self.sheet.name))?;
            }
            _ => {}
        }
        Ok(())
    }

    /// Puts the row into the sheet, as often as it stands there.
    fn row_ends(&mut self, room: &mut Room) -> Result<(), Full> {
        let sheet = &mut self.sheet;
        let first = sheet.line;
        sheet.line = first.saturating_add(self.row_repeats);
        let row = std::mem::take(&mut self.row);
        let texts = row.iter().map(|(_, cell)| sheet.cells.text(&cell.shown()));
        let texts = texts.collect::<Result<Vec<_>, Full>>()?;
        if row.is_empty() {
            return Ok(());
        }
        for line in first..sheet.line {
            for ((at, cell), text) in row.iter().zip(&texts) {
                let Some(text) = text else {
                    sheet.cells.without_result(line, room)?;
                    continue;
                };
                if cell.kind == "date" {
                    sheet.cells.dates.insert(line);
                }
                if cell.is_fraction() {
                    sheet.cells.fractions.insert(line);
                }
                for column in *at..at.saturating_add(cell.repeats) {
                    sheet.cells.put(line, column, *text, room)?;
                }
                if cell.lines > 1 {
                    sheet.merged.push(Merged {
                        lines: [line, line.saturating_add(cell.lines - 1)],
                        column: *at,
                    });
                }
            }
        }
        Ok(())
    }
}

impl Cell {
    /// Whether its number is shown as a fraction.
    fn is_fraction(&self) -> bool {
        let text = self.text.trim();
        let plain = |letter: char| letter.is_ascii_digit() || matches!(letter, '/' | ' ' | '-');
        self.kind == "float" && text.contains('/') && text.chars().all(plain)
    }

    /// Its text: of a number all its digits, with the unit that it is shown with.
    fn shown(&self) -> String {
        let text = self.text.trim();
        let as_fraction = self
            .is_fraction()
            .then(|| fraction(self.value.parse().ok()?));
        if let Some(fraction) = as_fraction.flatten() {
            return fraction;
        }
        let value = || {
            self.value
                .parse()
                .map_or_else(|_| self.value.clone(), number)
        };
        match self.kind.as_str() {
            "float" | "currency" => {
                let behind = text.rfind(|each: char| each.is_ascii_digit());
                let behind = behind.and_then(|last| text.get(last + 1..));
                let unit = behind.and_then(|behind| match behind.trim() {
                    "\"" | "\u{2033}" => Some(" in"),
                    _ => unit_of(&format!("0{behind}")),
                });
                value() + unit.unwrap_or_default()
            }
            // Shown in the language of whoever saved it.
            "boolean" => self.value.clone(),
            "date" => self.value.chars().take(10).collect(),
            _ if text.is_empty() && self.kind == "string" => self.value.clone(),
            _ => text.to_owned(),
        }
    }
}

fn attribute(tag: &BytesStart<'_>, name: &str) -> Option<String> {
    let found = tag.try_get_attribute(name).ok().flatten()?;
    let value = found.value.as_ref();
    Some(
        quick_xml::escape::unescape(value)
            .map_or_else(|_| value.to_owned(), std::borrow::Cow::into_owned),
    )
}

/// The character that an entity stands for; as it is written where it is none.
fn character(entity: &BytesRef<'_>) -> String {
    let plain = resolve_xml_entity(entity).map(str::to_owned);
    let by_number = || entity.resolve_char_ref().ok().flatten().map(String::from);
    plain
        .or_else(by_number)
        .unwrap_or_else(|| format!("&{};", &**entity))
}
