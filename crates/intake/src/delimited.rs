//! Lines and cells of delimited text, whatever separates them.

use std::borrow::Cow;

use crate::lines::Lines;
use crate::quotes::{Parted, past_line_end};
use crate::watch::{Watch, share};

/// Cells by line, the number of the first line being 1.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cells {
    /// What separates the cells.
    pub separator: char,
    /// The lines; empty ones are left out, and empty cells at their ends.
    pub lines: Lines,
}

/// Most cells in a line that are still believed to be a hole table.
pub const MOST_CELLS: usize = 1_000;

/// Most cells of a table in all.
pub const MOST_CELLS_IN_ALL: usize = 4_000_000;

/// Most lines with anything in them: as many as a job has rows, and some that are none.
pub const MOST_LINES: usize = 110_000;

/// Lines after which whoever waits hears how far it is.
const LINES_BETWEEN_LOOKS: usize = 1_000;

/// More cells than a hole table has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TooManyCells {
    /// In the line of this number.
    InLine(usize),
    /// In all.
    InAll,
    /// In more lines than there can be.
    Lines,
}

/// Why a text was not split to its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotSplit {
    /// It has more cells than a hole table has.
    TooMany(TooManyCells),
    /// Whoever waited for it stopped it.
    Stopped,
}

impl From<TooManyCells> for NotSplit {
    fn from(too_many: TooManyCells) -> Self {
        Self::TooMany(too_many)
    }
}

/// Splits text into cells; quotes as RFC 4180 has them, where they don't take whole lines with them.
///
/// The separator is what a first line `sep=` says; else the tab where there is one (a spreadsheet's
/// clipboard); else, of the lines that have any, the upright stroke or the semicolon (decimal commas)
/// where most have one; else the comma. Strokes that frame a line part nothing.
///
/// # Errors
/// Where a line, or the whole, has more cells than a hole table has, or `watch` stopped it.
pub fn split(text: &str, watch: Watch<'_>) -> Result<Cells, NotSplit> {
    let separator = sniff(text);
    let parted = Parted::of(text, u8::try_from(separator).unwrap_or(b','));
    let framed = separator == '|' && is_framed(text);
    let mut lines = Lines::default();
    let mut cells = Vec::new();
    let (mut at, mut number) = (0, 1);
    while at < text.len() {
        let (mut breaks, mut count) = (0, 0);
        cells.clear();
        let mut frame = framed && begins_with_stroke(text.get(at..).unwrap_or_default());
        at = each_cell(text, &parted, at, |cell, more| {
            if std::mem::take(&mut frame) {
                return Ok(());
            }
            count += 1;
            breaks += more;
            let cell = clean(cell);
            if cell.is_empty() {
                return Ok(());
            }
            if count > MOST_CELLS {
                return Err(TooManyCells::InLine(number));
            }
            cells.resize(count - 1, Cow::Borrowed(""));
            cells.push(cell);
            Ok(())
        })?;
        if !cells.is_empty() {
            lines.push(number, breaks, cells.iter().map(AsRef::as_ref));
        }
        if lines.cells() > MOST_CELLS_IN_ALL {
            return Err(TooManyCells::InAll.into());
        }
        if number % LINES_BETWEEN_LOOKS == 0 && watch(share(at, text.len())) {
            return Err(NotSplit::Stopped);
        }
        number += 1 + breaks;
    }
    Ok(Cells { separator, lines })
}

/// Reads a block of cells from clipboard text, row by row.
///
/// Cells are parted by tabs, rows by any line end; one line end after the last row is not a row.
/// A cell in double quotes may hold tabs and line ends, and `""` for a quote. A quote that is
/// not closed before a tab or line end stands for itself, as in `1/32"`, and so does a ditto mark.
#[must_use]
pub fn block(text: &str) -> Vec<Vec<String>> {
    let parted = Parted::of(text, b'\t');
    let (mut rows, mut at) = (Vec::new(), 0);
    loop {
        let mut row = Vec::new();
        let read = each_cell(text, &parted, at, |cell, _| {
            row.push(cell.into_owned());
            Ok::<(), std::convert::Infallible>(())
        });
        let Ok(end) = read;
        rows.push(row);
        at = end;
        if at >= text.len() {
            return rows;
        }
    }
}

/// Takes the cells of the line that begins at a place, each with the line ends inside it; where the
/// line after it begins.
fn each_cell<'a, E>(
    text: &'a str,
    parted: &Parted,
    mut at: usize,
    mut take: impl FnMut(Cow<'a, str>, usize) -> Result<(), E>,
) -> Result<usize, E> {
    loop {
        let read = parted.cell(text, at);
        at = read.end;
        take(read.cell, read.breaks)?;
        match text.as_bytes().get(at) {
            Some(b'\r' | b'\n') => return Ok(past_line_end(text.as_bytes(), at)),
            Some(_) => at += 1,
            None => return Ok(at),
        }
    }
}

