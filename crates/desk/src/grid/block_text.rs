//! Blocks of cells as spreadsheets put them on the clipboard: tabs and line ends.

/// Reads a block of cells from clipboard text.
///
/// Cells are parted by tabs, rows by any line end; one line end after the last row is not a row.
/// A cell in double quotes may hold tabs and line ends, and `""` for a quote. A quote that is
/// not closed before a tab or line end stands for itself, as in `1/32"`.
#[must_use]
pub fn read_block(text: &str) -> Vec<Vec<String>> {
    let mut rows = Vec::new();
    let mut row = Vec::new();
    let mut rest = text;
    loop {
        let (cell, after) = read_cell(rest);
        row.push(cell);
        match after.chars().next() {
            Some('\t') => rest = &after[1..],
            Some(_) => {
                rows.push(std::mem::take(&mut row));
                rest = after
                    .strip_prefix("\r\n")
                    .unwrap_or_else(|| after.get(1..).unwrap_or_default());
                if rest.is_empty() {
                    return rows;
                }
            }
            None => {
                rows.push(row);
                return rows;
            }
        }
    }
}

/// Writes a block of cells as clipboard text, one line end after every row but the last.
#[must_use]
pub fn write_block(rows: &[Vec<String>]) -> String {
    let mut out = String::new();
    for (i, row) in rows.iter().enumerate() {
        if i > 0 {
            out.push('\n');
        }
        for (j, cell) in row.iter().enumerate() {
            if j > 0 {
                out.push('\t');
            }
            if cell.contains(['\t', '\n', '\r']) || cell.starts_with('"') {
                out.push('"');
                out.push_str(&cell.replace('"', "\"\""));
                out.push('"');
            } else {
                out.push_str(cell);
            }
        }
    }
    out
}

/// One cell, and what follows it: nothing, or text that starts with a tab or a line end.
fn read_cell(text: &str) -> (String, &str) {
    if let Some(quoted) = text.strip_prefix('"')
        && let Some(read) = read_quoted(quoted)
    {
        return read;
    }
    let end = text.find(['\t', '\n', '\r']).unwrap_or(text.len());
    (text[..end].to_owned(), &text[end..])
}

/// The rest of a quoted cell, if its closing quote ends the cell.
fn read_quoted(text: &str) -> Option<(String, &str)> {
    let mut cell = String::new();
    let mut rest = text;
    loop {
        let quote = rest.find('"')?;
        cell.push_str(&rest[..quote]);
        rest = &rest[quote + 1..];
        match rest.chars().next() {
            Some('"') => {
                cell.push('"');
                rest = &rest[1..];
            }
            Some('\t' | '\n' | '\r') | None => return Some((cell, rest)),
            Some(_) => return None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, expect: &[&[&str]]) {
        assert_eq!(read_block(text), expect, "{text:?}");
    }

    #[test]
    fn blocks_as_spreadsheets_write_them() {
        check("0,80", &[&["0,80"]]);
        check("A\t0.8\nB\t1.2", &[&["A", "0.8"], &["B", "1.2"]]);
        check("A\t0.8\r\nB\t1.2\r\n", &[&["A", "0.8"], &["B", "1.2"]]);
        check("A\rB\r", &[&["A"], &["B"]]);
        check("\t\n\t", &[&["", ""], &["", ""]]);
        check("A\n\nB\n", &[&["A"], &[""], &["B"]]);
        check("", &[&[""]]);
    }

    #[test]
    fn quotes_hold_line_ends_and_inch_marks_stand() {
        check("\"through\nboth\"\t2", &[&["through\nboth", "2"]]);
        check("\"say \"\"thru\"\"\"", &[&["say \"thru\""]]);
        check("1/32\"\t.020\"", &[&["1/32\"", ".020\""]]);
        check("\"1/32\"\"\"\t2", &[&["1/32\"", "2"]]);
        check("\"\t2", &[&["\"", "2"]]);
        check("\"a\"b\tc", &[&["\"a\"b", "c"]]);
        check("\"", &[&["\""]]);
    }

    #[test]
    fn what_is_written_reads_back() {
        let rows = vec![
            vec!["A".to_owned(), "1/32\"".to_owned(), String::new()],
            vec![
                "\"q\"".to_owned(),
                "two\nlines".to_owned(),
                "a\tb".to_owned(),
            ],
        ];
        assert_eq!(read_block(&write_block(&rows)), rows);
    }
}
