//! What was typed, and what it was read as: the text is never lost.

/// The unit that a number without a unit of its own is meant in, fixed when it is committed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Unit {
    /// Millimeters.
    #[default]
    Mm,
    /// Inches.
    Inch,
}

impl Unit {
    /// Its symbol, the same in every language.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::Inch => "in",
        }
    }
}

/// A typed cell.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Entry<T> {
    /// Nothing was typed.
    #[default]
    Empty,
    /// The text was read as a value.
    Read {
        /// What was typed, to the letter.
        text: String,
        /// The unit it was committed in.
        unit: Unit,
        /// What it was read as.
        value: T,
    },
    /// The text could not be read; it stays and is explained.
    Unread {
        /// What was typed, to the letter.
        text: String,
        /// The unit it was committed in.
        unit: Unit,
        /// Why it can't be read, as one sentence with a hint.
        why: String,
    },
}

impl<T> Entry<T> {
    /// The value, where there is one.
    #[must_use]
    pub const fn value(&self) -> Option<&T> {
        match self {
            Self::Read { value, .. } => Some(value),
            Self::Empty | Self::Unread { .. } => None,
        }
    }

    /// What was typed; empty where nothing was.
    #[must_use]
    pub fn text(&self) -> &str {
        match self {
            Self::Empty => "",
            Self::Read { text, .. } | Self::Unread { text, .. } => text,
        }
    }

    /// The unit it was committed in, where something was typed.
    #[must_use]
    pub const fn unit(&self) -> Option<Unit> {
        match self {
            Self::Empty => None,
            Self::Read { unit, .. } | Self::Unread { unit, .. } => Some(*unit),
        }
    }

    /// Why it can't be read, where it can't.
    #[must_use]
    pub fn why(&self) -> Option<&str> {
        match self {
            Self::Unread { why, .. } => Some(why),
            Self::Empty | Self::Read { .. } => None,
        }
    }

    /// True where nothing was typed.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        matches!(self, Self::Empty)
    }

    /// What can be said of it without its type.
    #[must_use]
    pub fn look(&self) -> CellLook<'_> {
        CellLook {
            text: self.text(),
            unit: self.unit(),
            why: self.why(),
        }
    }
}

/// Something about a cell that does not depend on its type.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CellLook<'a> {
    /// What was typed.
    pub text: &'a str,
    /// The unit it was committed in.
    pub unit: Option<Unit>,
    /// Why it can't be read, where it can't.
    pub why: Option<&'a str>,
}
