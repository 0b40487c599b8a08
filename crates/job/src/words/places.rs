//! Why hole locations can't be made of a pattern or read off a list, and what to do instead.

use std::fmt;

use super::misread::quoted;
use crate::typed::places::refused::{LineRefused, PatternRefused, PlacesUnreadable};

impl fmt::Display for PatternRefused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(pattern(*self))
    }
}

/// One sentence: why a pattern of hole locations can't be made.
const fn pattern(why: PatternRefused) -> &'static str {
    match why {
        PatternRefused::NoHoles => "The pattern has no holes",
        PatternRefused::TooMany => "The pattern has more holes than a row can have hole locations",
        PatternRefused::Unusable => "A length or direction of the pattern is zero or missing",
    }
}

impl PatternRefused {
    /// What to do instead.
    #[must_use]
    pub const fn hint(self) -> &'static str {
        match self {
            PatternRefused::NoHoles => "Give it at least one hole.",
            PatternRefused::TooMany => "Spread the holes over several rows.",
            PatternRefused::Unusable => {
                "Give it a radius or steps, and a direction that is not zero."
            }
        }
    }
}

impl fmt::Display for PlacesUnreadable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&places(self))
    }
}

/// One sentence: why a list of hole locations can't be read.
fn places(why: &PlacesUnreadable) -> String {
    match why {
        PlacesUnreadable::Empty => "There are no hole locations in the list".to_owned(),
        PlacesUnreadable::ColumnsUnknown { columns: 1 } => {
            "The list has one column, and nothing says what it is".to_owned()
        }
        PlacesUnreadable::ColumnsUnknown { columns } => {
            format!("The list has {columns} columns, and nothing says which is which")
        }
        PlacesUnreadable::ColumnTwice { head } => {
            format!("The column \u{201c}{}\u{201d} is there twice", quoted(head))
        }
        PlacesUnreadable::TooMany => {
            "The list has more hole locations than a row can have".to_owned()
        }
    }
}

impl PlacesUnreadable {
    /// What to do instead.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            PlacesUnreadable::Empty => "Copy the lines with their numbers.",
            PlacesUnreadable::ColumnsUnknown { .. } => {
                "Put a line of heads above it: number, x, y, z and i, j, k or tilt, turn."
            }
            PlacesUnreadable::ColumnTwice { .. } => "Leave out one of the two columns.",
            PlacesUnreadable::TooMany => "Spread the hole locations over several rows.",
        }
    }
}

impl fmt::Display for LineRefused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Misread(why) => why.fmt(f),
            Self::NumberTwice(number) => write!(
                f,
                "Hole location {number} is there already: give each its own number."
            ),
            Self::LeftOver(cell) => write!(
                f,
                "\u{201c}{}\u{201d} is under no column: give it a column, or leave it out.",
                quoted(cell)
            ),
            Self::NoDirection => f.write_str(
                "The direction is zero, or a view's angle reaches 90: type its parts, such as 0, 0, -1.",
            ),
        }
    }
}
