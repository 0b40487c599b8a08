//! What is written at a table before it lands.

use quillbore_intake::{ColumnView, Foreign, How, Question, SheetView, words as intake};

use crate::incoming::FromFile;

/// The head of the table.
#[must_use]
pub fn head_of(file: Option<&FromFile>) -> String {
    match file.and_then(|file| file.path.file_name()) {
        None => "Table to paste".to_owned(),
        Some(name) => super::incoming::head(&name.to_string_lossy()),
    }
}

/// Before the units that bare numbers may be in.
pub const BARE_NUMBERS: &str = "numbers without a unit are in";

/// Before the sheets of a workbook.
pub const SHEETS: &str = "worksheet";

/// A sheet of a workbook.
#[must_use]
pub fn sheet(sheet: &SheetView<'_>) -> String {
    match sheet.is_hidden {
        true => format!("{} (hidden)", sheet.name),
        false => sheet.name.to_owned(),
    }
}

/// The name of the line that says what a column is.
pub const WHICH_IS_THIS: &str = "which is this";

/// That no column is called so.
pub const NO_COLUMN: &str = "no column has that in its name";

/// That another column is called so already, and what to do.
#[must_use]
pub fn taken(holds: &str, about: &Question) -> String {
    format!(
        "“{}” is the {holds} already: press it above and say what it is instead, or leave it out",
        head(about)
    )
}

/// Lands the table.
#[must_use]
pub const fn land(is_file: bool) -> &'static str {
    if is_file { "take the rows" } else { "paste" }
}

/// The key that does.
pub const ENTER: &str = "Enter";

/// Why it can't land yet.
pub const NOT_YET: &str = "say first what each column is, or leave it out";

/// Gives the table up.
#[must_use]
pub const fn nothing(is_file: bool) -> &'static str {
    if is_file {
        super::incoming::TAKE_NOTHING
    } else {
        "paste nothing"
    }
}

/// The key that does.
pub const ESC: &str = "Esc";

/// How many columns are understood.
#[must_use]
pub fn columns(table: &Foreign) -> String {
    match table.not_understood() {
        (0, of) => intake::understood(table.guessed(), of),
        (open, of) => intake::not_understood_of(open, of),
    }
}

/// A column's head, or its number where it has none.
#[must_use]
pub fn head(about: &Question) -> String {
    match about.head.as_str() {
        "" => format!("column {}", about.column + 1),
        head => head.to_owned(),
    }
}

/// What a column holds, and how that is known.
#[must_use]
pub fn holds(column: &ColumnView) -> String {
    match column.holds {
        None => intake::how(How::NotUnderstood).to_owned(),
        Some(holds) => format!("{}, {}", intake::holds(holds), intake::how(column.how)),
    }
}

/// The name of a column, for readers of the screen.
#[must_use]
pub fn column(column: &ColumnView) -> String {
    format!("{}: {}", intake::question(&column.about), holds(column))
}

/// Asks what the marked column is.
#[must_use]
pub fn which(table: &Foreign, at: usize) -> String {
    let columns = table.columns();
    let marked = columns.iter().find(|column| column.about.column == at);
    marked.map_or_else(String::new, |marked| format!("{} is", head(&marked.about)))
}
