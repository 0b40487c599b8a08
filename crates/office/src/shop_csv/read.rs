//! A table taken into a list: what of it counts, and what of it is told.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use csv::{ReaderBuilder, StringRecord};
use quillbore_intake::encoding::decode;
use quillbore_job::Unit;
use quillbore_job::same_name::same_name;
use quillbore_job::shop::sheet::{
    ShopColumn, ShopEdit, ShopKind, ShopList, ShopRowAt, ShopSheet, ShownRow, read_shop, shown_rows,
};
use quillbore_job::words::shop_sheet as names;

use super::bare::unguarded;
use super::{cell, typed_columns, with_unit};
use crate::failure::Failure;
use crate::words::shop_csv as words;

/// Most lines of a table that is taken in.
pub(crate) const MOST_LINES: usize = 20_000;

/// Stands alone on a line behind the table: where it is no line of its own, a quotation mark is open.
const END: &str = "\u{2}end\u{3}";

/// A table that was taken in.
#[derive(Clone, Debug, PartialEq)]
pub struct TakenIn {
    /// What it does to the sheet, one step; none where nothing of it differs.
    pub edit: Option<ShopEdit>,
    /// What is told of it.
    pub told: String,
}

/// How many lines of a table came to what; lines are counted from 1 with the heads.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// New rows.
    pub new: usize,
    /// Rows of a known name that differ.
    pub changed: usize,
    /// Rows that say the same.
    pub same: usize,
    /// Lines without a name.
    pub nameless: Vec<usize>,
    /// Lines whose name stood above already.
    pub twice: Vec<usize>,
    /// Lines with cells behind the last head.
    pub beyond: Vec<usize>,
    /// Cells that can't be read and stand as they were typed: line and column.
    pub unread: Vec<(usize, ShopColumn)>,
}

/// What a table says of a list of the sheet: rows of a known name get its cells, others are new; what of it
/// counts for nothing is told.
///
/// # Errors
/// Where the bytes are no text, no table, or have no column of the list.
pub fn read(sheet: &ShopSheet, list: ShopList, bytes: &[u8]) -> Result<TakenIn, Failure> {
    let decoded = decode(bytes).ok_or_else(words::no_text)?;
    let lines = lines_of(list, &decoded.text)?;
    let mut lines = lines.iter();
    let heads = match lines.next() {
        Some((_, line)) => Heads::of(list, line)?,
        None => return Err(words::no_name_column(list)),
    };
    let mut columns = heads.columns.iter().flatten();
    if !columns.any(|(of, _)| can_name(list, *of)) {
        return Err(words::no_name_column(list));
    }
    let mut taken = Taken {
        sheet,
        list,
        known: shown_rows(sheet, list, true),
        seen: BTreeSet::new(),
        rows: Vec::new(),
        counts: Counts::default(),
    };
    for (at, line) in lines {
        let beyond = line.iter().skip(heads.columns.len());
        if beyond.into_iter().any(|cell| !cell.trim().is_empty()) {
            taken.counts.beyond.push(*at);
        }
        taken.take(*at, heads.cells(line, sheet.unit));
    }
    let Taken { rows, counts, .. } = taken;
    let edit = (!rows.is_empty()).then_some(ShopEdit::SetCells {
        list,
        rows,
        unit: sheet.unit,
    });
    let told = words::taken_in(list, &counts, &heads.unknown);
    Ok(TakenIn { edit, told })
}

/// The lines of a table with where each begins in the file.
fn lines_of(list: ShopList, text: &str) -> Result<Vec<(usize, StringRecord)>, Failure> {
    let ended = format!("{}\n{END}\n", text.trim_end_matches(['\r', '\n']));
    let mut table = ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(separator(text))
        .from_reader(ended.as_bytes());
    let mut lines: Vec<(usize, StringRecord)> = Vec::new();
    let mut counter = LineCounter::of(&ended);
    for record in table.records() {
        let record = record.map_err(|_| words::no_table(list))?;
        if record.len() == 1 && record.get(0) == Some(END) {
            return Ok(lines);
        }
        if lines.len() > MOST_LINES {
            return Err(words::too_many_lines(MOST_LINES));
        }
        let begins = record.position().map_or(0, csv::Position::byte);
        let begins = usize::try_from(begins).unwrap_or(usize::MAX);
        lines.push((counter.line_at(begins), record));
    }
    Err(words::open_quote(lines.last().map_or(1, |(at, _)| *at)))
}

