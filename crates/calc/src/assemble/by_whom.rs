//! What the machine takes and what people take.

/// The same of machine and labor.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct ByWhom<T> {
    pub(super) machine: T,
    pub(super) labor: T,
}

impl<T> ByWhom<T> {
    /// The same of both.
    pub(super) fn map<U>(self, mut of: impl FnMut(T) -> U) -> ByWhom<U> {
        ByWhom {
            machine: of(self.machine),
            labor: of(self.labor),
        }
    }
}