/// A cell without its outer blanks; line breaks inside a cell become blanks.
pub(crate) fn clean(cell: Cow<'_, str>) -> Cow<'_, str> {
    if cell.contains(['\r', '\n']) {
        let parts = cell.split(['\r', '\n']).map(str::trim);
        let filled: Vec<&str> = parts.filter(|part| !part.is_empty()).collect();
        return Cow::Owned(filled.join(" "));
    }
    match cell {
        Cow::Borrowed(cell) => Cow::Borrowed(cell.trim()),
        Cow::Owned(cell) => Cow::Owned(cell.trim().to_owned()),
    }
}

/// What separates the cells of a text.
fn sniff(text: &str) -> char {
    if let Some(said) = said_separator(text) {
        return said;
    }
    if text.contains('\t') {
        return '\t';
    }
    let lines = text.lines().filter(|line| !line.trim().is_empty());
    let (mut any, mut strokes, mut semicolons) = (0_usize, 0_usize, 0_usize);
    for line in lines
        .filter(|line| line.contains(['|', ';', ',']))
        .take(100)
    {
        any += 1;
        strokes += usize::from(line.contains('|'));
        semicolons += usize::from(line.contains(';'));
    }
    match () {
        () if strokes * 2 > any => '|',
        () if semicolons * 2 > any => ';',
        () => ',',
    }
}

/// The separator that a first line `sep=;` says.
fn said_separator(text: &str) -> Option<char> {
    let line = text.lines().next()?.trim_end_matches('\r');
    let head = line.get(..4)?;
    let mut after = line.get(4..)?.chars();
    let said = after
        .next()
        .filter(|said| !said.is_alphanumeric() && said.is_ascii())?;
    (head.eq_ignore_ascii_case("sep=") && after.all(|rest| rest == said) && said != '"')
        .then_some(said)
}

/// Whether most lines with an upright stroke begin with one, as a drawn table's do.
fn is_framed(text: &str) -> bool {
    let lines = text.lines().filter(|line| line.contains('|')).take(100);
    let (mut all, mut framed) = (0_usize, 0_usize);
    for line in lines {
        all += 1;
        framed += usize::from(begins_with_stroke(line));
    }
    framed * 2 > all
}

fn begins_with_stroke(line: &str) -> bool {
    line.trim_start_matches([' ', '\u{a0}']).starts_with('|')
}

#[cfg(test)]
mod tests {
    use super::{Cells, MOST_CELLS, MOST_CELLS_IN_ALL, NotSplit, TooManyCells, block};

    fn split(text: &str) -> Result<Cells, NotSplit> {
        super::split(text, &|_| false)
    }

    fn check(text: &str, separator: char, expect: &[&[&str]]) {
        let cells = split(text).expect("a table");
        assert_eq!(cells.separator, separator, "{text:?}");
        let lines = cells.lines.from(0);
        let lines: Vec<Vec<&str>> = lines.map(|line| line.cells().collect()).collect();
        assert_eq!(lines, expect, "{text:?}");
    }

    #[test]
    fn tabs_semicolons_and_commas() {
        check(
            "A\t0,8\t12\nB\t0,9\t14\n",
            '\t',
            &[&["A", "0,8", "12"], &["B", "0,9", "14"]],
        );
        check(
            "A;0,8;12\r\n\r\nB;0,9;14",
            ';',
            &[&["A", "0,8", "12"], &["B", "0,9", "14"]],
        );
        check(
            "A,0.8,12\nB,0.9",
            ',',
            &[&["A", "0.8", "12"], &["B", "0.9"]],
        );
        check(
            "A,\"0,8 \"\"tight\"\"\",\"see\nsheet 2\"",
            ',',
            &[&["A", "0,8 \"tight\"", "see sheet 2"]],
        );
        check("", ',', &[]);
        // Titles have no separator, notes may have another.
        check(
            "Sheet 2\nHole list\nA;0,8\nB;0,9",
            ';',
            &[&["Sheet 2"], &["Hole list"], &["A", "0,8"], &["B", "0,9"]],
        );
        check(
            "A,0.8,clean; dry\nB,0.9,\nC,0.9,",
            ',',
            &[&["A", "0.8", "clean; dry"], &["B", "0.9"], &["C", "0.9"]],
        );
    }

    #[test]
    fn a_first_line_says_the_separator() {
        check("sep=;\nA;0,8", ';', &[&["sep="], &["A", "0,8"]]);
        check("SEP=|\r\nA|0,8", '|', &[&["SEP="], &["A", "0,8"]]);
        check("sep=,\nA,1;2", ',', &[&["sep="], &["A", "1;2"]]);
        check("sep=x\nA,1", ',', &[&["sep=x"], &["A", "1"]]);
    }

    #[test]
    fn upright_strokes_part_cells_and_frame_lines() {
        check(
            "| A | | 0.8 |\n|---|---|---|\n| B | 4 | 0.9 |",
            '|',
            &[
                &["A", "", "0.8"],
                &["---", "---", "---"],
                &["B", "4", "0.9"],
            ],
        );
        // Without a frame the first cell may be empty.
        check(
            "A|4|0.8\n|4|0.9\nC|4|1",
            '|',
            &[&["A", "4", "0.8"], &["", "4", "0.9"], &["C", "4", "1"]],
        );
    }

    fn numbers(text: &str) -> Vec<(usize, usize)> {
        let cells = split(text).expect("a table");
        let lines = cells.lines.from(0);
        lines.map(|line| (line.number, line.breaks)).collect()
    }

    #[test]
    fn line_numbers_are_those_of_the_text() {
        assert_eq!(numbers("A,1\n\nB,2\n"), [(1, 0), (3, 0)]);
        assert_eq!(
            numbers("\r\nA,1\r\nB,\"x\r\ny\"\r\nC,2"),
            [(2, 0), (3, 1), (5, 0)]
        );
    }

    #[test]
    fn a_quote_without_its_other_half_takes_no_line_with_it() {
        check(
            "A,1,\"\nB,2,\"\nC,3,x\n",
            ',',
            &[&["A", "1", "\""], &["B", "2", "\""], &["C", "3", "x"]],
        );
        check(
            "A,1,\"see\nB,2,tight\"\nC,3,x\n",
            ',',
            &[
                &["A", "1", "\"see"],
                &["B", "2", "tight\""],
                &["C", "3", "x"],
            ],
        );
        check(
            "A,1,\"see\nB,2,x",
            ',',
            &[&["A", "1", "\"see"], &["B", "2", "x"]],
        );
        check(
            "A;\";0.8;\";12\nB;2;0.8;x;12",
            ';',
            &[
                &["A", "\"", "0.8", "\"", "12"],
                &["B", "2", "0.8", "x", "12"],
            ],
        );
        check("\"A\" x,1\nB,2", ',', &[&["\"A\" x", "1"], &["B", "2"]]);
        check("A,1\n\"", ',', &[&["A", "1"], &["\""]]);
    }

    #[test]
    fn what_is_quoted_as_a_spreadsheet_quotes_is_one_cell() {
        check(
            "hole,\"dia\n(mm)\",\"note\n\"\nA,1,\"x, y\"\nB,2,\"\"\nC,3,\"say \"\"thru\"\"\"",
            ',',
            &[
                &["hole", "dia (mm)", "note"],
                &["A", "1", "x, y"],
                &["B", "2"],
                &["C", "3", "say \"thru\""],
            ],
        );
        check(
            "A,\",\",1\nB,x,2\nC,y,3",
            ',',
            &[&["A", ",", "1"], &["B", "x", "2"], &["C", "y", "3"]],
        );
    }

    #[test]
    fn blocks_as_spreadsheets_write_them() {
        let read = |text: &str, expect: &[&[&str]]| assert_eq!(block(text), expect, "{text:?}");
        read("0,80", &[&["0,80"]]);
        read("A\t0.8\r\nB\t1.2\r\n", &[&["A", "0.8"], &["B", "1.2"]]);
        read("A\rB\r", &[&["A"], &["B"]]);
        read("\t\n\t", &[&["", ""], &["", ""]]);
        read("A\n\nB\n\n", &[&["A"], &[""], &["B"], &[""]]);
        read("", &[&[""]]);
        read("\"through\nboth\"\t2", &[&["through\nboth", "2"]]);
        read("\"through\nboth\"\n2", &[&["through\nboth"], &["2"]]);
        read("1/32\"\t.020\"", &[&["1/32\"", ".020\""]]);
        read("\"1/32\"\"\"\t2", &[&["1/32\"", "2"]]);
        read("\"\t2\n\"\t3\n", &[&["\"", "2"], &["\"", "3"]]);
        read("A\t\"\nB\t\"\n", &[&["A", "\""], &["B", "\""]]);
        read("\"\n\"\n", &[&["\""], &["\""]]);
        read("\"a\"b\tc", &[&["\"a\"b", "c"]]);
    }

    /// Sixty megabytes of commas took three gigabytes.
    #[test]
    fn a_line_of_nothing_but_separators_costs_nothing_and_a_wide_one_is_refused() {
        let commas = |count: usize| ",".repeat(count);
        let padded = format!("A,1{}\n{}\nB,2", commas(16_000), commas(1_000_000));
        check(&padded, ',', &[&["A", "1"], &["B", "2"]]);
        let wide = format!("A,1\nB{}2", commas(MOST_CELLS));
        assert_eq!(split(&wide), Err(TooManyCells::InLine(2).into()));
        let fits = format!("B{}2", commas(MOST_CELLS - 1));
        assert_eq!(split(&fits).expect("a table").lines.cells(), MOST_CELLS);
        let many =
            format!("{}x\n", commas(MOST_CELLS - 1)).repeat(MOST_CELLS_IN_ALL / MOST_CELLS + 1);
        assert_eq!(split(&many), Err(TooManyCells::InAll.into()));
    }
}