/// Counts the lines of a file, those within quotes too, from its beginning on.
struct LineCounter<'a> {
    rest: &'a [u8],
    at: usize,
    line: usize,
}

impl<'a> LineCounter<'a> {
    const fn of(text: &'a str) -> Self {
        Self {
            rest: text.as_bytes(),
            at: 0,
            line: 1,
        }
    }

    /// The line in which the first text stands from a byte on, from 1; bytes are asked in their order.
    fn line_at(&mut self, byte: usize) -> usize {
        loop {
            match self.rest {
                // The end of the line before, and empty lines, belong to no row.
                [b'\r', b'\n', rest @ ..] | [b'\n' | b'\r', rest @ ..] => self.go(rest, true),
                [_, rest @ ..] if self.at < byte => self.go(rest, false),
                _ => return self.line,
            }
        }
    }

    fn go(&mut self, rest: &'a [u8], is_end: bool) {
        self.at += self.rest.len() - rest.len();
        self.rest = rest;
        self.line += usize::from(is_end);
    }
}

/// The first line of a table.
struct Heads {
    /// The column of each cell and the unit in it; none where the list has no such column.
    columns: Vec<Option<(ShopColumn, Option<Unit>)>>,
    /// The names that are none of its columns.
    unknown: Vec<String>,
}

impl Heads {
    fn of(list: ShopList, line: &StringRecord) -> Result<Self, Failure> {
        let line: Vec<String> = line.iter().map(|head| on_one_line(head, " ")).collect();
        let columns: Vec<_> = line.iter().map(|head| column_of(list, head)).collect();
        let mut seen = BTreeSet::new();
        let mut named = columns.iter().flatten();
        if let Some((twice, _)) = named.find(|(column, _)| !seen.insert(*column)) {
            return Err(words::column_twice(*twice));
        }
        let named = line.iter().zip(&columns);
        let unknown = named.filter(|(head, column)| column.is_none() && !head.trim().is_empty());
        Ok(Self {
            unknown: unknown.map(|(head, _)| head.trim().to_owned()).collect(),
            columns,
        })
    }

    /// What a line says of each column.
    fn cells(&self, line: &StringRecord, unit: Unit) -> Cells {
        let cells = self.columns.iter().zip(line.iter());
        let cells = cells.filter_map(|(head, text)| {
            let (column, of) = (*head)?;
            let text = as_held(unguarded(text), column.kind());
            Some((column, in_unit(&text, column, of, unit)))
        });
        cells.collect()
    }
}

type Cells = BTreeMap<ShopColumn, String>;

/// What the lines of a table come to, one after the other.
struct Taken<'a> {
    sheet: &'a ShopSheet,
    list: ShopList,
    known: Vec<ShownRow>,
    seen: BTreeSet<String>,
    rows: Vec<(ShopRowAt, Vec<(ShopColumn, String)>)>,
    counts: Counts,
}

