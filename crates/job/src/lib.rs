//! The job document: entries, edits, undo, results, words, files, shop.
//!
//! This crate knows nothing of windows, paper or foreign formats. A job holds what was typed;
//! everything computed comes from [`quillbore_calc`] on demand and is never stored in it.

pub mod edit;
pub mod entry;
pub mod field;
pub mod file;
pub mod job;
pub mod row;
pub mod shop;

pub use edit::{CellAt, Edit};
pub use entry::{Entry, Unit};
pub use field::{Block, Field, FieldKind, Value};
pub use job::Job;
pub use row::{Column, Row};
pub use shop::Shop;
