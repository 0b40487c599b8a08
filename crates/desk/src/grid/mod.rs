//! A table one works in by keyboard: cell cursor, block selection, paste and copy of blocks.
//!
//! The grid reads a [`GridModel`], keeps its cursor and the text being typed in a [`GridView`],
//! and says what is wanted as [`GridAsk`]s. It never changes what it shows.

mod at_work;
mod block_text;
mod blocks;
mod cell;
mod focus;
mod hears;
mod keys;
mod model;
mod moves;
mod paint;
mod pointer;
mod table;
mod view;

pub use block_text::{read_block, write_block};
pub use hears::uses_key;
pub use model::{CellState, GridAsk, GridColumn, GridModel, SetWhy};
pub use paint::{commit, grid_ui};
pub use table::{GridShown, HEAD_HEIGHT, ROW_HEIGHT, size};
pub use view::{CellBlock, GridAt, GridView};