impl Taken<'_> {
    fn take(&mut self, line: usize, typed: Cells) {
        let has = |text: &str| !text.trim().is_empty();
        if !typed.values().any(|text| has(text)) {
            return;
        }
        let names =
            |(column, text): (&ShopColumn, &String)| can_name(self.list, *column) && has(text);
        if !typed.iter().any(names) {
            self.counts.nameless.push(line);
            return;
        }
        let naming = naming(self.list);
        let name = typed.get(&naming).map_or("", |name| name.trim());
        if !name.is_empty() && !self.seen.insert(name.to_lowercase()) {
            self.counts.twice.push(line);
            return;
        }
        let mut known = self.known.iter();
        let there = known.find(|row| !name.is_empty() && same_name(row.text(naming), name));
        let differs = |(column, text): &(ShopColumn, String)| match there {
            Some(row) => cell(row, *column, self.sheet.unit).trim() != text.trim(),
            None => has(text),
        };
        let cells: Vec<_> = typed.into_iter().filter(differs).collect();
        let unread = cells.iter().filter(|(column, text)| {
            let entry = read_shop(column.kind(), text, self.sheet.unit);
            entry.why().is_some()
        });
        let unread = unread.map(|(column, _)| (line, *column));
        self.counts.unread.extend(unread);
        match there {
            Some(_) if cells.is_empty() => self.counts.same += 1,
            Some(row) => {
                self.counts.changed += 1;
                self.rows.push((row.at.clone(), cells));
            }
            None => {
                self.counts.new += 1;
                self.rows.push((ShopRowAt::New, cells));
            }
        }
    }
}

/// A text as its cell holds it, every line end alike: where that is one line, line ends are blanks, and between names semicolons.
fn as_held(text: &str, kind: ShopKind) -> Cow<'_, str> {
    match kind {
        _ if !text.contains(is_line_end) => Cow::Borrowed(text),
        ShopKind::Lines => Cow::Owned(text.replace("\r\n", "\n").replace(is_line_end, "\n")),
        ShopKind::Names => Cow::Owned(on_one_line(text, "; ")),
        _ => Cow::Owned(on_one_line(text, " ")),
    }
}

fn on_one_line(text: &str, between: &str) -> String {
    let lines = text.split(is_line_end).map(str::trim);
    let lines: Vec<&str> = lines.filter(|line| !line.is_empty()).collect();
    lines.join(between)
}

const fn is_line_end(sign: char) -> bool {
    matches!(
        sign,
        '\n' | '\r' | '\u{b}' | '\u{c}' | '\u{85}' | '\u{2028}' | '\u{2029}'
    )
}

/// The column that names a row.
fn naming(list: ShopList) -> ShopColumn {
    list.columns().first().copied().unwrap_or(ShopColumn::Name)
}

/// Whether a column tells which row is meant: an electrode is known by its diameter, too.
fn can_name(list: ShopList, column: ShopColumn) -> bool {
    column == naming(list) || (list == ShopList::Electrodes && column == ShopColumn::Outer)
}

/// What separates the cells: what its first line has most of.
fn separator(text: &str) -> u8 {
    let first = text.lines().next().unwrap_or_default();
    let count = |sign: u8| first.bytes().filter(|byte| *byte == sign).count();
    let all = [b',', b';', b'\t'];
    all.into_iter()
        .max_by_key(|sign| count(*sign))
        .unwrap_or(b',')
}

/// The column that a head names, and the unit in it.
fn column_of(list: ShopList, head: &str) -> Option<(ShopColumn, Option<Unit>)> {
    let head = head.trim().to_lowercase();
    let (name, unit) = match head.split_once(['(', '[']) {
        Some((name, unit)) => (name.trim(), unit.trim_end_matches([')', ']']).trim()),
        None => (head.as_str(), ""),
    };
    let unit = match unit {
        "mm" => Some(Unit::Mm),
        "in" | "inch" => Some(Unit::Inch),
        _ => None,
    };
    let column = typed_columns(list)
        .find(|column| names::column(*column).to_lowercase() == name || column.key() == name);
    column.map(|column| (column, unit))
}

/// A bare number of a column whose head names another unit than the sheet's, with that unit.
fn in_unit(text: &str, column: ShopColumn, head: Option<Unit>, sheet: Unit) -> String {
    let other = head.filter(|head| *head != sheet && column.kind().is_measured());
    other.map_or_else(|| text.to_owned(), |unit| with_unit(text.trim(), unit))
}
