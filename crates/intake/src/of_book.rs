//! A sheet of a workbook as a foreign table.

use std::sync::Arc;

use quillbore_job::Column;
use quillbore_job::report::Source;

use crate::column::How;
use crate::error::IntakeError;
use crate::foreign::{Foreign, all_places};
use crate::meaning::Meaning;
use crate::words;
use crate::workbook::{Sheet, Workbook};

/// The workbook that a table is a sheet of.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct OfBook {
    book: Arc<Workbook>,
    /// How much each sheet looks like a hole table.
    looks: Vec<Looks>,
    at: usize,
}

/// A sheet as somebody may choose it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SheetView<'a> {
    /// Its name.
    pub name: &'a str,
    /// It is not shown to whoever opens the file.
    pub is_hidden: bool,
    /// It looks as much like a hole table as any of them.
    pub may_be_it: bool,
    /// It is the one that was taken.
    pub is_taken: bool,
}

/// How much a sheet looks like a hole table; the later the more.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Looks {
    /// Nothing of it can be taken.
    NoTable,
    /// It is not shown to whoever opens the file.
    Hidden,
    /// Cells, of which no column is known to hold sizes.
    Cells,
    /// A column holds sizes.
    Sizes,
    /// A head says so.
    SaysSizes,
}

/// The sheet that looks most like a hole table; of several the first.
pub(crate) fn likeliest(book: Workbook, name: &str) -> Result<Foreign, IntakeError> {
    let book = Arc::new(book);
    let from = |sheet: &Sheet| Source::named(name).on_sheet(&sheet.name);
    let of = |sheet| table(sheet, from(sheet));
    let tables: Vec<_> = book.sheets.iter().map(of).collect();
    let each = tables.iter().zip(&book.sheets);
    let looks: Vec<Looks> = each
        .map(|(table, sheet)| {
            table
                .as_ref()
                .map_or(Looks::NoTable, |table| looks(table, sheet))
        })
        .collect();
    let most = looks.iter().max().copied();
    let at = looks
        .iter()
        .position(|looks| Some(*looks) == most)
        .unwrap_or(0);
    let table = tables
        .into_iter()
        .nth(at)
        .unwrap_or(Err(IntakeError::Empty))?;
    Ok(Foreign {
        sheet: Some(OfBook { book, looks, at }),
        ..table
    })
}

impl Foreign {
    /// The sheets of the workbook that it is one of, in the workbook's order; none where it is of no workbook.
    #[must_use]
    pub fn sheets(&self) -> Vec<SheetView<'_>> {
        let Some(OfBook { book, looks, at }) = &self.sheet else {
            return Vec::new();
        };
        let most = looks.iter().max();
        let each = book.sheets.iter().zip(looks).enumerate();
        each.map(|(place, (sheet, looks))| SheetView {
            name: &sheet.name,
            is_hidden: sheet.is_hidden,
            may_be_it: Some(looks) == most,
            is_taken: place == *at,
        })
        .collect()
    }

    /// The table of another sheet of the same workbook, by its name.
    ///
    /// # Errors
    /// Where there is no such sheet, or it can't be taken.
    pub fn on_sheet(&self, name: &str) -> Result<Self, IntakeError> {
        let plain = |name: &str| name.trim().to_lowercase();
        let of = self.sheet.as_ref();
        let found = of.and_then(|of| {
            let exact = of.book.sheets.iter().position(|sheet| sheet.name == name);
            let alike = || {
                of.book
                    .sheets
                    .iter()
                    .position(|sheet| plain(&sheet.name) == plain(name))
            };
            Some((of, exact.or_else(alike)?))
        });
        let Some((of, at)) = found else {
            let there = self
                .sheets()
                .iter()
                .map(|sheet| sheet.name.to_owned())
                .collect();
            return Err(IntakeError::NoSuchSheet(name.trim().to_owned(), there));
        };
        let sheet = of.book.sheets.get(at).ok_or(IntakeError::Empty)?;
        let from = self.from.clone().on_sheet(&sheet.name);
        Ok(Self {
            sheet: Some(OfBook { at, ..of.clone() }),
            ..table(sheet, from)?
        })
    }

    /// The same table, where no other sheet of its workbook may as well be the hole table.
    ///
    /// # Errors
    /// Where several may be.
    pub fn one_sheet(self) -> Result<Self, IntakeError> {
        let sheets = self.sheets();
        let may_be = sheets.iter().filter(|sheet| sheet.may_be_it);
        let may_be: Vec<String> = may_be.map(|sheet| sheet.name.to_owned()).collect();
        if may_be.len() > 1 {
            return Err(IntakeError::WhichSheet(may_be));
        }
        Ok(self)
    }

    /// What is told of the sheet that it is, and of what the spreadsheet made of its cells.
    pub(crate) fn of_sheet(&self) -> Vec<String> {
        let Some(OfBook { book, at, .. }) = &self.sheet else {
            return Vec::new();
        };
        let Some(sheet) = book.sheets.get(*at) else {
            return Vec::new();
        };
        let others: Vec<&str> = self
            .sheets()
            .iter()
            .filter(|sheet| !sheet.is_taken)
            .map(|sheet| sheet.name)
            .collect();
        let rows: Vec<usize> = self.rows().map(|(_, line)| line.number).collect();
        let of_rows = |lines: &[usize]| -> Vec<usize> {
            let lines = lines.iter().copied();
            lines
                .filter(|line| rows.binary_search(line).is_ok())
                .collect()
        };
        let told = |lines: &[usize], say: fn(&[usize]) -> String| {
            let lines = of_rows(lines);
            (!lines.is_empty()).then(|| say(&lines))
        };
        let taken = (!others.is_empty()).then(|| words::sheet_taken(&sheet.name, &others));
        let all = [
            taken,
            told(&sheet.merged, words::merged),
            told(&sheet.uncalculated, words::uncalculated),
            told(&sheet.dates, words::dates),
            told(&sheet.fractions, words::fractions),
            told(&sheet.struck, words::struck),
            book.seen.hides.then(|| words::HIDES.to_owned()),
            book.seen.strikes.then(|| words::STRIKES.to_owned()),
            book.seen.comments.then(|| words::COMMENTS.to_owned()),
        ];
        all.into_iter().flatten().collect()
    }
}

fn table(sheet: &Sheet, from: Source) -> Result<Foreign, IntakeError> {
    Foreign::of_lines(from, sheet.lines.clone(), None, &all_places())?.with_rows()
}

fn looks(table: &Foreign, sheet: &Sheet) -> Looks {
    let mut sizes = table
        .columns
        .iter()
        .filter(|column| column.holds(Meaning::Ours(Column::Size)));
    match (sheet.is_hidden, sizes.next().map(|column| column.how)) {
        (true, _) => Looks::Hidden,
        (false, None) => Looks::Cells,
        (false, Some(How::Head)) => Looks::SaysSizes,
        (false, Some(_)) => Looks::Sizes,
    }
}
