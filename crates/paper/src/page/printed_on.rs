//! What a paper is printed on: its sheets, and whether their backs are printed, too.

use super::sheet::Sheet;

/// The sides of the sheets that are printed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Sides {
    /// The front alone.
    #[default]
    One,
    /// Front and back, so that every other page has its binding edge at the right.
    Both,
}

impl Sides {
    /// Both sides, or one where a shop doesn't print on the backs.
    #[must_use]
    pub const fn of(on_both: bool) -> Self {
        if on_both { Self::Both } else { Self::One }
    }
}

/// What a paper is printed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PrintedOn {
    /// Its sheets.
    pub sheet: Sheet,
    /// The sides that are printed.
    pub sides: Sides,
}

impl PrintedOn {
    /// Whether a page, counted from 1, is the back of a sheet.
    #[must_use]
    pub const fn is_back(self, page: usize) -> bool {
        matches!(self.sides, Sides::Both) && page.is_multiple_of(2)
    }
}

impl From<Sheet> for PrintedOn {
    fn from(sheet: Sheet) -> Self {
        Self {
            sheet,
            sides: Sides::One,
        }
    }
}
