//! How whoever waits for a file hears how far it has been read.

/// Hears which share of the reading is done, 0 to 1, and says whether it shall stop.
pub type Watch<'a> = &'a dyn Fn(f64) -> bool;

/// Which share of `all` bytes the first `at` are.
#[expect(clippy::cast_precision_loss, reason = "a share is told to a person")]
pub(crate) fn share(at: usize, all: usize) -> f64 {
    (at as f64 / all.max(1) as f64).min(1.0)
}
