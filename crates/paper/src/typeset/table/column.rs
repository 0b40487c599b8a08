//! Columns of a table.

use crate::page::Style;
use crate::typeset::look::FIGURE;

/// How wide a column is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Width {
    /// So many points.
    Fixed(f64),
    /// As wide as what stands in it, up to so many points.
    Fit(f64),
    /// This share of what the others leave.
    Share(f64),
}

/// To which side a column is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// Text.
    Left,
    /// Figures.
    Right,
    /// Marks and squares.
    Center,
}

/// One column.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    pub(crate) head: String,
    pub(crate) unit: String,
    pub(crate) width: Width,
    pub(crate) align: Align,
    pub(crate) style: Style,
}

impl Column {
    /// A column of text.
    pub fn text(head: &str, width: Width) -> Self {
        Self {
            head: head.to_owned(),
            unit: String::new(),
            width,
            align: Align::Left,
            style: FIGURE,
        }
    }

    /// A column of figures with their unit in the head.
    pub fn figures(head: &str, unit: &str, width: Width) -> Self {
        Self {
            unit: unit.to_owned(),
            align: Align::Right,
            ..Self::text(head, width)
        }
    }

    /// A centered column.
    pub fn center(head: &str, width: Width) -> Self {
        Self {
            align: Align::Center,
            ..Self::text(head, width)
        }
    }

    /// The same column with a unit in its head.
    pub fn unit(self, unit: &str) -> Self {
        Self {
            unit: unit.to_owned(),
            ..self
        }
    }

    /// The same column in another style.
    pub fn style(self, style: Style) -> Self {
        Self { style, ..self }
    }
}
