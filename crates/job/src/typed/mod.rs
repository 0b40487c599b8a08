//! What is typed, and what it is read as: cells, fields, rows and quantities.

pub(crate) mod call;
pub mod entry;
pub mod field;
pub mod form;
pub mod language;
pub(crate) mod overrule;
pub mod places;
pub mod quantity;
pub(crate) mod quick;
pub mod read_cell;
pub mod read_field;
pub mod read_overrule;
pub mod read_quantity;
mod record;
pub mod row;
mod seen;
pub mod serials;
