//! Whether anybody still wants the answer that a search is looking for.

/// Asked by a search between its steps: true where its answer is not wanted any more.
pub type Stop<'a> = &'a dyn Fn() -> bool;

/// A search that goes on to its end.
pub const fn never() -> bool {
    false
}
