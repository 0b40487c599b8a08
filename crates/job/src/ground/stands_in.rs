//! What of a shop is a sample's, so that papers would leave under it.

use chrono::NaiveDate;

/// What a sample stands in for, since the shop's own can't be read, or was never typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum StandsIn {
    /// Something that papers print.
    Said(ShopSays, NotSaid),
    /// A rate card in force, or a cell of it.
    Card {
        /// The day that the card is valid from in which that stands; none where it can't be read.
        from: Option<NaiveDate>,
        /// Names of the columns that can't be used; none where all of it can't.
        columns: Vec<&'static str>,
    },
    /// All of its data: the file of the shop can't be read, or is gone.
    File,
}

/// What a shop says on its papers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShopSays {
    /// Its name.
    Name,
    /// Its address.
    Address,
    /// Its currency.
    Currency,
    /// Terms of its quotations.
    Terms,
    /// What its quotations leave out.
    Exclusions,
    /// Cautions of its own.
    Cautions,
    /// How customers reach it, or its registration number.
    Reached,
}

/// Why it is not said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotSaid {
    /// What somebody typed can't be read.
    Unread,
    /// Nobody typed it.
    NotTyped,
}
