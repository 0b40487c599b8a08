//! The job document: entries, edits, undo, results, words, files, shop.
//!
//! This crate knows nothing of windows, paper or foreign formats. A job holds what was typed;
//! everything computed comes from [`quillbore_calc`] on demand and is never stored in it.

pub mod answer;
pub mod apply;
pub mod changed;
pub mod concern;
mod copy;
pub mod edit;
pub mod entry;
pub mod field;
pub mod file;
pub mod history;
pub mod inspected;
pub mod issued;
pub mod job;
pub mod life;
pub mod limits;
mod list;
pub mod merge;
pub mod order;
pub mod places;
pub mod quantity;
pub mod question;
pub mod read_cell;
pub mod read_field;
pub mod read_overrule;
pub mod read_quantity;
mod record;
pub mod remedy;
pub mod reorder;
pub mod report;
pub mod results;
pub mod row;
pub mod row_depth;
pub mod same_name;
pub mod serials;
pub mod shop;
pub mod show_quantity;
pub mod slip;
pub mod to_input;
pub mod words;

pub use apply::{Change, EditRefused, apply};
pub use edit::{CellAt, Edit, RowsAt};
pub use entry::{Entry, Unit};
pub use field::{Block, Field, FieldKind, Value};
pub use history::History;
pub use issued::{Issued, IssuedLine, Paper, Seal, SealState};
pub use job::Job;
pub use report::Report;
pub use row::{Column, Row};
pub use shop::Shop;
pub use slip::{Line, Slip, SlipKind};
