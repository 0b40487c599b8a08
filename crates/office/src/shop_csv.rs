//! Lists of the shop's sheet as tables of text (CSV, RFC 4180): written with a line of heads, and taken in
//! again, row by row by their names.

use std::collections::{BTreeMap, BTreeSet};

use csv::{ReaderBuilder, StringRecord, Terminator, WriterBuilder};
use quillbore_intake::encoding::decode;
use quillbore_job::Unit;
use quillbore_job::same_name::same_name;
use quillbore_job::shop::sheet::{
    ShopColumn, ShopEdit, ShopKind, ShopList, ShopRowAt, ShopSheet, ShownRow, shown_rows,
};
use quillbore_job::words::shop_sheet as names;

use crate::failure::Failure;
use crate::words::shop_csv as words;

/// The lists that are written and taken in.
pub const LISTS: [ShopList; 3] = [
    ShopList::Electrodes,
    ShopList::Materials,
    ShopList::Customers,
];

/// Most lines of a table that is taken in.
const MOST_LINES: usize = 20_000;

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
        let cells = columns.iter().map(|column| cell(row, *column, sheet.unit));
        let _ = writer.write_record(cells);
    }
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8_lossy(&bytes).into_owned()
}

fn typed_columns(list: ShopList) -> impl Iterator<Item = ShopColumn> {
    let columns = list.columns().iter().copied();
    columns.filter(|column| column.kind() != ShopKind::Computed)
}

fn head(column: ShopColumn, unit: Unit) -> String {
    match names::column_unit(column, unit) {
        "" => names::column(column).to_owned(),
        of => format!("{} ({of})", names::column(column)),
    }
}

/// What counts of a cell; a bare number in another unit than the head's says so.
fn cell(row: &ShownRow, column: ShopColumn, unit: Unit) -> String {
    let typed = row.typed(column);
    let of = if typed.is_empty() {
        Some(Unit::Mm)
    } else {
        typed.unit()
    };
    let text = row.text(column);
    let other = of.filter(|of| *of != unit && column.kind().is_measured());
    other.map_or_else(|| text.to_owned(), |of| with_unit(text, of))
}

fn with_unit(text: &str, unit: Unit) -> String {
    let is_bare = !text.is_empty() && !text.chars().any(char::is_alphabetic);
    if is_bare {
        format!("{text} {}", unit.symbol())
    } else {
        text.to_owned()
    }
}

/// A table that was taken in.
#[derive(Clone, Debug, PartialEq)]
pub struct TakenIn {
    /// What it does to the sheet, one step; none where nothing of it differs.
    pub edit: Option<ShopEdit>,
    /// What is told of it.
    pub told: String,
}

