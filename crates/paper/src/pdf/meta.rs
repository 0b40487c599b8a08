//! What a PDF says about itself.

use chrono::NaiveDate;

/// What a PDF says about itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Meta {
    /// The title a viewer shows.
    pub title: String,
    /// Who issued it.
    pub author: String,
    /// The date it was made.
    pub date: NaiveDate,
}
