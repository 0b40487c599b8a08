//! Why a logo can't be drawn.

use std::fmt;

use crate::words::logo as words;

/// Pixels that a PNG may have along either side.
pub const MOST_PIXELS: u32 = 4096;

/// Why a logo can't be drawn: message first, then [`LogoFault::hint`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, thiserror::Error)]
pub enum LogoFault {
    /// A PNG that breaks off, or whose check sums are wrong.
    Damaged,
    /// A PNG with more than [`MOST_PIXELS`] along a side.
    TooLarge {
        /// Pixels in a row.
        width: u32,
        /// Rows.
        height: u32,
    },
    /// Nothing of it is seen on a white sheet.
    Blank,
    /// An SVG that is not well-formed.
    NotXml {
        /// The line where it ceases to be.
        line: u32,
    },
    /// An SVG without a size.
    NoSize,
    /// An SVG with a part that leads back to itself.
    Circle,
    /// An SVG with more in it, or nested deeper, than is drawn.
    TooMuch,
    /// An SVG that leads to another file.
    Elsewhere,
    /// An SVG with something in it that is not drawn.
    Holds(Thing),
}

/// What an SVG can hold and papers don't draw.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Thing {
    /// Text that is not outlines.
    Text,
    /// A picture of pixels.
    Picture,
    /// A pattern that fills an area.
    Pattern,
    /// A filter.
    Filter,
    /// Something drawn at the corners of a line.
    Marker,
    /// A piece of a web page.
    WebPage,
}

impl LogoFault {
    /// What to do about it.
    #[must_use]
    pub const fn hint(self) -> &'static str {
        match self {
            Self::Damaged | Self::NotXml { .. } | Self::NoSize => words::SAVE_ANEW,
            Self::TooLarge { .. } => words::SAVE_SMALLER,
            Self::Blank => words::IN_COLOR,
            Self::Elsewhere => words::ALL_IN_ONE,
            Self::Holds(Thing::Text) => words::AS_PATHS,
            Self::Circle | Self::TooMuch | Self::Holds(_) => words::AS_PNG,
        }
    }
}

impl fmt::Display for LogoFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match *self {
            Self::Damaged => words::DAMAGED,
            Self::TooLarge { width, height } => {
                return f.write_str(&words::too_large(width, height, MOST_PIXELS));
            }
            Self::Blank => words::BLANK,
            Self::NotXml { line } => return f.write_str(&words::not_xml(line)),
            Self::NoSize => words::NO_SIZE,
            Self::Circle => words::CIRCLE,
            Self::TooMuch => words::TOO_MUCH,
            Self::Elsewhere => words::ELSEWHERE,
            Self::Holds(thing) => return f.write_str(&words::holds(thing.words())),
        })
    }
}

impl Thing {
    const fn words(self) -> &'static str {
        match self {
            Self::Text => words::TEXT,
            Self::Picture => words::PICTURE,
            Self::Pattern => words::PATTERN,
            Self::Filter => words::FILTER,
            Self::Marker => words::MARKER,
            Self::WebPage => words::WEB_PAGE,
        }
    }
}