/// What a table says of a list of the sheet: rows of a known name get its cells, others are new; columns that
/// the list doesn't have, and lines without a name, are told.
///
/// # Errors
/// Where the bytes are no text, no table, or have no column of the list.
pub fn read(sheet: &ShopSheet, list: ShopList, bytes: &[u8]) -> Result<TakenIn, Failure> {
    let decoded = decode(bytes).ok_or_else(words::no_text)?;
    let mut table = ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(separator(&decoded.text))
        .from_reader(decoded.text.as_bytes());
    let mut lines = Vec::new();
    for record in table.records() {
        let record = record.map_err(|_| words::no_table(list))?;
        if lines.len() > MOST_LINES {
            return Err(words::no_table(list));
        }
        lines.push(record);
    }
    let mut lines = lines.into_iter();
    let heads = Heads::of(list, &lines.next().unwrap_or_default());
    if !heads
        .columns
        .iter()
        .flatten()
        .any(|(of, _)| can_name(list, *of))
    {
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
    for (at, line) in lines.enumerate() {
        // Counted from 1, behind the heads.
        taken.take(at + 2, heads.cells(&line, sheet.unit));
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

/// The first line of a table.
struct Heads {
    /// The column of each cell and the unit in it; none where the list has no such column.
    columns: Vec<Option<(ShopColumn, Option<Unit>)>>,
    /// The names that are none of its columns.
    unknown: Vec<String>,
}

impl Heads {
    fn of(list: ShopList, line: &StringRecord) -> Self {
        let columns: Vec<_> = line.iter().map(|head| column_of(list, head)).collect();
        let named = line.iter().zip(&columns);
        let unknown = named.filter(|(head, column)| column.is_none() && !head.trim().is_empty());
        Self {
            unknown: unknown.map(|(head, _)| head.trim().to_owned()).collect(),
            columns,
        }
    }

    /// What a line says of each column.
    fn cells(&self, line: &StringRecord, unit: Unit) -> Cells {
        let cells = self.columns.iter().zip(line.iter());
        let cells = cells.filter_map(|(head, text)| {
            let (column, of) = (*head)?;
            Some((column, in_unit(text, column, of, unit)))
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

/// How many lines of a table came to what.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// New rows.
    pub new: usize,
    /// Rows of a known name that differ.
    pub changed: usize,
    /// Rows that say the same.
    pub same: usize,
    /// Lines without a name, counted from 1 with the heads.
    pub nameless: Vec<usize>,
    /// Lines whose name stood above already.
    pub twice: Vec<usize>,
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

#[cfg(test)]
mod tests {
    use quillbore_job::shop::Shop;
    use quillbore_job::shop::sheet::apply_shop;

    use super::*;

    fn sheet_of(list: ShopList, csv: &str) -> (ShopSheet, String) {
        let taken = read(&ShopSheet::default(), list, csv.as_bytes()).expect("a table");
        let sheet = match &taken.edit {
            Some(edit) => apply_shop(&ShopSheet::default(), edit).expect("an edit"),
            None => ShopSheet::default(),
        };
        (sheet, taken.told)
    }

    #[test]
    fn a_list_comes_back_from_its_own_table() {
        let (sheet, _) = sheet_of(
            ShopList::Customers,
            "name,contact,address,margin\r\nAlder Finch,\"Jo, buying\",\"1 Mill Row\nExampleton\",22 %\r\nQuarry & Sons,,,\r\n",
        );
        let text = write(&sheet, ShopList::Customers);
        let again = read(&sheet, ShopList::Customers, text.as_bytes()).expect("a table");
        assert_eq!(again.edit, None, "{}", again.told);
        let (other, _) = sheet_of(ShopList::Customers, &text);
        assert_eq!(write(&other, ShopList::Customers), text);
        let shop = Shop::of_sheet(&other).expect("a shop");
        assert_eq!(shop.customers[0].address, ["1 Mill Row", "Exampleton"]);
        assert_eq!(shop.customers[0].margin, Some(0.22));
    }

    #[test]
    fn known_rows_are_changed_and_others_new() {
        let csv = "Name;Diameter (in);Price (each);Colour\nbrass 0.50 x 300;;0.9;red\n;0.025;1,2;\n;;3;\n";
        let (sheet, told) = sheet_of(ShopList::Electrodes, csv);
        let shop = Shop::of_sheet(&sheet).expect("a shop");
        assert_eq!(shop.not_used, []);
        let price = |name: &str| {
            let mut tubes = shop.tables.tubes.iter();
            tubes.find(|tube| tube.name == name).map(|tube| tube.price)
        };
        assert_eq!(price("brass 0.50 x 300"), Some(0.9));
        let inch = shop
            .tables
            .tubes
            .iter()
            .find(|tube| (tube.outer_mm - 0.635).abs() < 1e-9);
        assert_eq!(inch.map(|tube| tube.price), Some(1.2));
        for said in ["1 new", "1 changed", "Colour", "line 4"] {
            assert!(told.contains(said), "{said} in {told}");
        }
    }

    #[test]
    fn what_is_no_table_of_the_list_is_refused() {
        for bytes in [&b"price\n3\n"[..], b"", b"\xff\xfe\x00"] {
            assert!(read(&ShopSheet::default(), ShopList::Materials, bytes).is_err());
        }
    }
}
