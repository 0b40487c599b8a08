//! What a table and its cells are called, for readers of the screen.

/// The name of a table, by what one of its rows is called.
#[must_use]
pub fn table(row: &str) -> String {
    format!("{row} table")
}

/// The name of a cell: "hole 3 size".
#[must_use]
pub fn cell(row: &str, at: usize, column: &str) -> String {
    format!("{row} {} {column}", at + 1)
}

/// The name of the editor in a cell.
#[must_use]
pub fn editing(cell: &str) -> String {
    format!("editing {cell}")
}

/// That a column is worked out, so that nothing is typed there.
#[must_use]
pub fn not_typed(head: &str) -> String {
    format!("\u{201c}{head}\u{201d} is worked out: nothing can be typed there.")
}
