//! What of a shop is a sample's, though it has its own.

/// What a sample stands in for, since the shop's own can't be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StandsIn {
    /// Its name.
    Name,
    /// Its address.
    Address,
    /// Its currency.
    Currency,
    /// All of its data: the file of the shop can't be read, or is gone.
    File,
}
