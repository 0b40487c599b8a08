//! A lower and an upper limit of one figure.

/// A lower and an upper limit, in the figure's own unit; the lower one is not above the upper unless
/// somebody typed it so.
///
/// Formula: width `upper - lower`, middle `(lower + upper) / 2`.
///
/// ```
/// use quillbore_calc::Limits;
/// let limits = Limits::new(0.75, 1.25);
/// assert_eq!((limits.width(), limits.middle()), (0.5, 1.0));
/// assert_eq!(limits.map(|mm| mm * 2.0), Limits { lower: 1.5, upper: 2.5 });
/// ```
///
/// Source: definition (limits of size, ISO 286-1).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Limits<T = f64> {
    /// The lower one.
    pub lower: T,
    /// The upper one.
    pub upper: T,
}

impl<T> Limits<T> {
    /// From the lower and the upper one.
    #[must_use]
    pub const fn new(lower: T, upper: T) -> Self {
        Self { lower, upper }
    }

    /// The same of both.
    #[must_use]
    pub fn map<U>(self, mut of: impl FnMut(T) -> U) -> Limits<U> {
        Limits {
            lower: of(self.lower),
            upper: of(self.upper),
        }
    }
}

impl Limits {
    /// How far they are apart.
    #[must_use]
    pub const fn width(self) -> f64 {
        self.upper - self.lower
    }

    /// Half way between them.
    #[must_use]
    pub const fn middle(self) -> f64 {
        f64::midpoint(self.lower, self.upper)
    }
}
