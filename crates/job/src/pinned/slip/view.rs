//! A slip of a known kind, whose lines come back in their own types.

use core::fmt;
use core::marker::PhantomData;

use super::holds::Holds;
use super::lists::{Has, Line, TypedKind, TypedLine};
use super::pinned::Slip;
use crate::typed::entry::Entry;
use crate::typed::field::Value;

/// A line that slips of a kind have: for lists of them.
pub struct LineOf<K> {
    line: Line,
    of: PhantomData<K>,
}

impl<K> LineOf<K> {
    /// The line, among those of the kind.
    #[must_use]
    pub const fn new<L: TypedLine>(_: L) -> Self
    where
        K: Has<L>,
    {
        Self {
            line: L::LINE,
            of: PhantomData,
        }
    }

    /// The line, among those of all kinds.
    #[must_use]
    pub const fn line(&self) -> Line {
        self.line
    }
}

/// A slip of a kind. A line that the kind doesn't have can't be asked for:
///
/// ```
/// use chrono::NaiveDate;
/// use quillbore_job::slip::{View, kind, line};
///
/// fn due(order: View<'_, kind::Order>) -> Option<NaiveDate> {
///     order.get(line::Due)
/// }
/// ```
///
/// ```compile_fail,E0277
/// use chrono::NaiveDate;
/// use quillbore_job::slip::{View, kind, line};
///
/// fn due(delivery: View<'_, kind::Delivery>) -> Option<NaiveDate> {
///     delivery.get(line::Due)
/// }
/// ```
///
/// Nor does a line come back in another type than its own:
///
/// ```compile_fail,E0308
/// use quillbore_job::slip::{View, kind, line};
///
/// fn due(order: View<'_, kind::Order>) -> Option<u32> {
///     order.get(line::Due)
/// }
/// ```
pub struct View<'a, K> {
    slip: &'a Slip,
    of: PhantomData<K>,
}

impl Slip {
    /// The slip as one of a kind, where it is of that kind.
    #[must_use]
    pub fn as_view<K: TypedKind>(&self) -> Option<View<'_, K>> {
        View::of(self)
    }
}

impl<'a, K: TypedKind> View<'a, K> {
    /// The slip, where it is of this kind.
    fn of(slip: &'a Slip) -> Option<Self> {
        (slip.kind == K::KIND).then_some(Self {
            slip,
            of: PhantomData,
        })
    }

    /// What was typed in a line, in its own type.
    #[must_use]
    pub fn get<L: TypedLine>(self, line: L) -> <L::Holds as Holds>::Value<'a>
    where
        K: Has<L>,
    {
        L::Holds::of(self.entry(line))
    }

    /// A line's text as typed, without outer blanks; empty where nothing was typed.
    #[must_use]
    pub fn text<L: TypedLine>(self, line: L) -> &'a str
    where
        K: Has<L>,
    {
        self.entry(line).text().trim()
    }

    /// What was typed in a line, and what it was read as.
    #[must_use]
    pub fn entry<L: TypedLine>(self, _: L) -> &'a Entry<Value>
    where
        K: Has<L>,
    {
        self.slip.line(L::LINE)
    }

    /// What was typed in one of a list of lines, and what it was read as.
    #[must_use]
    pub fn one_of(self, line: &LineOf<K>) -> &'a Entry<Value> {
        self.slip.line(line.line)
    }

    /// Its identity in the job.
    #[must_use]
    pub const fn id(self) -> u32 {
        self.slip.id
    }

    /// The slip as one among all kinds.
    #[must_use]
    pub const fn slip(self) -> &'a Slip {
        self.slip
    }
}

impl<K> Clone for View<'_, K> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<K> Copy for View<'_, K> {}

impl<K> fmt::Debug for View<'_, K> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.slip.fmt(f)
    }
}

impl<K> PartialEq for View<'_, K> {
    fn eq(&self, other: &Self) -> bool {
        self.slip == other.slip
    }
}
