//! What was typed, and what it was read as: the text is never lost.

use std::sync::Arc;

/// The unit that a number without a unit of its own is meant in, fixed when it is committed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Unit {
    /// Millimeters.
    #[default]
    Mm,
    /// Inches.
    Inch,
}

impl Unit {
    /// Its symbol, the same in every language.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::Inch => "in",
        }
    }

    /// Ten billionths of a bar in a pound of force on a square inch, by the pound and inch of 1959 and standard
    /// gravity (NIST SP 811, appendix B.8, prints 6.894757 kPa).
    pub const PSI: i32 = 689_475_729;

    /// Pounds of force on a square inch in a pressure [bar].
    #[must_use]
    pub fn psi(bar: f64) -> f64 {
        bar * 1e10 / f64::from(Self::PSI)
    }

    /// Symbol of the unit of force beside it.
    #[must_use]
    pub const fn force_symbol(self) -> &'static str {
        match self {
            Self::Mm => "N",
            Self::Inch => "lbf",
        }
    }
}

/// A typed cell: empty, read as a value, or a text that can't be read and says why. Most cells of a
/// table are empty or the same as the one above, so one is as small as can be until something is
/// typed, and its copies share that.
#[derive(Debug)]
pub struct Entry<T>(Option<Arc<Typed<T>>>);

#[derive(Clone, Debug, PartialEq)]
struct Typed<T> {
    text: Box<str>,
    unit: Unit,
    read: Result<T, Box<str>>,
}

impl<T> Clone for Entry<T> {
    fn clone(&self) -> Self {
        Self(self.0.clone())
    }
}

impl<T: PartialEq> PartialEq for Entry<T> {
    fn eq(&self, other: &Self) -> bool {
        match (&self.0, &other.0) {
            (Some(one), Some(other)) => Arc::ptr_eq(one, other) || one == other,
            (None, None) => true,
            _ => false,
        }
    }
}

impl<T> Default for Entry<T> {
    fn default() -> Self {
        Self::EMPTY
    }
}

impl<T> Entry<T> {
    /// Nothing was typed.
    pub const EMPTY: Self = Self(None);

    /// A text, to the letter, that was read as a value; the unit is the one it was committed in.
    pub fn read(text: impl Into<Box<str>>, unit: Unit, value: T) -> Self {
        Self::new(text.into(), unit, Ok(value))
    }

    /// A text, to the letter, that could not be read: it stays and is explained by one sentence.
    pub fn unread(text: impl Into<Box<str>>, unit: Unit, why: impl Into<Box<str>>) -> Self {
        Self::new(text.into(), unit, Err(why.into()))
    }

    fn new(text: Box<str>, unit: Unit, read: Result<T, Box<str>>) -> Self {
        Self(Some(Arc::new(Typed { text, unit, read })))
    }

    /// The same once more, where the same text was typed in the same unit; nothing needs reading then.
    pub(crate) fn again(&self, text: &str, unit: Unit) -> Option<Self> {
        let typed = self.0.as_ref()?;
        (&*typed.text == text && typed.unit == unit).then(|| self.clone())
    }

    /// The value, where there is one.
    #[must_use]
    pub fn value(&self) -> Option<&T> {
        self.0.as_ref()?.read.as_ref().ok()
    }

    /// What was typed; empty where nothing was.
    #[must_use]
    pub fn text(&self) -> &str {
        self.0.as_ref().map_or("", |typed| &typed.text)
    }

    /// The unit it was committed in, where something was typed.
    #[must_use]
    pub fn unit(&self) -> Option<Unit> {
        self.0.as_ref().map(|typed| typed.unit)
    }

    /// Why it can't be read, where it can't.
    #[must_use]
    pub fn why(&self) -> Option<&str> {
        self.0.as_ref()?.read.as_ref().err().map(AsRef::as_ref)
    }

    /// True where nothing was typed.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.0.is_none()
    }

    /// What can be said of it without its type.
    #[must_use]
    pub fn look(&self) -> CellLook<'_> {
        CellLook {
            text: self.text(),
            unit: self.unit(),
            why: self.why(),
        }
    }
}

/// Something about a cell that does not depend on its type.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CellLook<'a> {
    /// What was typed.
    pub text: &'a str,
    /// The unit it was committed in.
    pub unit: Option<Unit>,
    /// Why it can't be read, where it can't.
    pub why: Option<&'a str>,
}
