//! Why places can't be made or read.

use crate::typed::read_quantity::misread::Misread;

/// Why a pattern can't be made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PatternRefused {
    /// It has no holes.
    NoHoles,
    /// It has more holes than a row can.
    TooMany,
    /// A length or direction in it is missing, zero or not finite.
    Unusable,
}

/// Why a list of places can't be read at all.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PlacesUnreadable {
    /// There is nothing in it.
    Empty,
    /// Nothing says which column is which.
    ColumnsUnknown {
        /// How many there are.
        columns: usize,
    },
    /// A head names the same column twice.
    ColumnTwice {
        /// The second one's head.
        head: String,
    },
    /// More lines than a row can have places.
    TooMany,
}

/// Why one line of a list is no place.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub(crate) enum LineRefused {
    /// A cell of it can't be read.
    Misread(Misread),
    /// An earlier line has its number.
    NumberTwice(u32),
    /// A cell of it stands under no column.
    LeftOver(String),
    /// Its direction is zero.
    NoDirection,
}
