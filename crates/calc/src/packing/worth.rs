//! Values of holes, whole numbers so that sums of them are exact.

/// A value of one electrode as a whole number.
pub(super) const ONE: i64 = 1 << 30;
/// What a pattern's holes are worth together.
pub(super) fn worth(pattern: &[u64], values: &[i64]) -> i64 {
    let pairs = pattern.iter().zip(values);
    pairs.map(|(&number, &value)| number as i64 * value).sum()
}
