//! Why a shop file can't be used.

use crate::file::TextError;

/// Why a shop file can't be used: message first, then [`ShopError::hint`]; the caller adds the path.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ShopError {
    /// Not a text of ours.
    #[error(transparent)]
    Text(#[from] TextError),
    /// A row with a figure that can't be.
    #[error("In {list}, {name:?}: {what}.")]
    Row {
        /// Which list of the file.
        list: &'static str,
        /// The row's name.
        name: String,
        /// What is wrong with it.
        what: String,
    },
    /// A name that one file gives twice.
    #[error("In {list}, the name {name:?} stands twice.")]
    Twice {
        /// Which list of the file.
        list: &'static str,
        /// The name.
        name: String,
    },
    /// A name to be left out that nothing has.
    #[error("No row has the name {name:?} that is to be left out.")]
    NothingToLeaveOut {
        /// The name.
        name: String,
    },
    /// Something that neither the file nor the start values give.
    #[error("{what} is missing.")]
    Missing {
        /// What is missing.
        what: String,
    },
    /// Rate cards in two currencies.
    #[error("The rate cards are in {first} and {second}.")]
    Currencies {
        /// The first card's currency.
        first: String,
        /// The other's.
        second: String,
    },
}

impl ShopError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::Text(error) => error.hint(),
            Self::Row { .. } => "Put the figure right in the shop file.",
            Self::Twice { .. } => "Take one of the two out of the shop file.",
            Self::NothingToLeaveOut { .. } => "Spell the name as the list does, or take it out.",
            Self::Missing { .. } => "Add it to the shop file.",
            Self::Currencies { .. } => "Give all rates and prices in one currency.",
        }
    }
}
