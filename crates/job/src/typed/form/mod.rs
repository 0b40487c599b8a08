//! How a shop writes numbers and days. Whatever shows a figure or a day takes the form as an argument.

mod days;
mod figures;
mod numbers;

pub use days::Dates;
pub(crate) use figures::hours_decimals;
pub use figures::{money_plain, one_by_one};
pub use numbers::Numbers;

/// How numbers and days are written: in sentences, in the window and on papers.
///
/// What is shown in any form can be typed back: it is read as what was shown, or refused with both of
/// its readings, but never as another number or day.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Form {
    /// How numbers are written.
    pub numbers: Numbers,
    /// How days are written.
    pub dates: Dates,
}

impl Form {
    /// What every program and every reader takes without doubt: for JSON, and for lengths that the
    /// program puts into a cell.
    pub const PLAIN: Self = Self {
        numbers: Numbers::Point,
        dates: Dates::YearFirst,
    };
}
