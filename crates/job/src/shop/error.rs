//! Why a shop file can't be used.

use super::unfit::{Needed, RowUnfit};
use crate::file::read_job;
use crate::ground::text::TextError;

/// Why a shop file can't be used: message first, then [`ShopError::hint`]; the caller adds the path.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ShopError {
    /// Not a text of ours.
    Text(#[from] TextError),
    /// A row with a figure that can't be.
    Row {
        /// Which list of the file.
        list: &'static str,
        /// The row's name.
        name: String,
        /// What is wrong with it.
        what: RowUnfit,
    },
    /// A name that one file gives twice.
    Twice {
        /// Which list of the file.
        list: &'static str,
        /// The name.
        name: String,
    },
    /// A name to be left out that nothing has.
    NothingToLeaveOut {
        /// The name.
        name: String,
    },
    /// Something that neither the file nor the start values give.
    Missing {
        /// What is missing.
        what: Needed,
    },
    /// Rate cards in two currencies.
    Currencies {
        /// The first card's currency.
        first: String,
        /// The other's.
        second: String,
    },
    /// A list that this program doesn't know.
    ListUnknown {
        /// Its name.
        name: String,
    },
    /// A list with more rows than it can have.
    TooManyRows {
        /// Which list of the file.
        list: &'static str,
        /// Most rows of a list.
        most: usize,
    },
    /// A row with an identity that another one has, or that is yet to be given out.
    RowIdentity {
        /// The identity.
        id: u32,
    },
    /// A row with a column that its list doesn't have.
    ColumnElsewhere {
        /// Which list of the file.
        list: &'static str,
        /// The column.
        column: &'static str,
    },
    /// A logo that is no picture any more.
    LogoDamaged,
    /// A job.
    IsJob,
}

impl ShopError {
    /// The same of these bytes, unless they are a job: what a shop's reader makes of one says nothing.
    #[must_use]
    pub(super) fn of(self, bytes: &[u8]) -> Self {
        if read_job(bytes).is_ok() {
            return Self::IsJob;
        }
        self
    }

    /// Whether the data are good for a newer version of the program.
    #[must_use]
    pub const fn is_of_newer_version(&self) -> bool {
        matches!(
            self,
            Self::Text(TextError::NewerFormat { .. })
                | Self::ListUnknown { .. }
                | Self::ColumnElsewhere { .. }
        )
    }
}
