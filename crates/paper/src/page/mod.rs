//! The page model: sheets of text runs, lines, paths and pictures, before any engine sees them.
//!
//! Lengths are points (1/72 in); the origin is the upper left corner of the sheet, y grows downward.

mod document;
mod font;
mod item;
mod picture;
mod printed_on;
mod record;
mod role;
mod sheet;
mod sign;
mod sign_lines;
mod sink;
mod style;
mod trouble;

pub use document::{Document, MOST_PAGES, Page};
pub use font::{FONT_LICENSE, Face, SUBSTITUTE};
pub use item::{Item, Path, Rule, Step, StraightLine, TextRun};
pub use picture::{Picture, Pixels};
pub use printed_on::{PrintedOn, Sides};
pub use record::{Record, record};
pub use role::Role;
pub use sheet::{Sheet, mm};
pub use sign::{COUNTERBORE, COUNTERSINK, POSITION, is_drawn};
pub use sink::Sink;
pub use style::{Ink, Stroke, Style};
pub use trouble::Trouble;
