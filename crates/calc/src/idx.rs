//! Which row of a table is meant.

use core::cmp::Ordering;
use core::fmt;
use core::marker::PhantomData;

/// The place of a `T` in a table of the shop; it means something beside that table alone.
///
/// Formula: counted from 0; a place past the table's end is no row of it.
///
/// ```
/// use quillbore_calc::Idx;
/// let names = ["brass 0.3", "brass 0.5"];
/// let thicker = Idx::find(&names, |name| name.ends_with("0.5")).unwrap();
/// assert_eq!(thicker.at(), 1);
/// assert_eq!(thicker.of(&names), Some(&"brass 0.5"));
/// assert_eq!(thicker.beside(&[0.3, 0.5]), Some(&0.5)); // kept row for row
/// assert_eq!(Idx::new(2).of(&names), None);
/// assert!(Idx::all(&names).eq([Idx::new(0), Idx::new(1)]));
/// ```
///
/// Source: definition.
pub struct Idx<T> {
    at: usize,
    of: PhantomData<fn() -> T>,
}

impl<T> Idx<T> {
    /// The row at this place, from 0.
    #[must_use]
    pub const fn new(at: usize) -> Self {
        Self {
            at,
            of: PhantomData,
        }
    }

    /// The place of the first row that is meant; `None` where none is.
    #[must_use]
    pub fn find(table: &[T], meant: impl FnMut(&T) -> bool) -> Option<Self> {
        table.iter().position(meant).map(Self::new)
    }

    /// All places of a table, in its order.
    pub fn all(table: &[T]) -> impl Iterator<Item = Self> + use<T> {
        (0..table.len()).map(Self::new)
    }

    /// The place, from 0.
    #[must_use]
    pub const fn at(self) -> usize {
        self.at
    }

    /// The row of its table; `None` past the end.
    #[must_use]
    pub fn of(self, table: &[T]) -> Option<&T> {
        table.get(self.at)
    }

    /// What stands for it in a list that is kept row for row beside its table.
    #[must_use]
    pub fn beside<U>(self, list: &[U]) -> Option<&U> {
        list.get(self.at)
    }
}

impl<T> Clone for Idx<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Idx<T> {}

impl<T> fmt::Debug for Idx<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "#{}", self.at)
    }
}

impl<T> PartialEq for Idx<T> {
    fn eq(&self, other: &Self) -> bool {
        self.at == other.at
    }
}

impl<T> Eq for Idx<T> {}

impl<T> PartialOrd for Idx<T> {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl<T> Ord for Idx<T> {
    fn cmp(&self, other: &Self) -> Ordering {
        self.at.cmp(&other.at)
    }
}
