//! The job document: entries, edits, undo, results, words, files, shop.
//!
//! This crate knows nothing of windows, paper or foreign formats. A job holds what was typed;
//! everything computed comes from [`quillbore_calc`] on demand and is never stored in it.
//!
//! The folders tell the house from the ground up, each knowing only those before it; what is
//! public of them goes by its own name, without the folder's.

mod again;
mod asked;
mod edits;
pub mod file;
mod ground;
pub mod issued;
pub mod job;
pub mod life;
pub mod merge;
mod pinned;
pub mod results;
pub mod shop;
pub mod taught;
mod typed;
pub mod words;

pub use again::{history, order_text, pasted_runs, reorder, shop_history};
pub use asked::{agreed, amounts_in, choices, currency, only_machine, question, quick, to_input};
pub use edits::{apply, edit, prefilled, run_lines};
pub use ground::{keyed_list, limits, same_name};
pub use job::row_depth;
pub use life::{changed, drawer, inspected, order};
pub use pinned::{answer, concern, read_line, report, slip};
pub use results::remedy;
pub use typed::{
    entry, field, form, language, places, quantity, read_cell, read_field, read_overrule,
    read_quantity, row, serials,
};

pub use apply::{Change, EditRefused, apply};
pub use edit::{CellAt, Edit, RowsAt, RunAt};
pub use entry::{Entry, Unit};
pub use field::{Block, Field, FieldKind, Value};
pub use form::Form;
pub use history::History;
pub use issued::{Issued, IssuedLine, Paper, Seal, SealState};
pub use job::Job;
pub use language::Language;
pub use report::Report;
pub use row::{Column, Row};
pub use shop::Shop;
pub use slip::{Line, Slip, SlipKind};
