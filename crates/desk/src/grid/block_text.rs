//! Blocks of cells as spreadsheets put them on the clipboard: tabs and line ends.

pub use quillbore_intake::delimited::block as read_block;

/// Writes a block of cells as clipboard text, one line end after every row but the last,
/// and after that too where it would not be seen without.
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
    // A text that ends in a line end has no row behind it.
    if rows.len() > 1
        && rows
            .last()
            .is_some_and(|row| row.iter().all(String::is_empty) && row.len() == 1)
    {
        out.push('\n');
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

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
        let column = |cells: &[&str]| -> Vec<Vec<String>> {
            cells.iter().map(|cell| vec![(*cell).to_owned()]).collect()
        };
        let last_empty = column(&["A", "B", ""]);
        let all_empty = column(&["", "", ""]);
        let one = column(&[""]);
        for rows in [rows, last_empty, all_empty, one] {
            assert_eq!(read_block(&write_block(&rows)), rows);
        }
    }
}
