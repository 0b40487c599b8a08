//! The type that all papers share. Nothing is set under 8 points: it is read on a shop floor.

use crate::page::Face;
use crate::page::{Ink, Style};

/// The smallest size of any text [pt].
pub const LEAST: f64 = 8.0;
/// Running text.
pub const BODY: Style = Style::new(Face::Condensed, 8.8);
/// Running text that carries weight.
pub const STRONG: Style = Style::new(Face::CondensedBold, 8.8);
/// Figures in tables.
pub const FIGURE: Style = Style::new(Face::Condensed, 8.6);
/// Captions over fields, units, side remarks.
pub const CAPTION: Style = Style::new(Face::Condensed, LEAST).ink(Ink::Quiet);
/// Heads of columns.
pub const COLUMN: Style = Style::new(Face::CondensedBold, LEAST);
/// Names of the sections of a paper.
pub const SECTION: Style = Style::new(Face::CondensedBold, 10.5);
/// The name of a paper.
pub const TITLE: Style = Style::new(Face::CondensedBold, 19.0);
/// A value one must see across the bench.
pub const LARGE: Style = Style::new(Face::CondensedBold, 13.0);
/// What stands in head and foot.
pub const MARGIN: Style = Style::new(Face::Condensed, LEAST).ink(Ink::Quiet);
/// Names beside the parts of a paper.
pub const SIDE: Style = Style::new(Face::CondensedBold, 9.2);
/// Small text that goes on for a while.
pub const SMALL: Style = Style::new(Face::Condensed, 8.2);
/// What the floor reads at arm's length, in bad light.
pub const FLOOR: Style = Style::new(Face::Condensed, 11.5);
/// Its figures.
pub const FLOOR_STRONG: Style = Style::new(Face::CondensedBold, 12.0);
/// What must be read before the first burn.
pub const WARN: Style = Style::new(Face::Condensed, 10.4);
/// What of it carries weight.
pub const WARN_STRONG: Style = Style::new(Face::CondensedBold, 10.4);
