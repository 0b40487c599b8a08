//! Lines and cells of delimited text, whatever separates them.

/// Cells by line, the number of the first line being 1.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cells {
    /// What separates the cells.
    pub separator: char,
    /// Line number and cells; empty lines are left out.
    pub lines: Vec<(usize, Vec<String>)>,
}

/// Most cells in a line that are still believed to be a hole table.
pub const MOST_CELLS: usize = 1_000;

/// Splits text into cells; quotes as RFC 4180 has them.
///
/// The separator is the tab where there is one (a spreadsheet's clipboard); else the semicolon
/// where most lines have one (decimal commas); else the comma.
#[must_use]
pub fn split(text: &str) -> Cells {
    let separator = sniff(text);
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(u8::try_from(separator).unwrap_or(b','))
        .has_headers(false)
        .flexible(true)
        .from_reader(text.as_bytes());
    let mut lines = Vec::new();
    let mut record = csv::StringRecord::new();
    // The text is UTF-8 and in memory and lines may be ragged: no error is left to occur.
    while let Ok(true) = reader.read_record(&mut record) {
        let number = record
            .position()
            .map_or(0, |position| line_of(text, position));
        let cells: Vec<String> = record.iter().map(clean).collect();
        if cells.iter().any(|cell| !cell.is_empty()) {
            lines.push((number, cells));
        }
    }
    Cells { separator, lines }
}

/// The line that a record starts in: its position is that of the empty lines before it.
fn line_of(text: &str, position: &csv::Position) -> usize {
    let at = |number: u64| usize::try_from(number).unwrap_or(usize::MAX);
    let rest = text.get(at(position.byte())..).unwrap_or_default();
    let empty = rest
        .chars()
        .take_while(|letter| matches!(letter, '\r' | '\n'));
    at(position.line()) + empty.filter(|letter| *letter == '\n').count()
}

/// A cell without its outer blanks; line breaks inside a cell become blanks.
fn clean(cell: &str) -> String {
    cell.split(['\r', '\n'])
        .map(str::trim)
        .filter(|part| !part.is_empty())
        .collect::<Vec<_>>()
        .join(" ")
}

fn sniff(text: &str) -> char {
    if text.contains('\t') {
        return '\t';
    }
    let lines = text.lines().filter(|line| !line.trim().is_empty());
    let (mut all, mut semicolons) = (0_usize, 0_usize);
    for line in lines.take(100) {
        all += 1;
        semicolons += usize::from(line.contains(';'));
    }
    if semicolons * 2 > all { ';' } else { ',' }
}

#[cfg(test)]
mod tests {
    use super::split;

    fn check(text: &str, separator: char, expect: &[&[&str]]) {
        let cells = split(text);
        assert_eq!(cells.separator, separator, "{text:?}");
        let lines: Vec<Vec<&str>> = cells
            .lines
            .iter()
            .map(|(_, line)| line.iter().map(String::as_str).collect())
            .collect();
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
    }

    #[test]
    fn line_numbers_are_those_of_the_text() {
        let cells = split("A,1\n\nB,2\n");
        assert_eq!(
            cells
                .lines
                .iter()
                .map(|(number, _)| *number)
                .collect::<Vec<_>>(),
            [1, 3]
        );
    }
}
