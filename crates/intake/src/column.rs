//! A column of a foreign table: what becomes of it, and what is asked about one that is not understood.

use quillbore_job::Unit;

use crate::columns::Meaning;

/// What becomes of a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holds {
    /// It is taken as this.
    A(Meaning),
    /// It is left out.
    LeftOut,
}

/// A column that is not understood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Question {
    /// Which column, from 0.
    pub column: usize,
    /// Its head; empty where it has none.
    pub head: String,
    /// The first of its values.
    pub values: Vec<String>,
    /// There are more values than those.
    pub more: bool,
}

/// A column of a foreign table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct ForeignColumn {
    pub(crate) head: String,
    pub(crate) unit: Option<Unit>,
    pub(crate) holds: Option<Holds>,
    /// Somebody said what it holds.
    pub(crate) said: bool,
}
