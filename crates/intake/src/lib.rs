//! Foreign formats of hole tables, read into one edit and a report.
//!
//! This crate knows nothing of windows or paper. Nothing is dropped in silence: a column that is not
//! understood is asked about, one that is guessed is told as a guess, and of what is no hole (a title,
//! a sum) or was left out by somebody the report tells.

mod angle_in_note;
mod brackets;
mod callout;
mod cell_words;
mod clauses;
mod column;
mod commas;
pub mod compare;
mod counts;
mod crosses;
pub mod delimited;
pub mod drawn;
pub mod dxf;
pub mod encoding;
mod end_in_note;
mod error;
mod fits;
mod fold;
mod foreign;
mod from_note;
mod gaps;
mod guess;
mod head;
mod head_unit;
mod in_cells;
mod known;
mod layout;
mod line;
mod lines;
mod meaning;
mod mend;
mod new_row;
mod no_row;
mod note_words;
mod of_book;
mod of_unit;
mod other_kinds;
pub mod pdf;
mod quotes;
mod reply;
mod row_number;
mod section;
pub mod seen;
mod set_apart;
mod several_marks;
mod signs;
mod single_blanks;
pub mod step;
mod summary;
mod table;
mod table_unit;
mod tolerance;
mod totals;
mod trade_words;
mod understand;
mod values;
mod watch;
mod whole;
pub mod words;
mod workbook;

pub use column::{ColumnView, Holds, How, Question, Why};
pub use error::IntakeError;
pub use foreign::{Foreign, holds_of};
pub use known::Known;
pub use lines::{Line, Lines};
pub use meaning::Meaning;
pub use of_book::SheetView;
pub use summary::{FromNotes, Sum, Summary, Units};
pub use table::Taken;
pub use watch::Watch;
pub use workbook::WorkbookError;
