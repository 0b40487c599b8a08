//! What a test burn would tell before it is made.

/// How well a counter and a rule are read after a test burn, deviation of the logarithm (our choice, no
/// source).
const READING: f64 = 0.05;

/// Deviations of a lot's burn and wear before and after a test burn, from lot to lot and in all.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BurnAndWear {
    /// Deviations of the logarithms that a lot's holes share, burn and wear [-].
    pub sigmas: [f64; 2],
    /// What of them is from lot to lot [-].
    pub lots: [f64; 2],
}

/// Deviations of a lot to come once some holes like its own were burned on a test piece.
///
/// Formula: what is not known of the shop, S, of burn and wear together, becomes `S - S (S + R)^-1 S`,
/// with R the scatter from lot to lot, of `n` holes and of the reading; what is from lot to lot stays.
///
/// - `before`: deviations [-], 0 and up; the lots' no larger than those in all.
/// - `together`: correlation of burn and wear [-], -1 to 1.
/// - `holes`: n [-], above 0.
/// - `hole_scatter`: deviation from hole to hole [-], 0 and up.
///
/// Result: deviations of burn and wear [-], no larger than before.
///
/// ```
/// use quillbore_calc::learn::{BurnAndWear, after_test_burn};
/// let before = BurnAndWear { sigmas: [0.5, 0.5], lots: [0.3, 0.3] };
/// // Alone, 0.4 unknown against 0.3 of the lot, 0.15 / 2 of four holes and 0.05 of the reading:
/// // 0.16 x 0.098125 / 0.258125 = 0.060823 is left, and 0.09 of the next lot: root 0.3884.
/// let [burn, wear] = after_test_burn(&before, 0.0, 4.0, 0.15);
/// assert!((burn - 0.3884).abs() < 0.00005 && burn == wear);
/// // What goes together tells a little more.
/// assert!(after_test_burn(&before, 0.5, 4.0, 0.15)[0] <= burn + 1e-12);
/// ```
///
/// Source: conditional distribution of jointly normal variables. A test piece is taken as a lot of its
/// own, so that no more is promised than the next lot keeps.
#[must_use]
pub fn after_test_burn(
    before: &BurnAndWear,
    together: f64,
    holes: f64,
    hole_scatter: f64,
) -> [f64; 2] {
    let BurnAndWear { sigmas, lots } = *before;
    let unknown = [0, 1].map(|at| (sigmas[at] * sigmas[at] - lots[at] * lots[at]).max(0.0));
    let noise = hole_scatter * hole_scatter / holes + READING * READING;
    let unknown_both = together * libm::sqrt(unknown[0] * unknown[1]);
    let seen = [0, 1].map(|at| unknown[at] + lots[at] * lots[at] + noise);
    let seen_both = unknown_both + together * lots[0] * lots[1];
    let scale = seen[0] * seen[1] - seen_both * seen_both;
    if scale.is_nan() || scale <= 0.0 {
        return sigmas;
    }
    let explained = |own: f64, other: f64, of: usize| {
        // (own, other) (S + R)^-1 (own, other)', with the matrix in the order of the two.
        let (mine, others) = (seen[of], seen[1 - of]);
        (own * own * others - 2.0 * own * other * seen_both + other * other * mine) / scale
    };
    [0, 1].map(|at| {
        let left = unknown[at] - explained(unknown[at], unknown_both, at);
        libm::sqrt(left.max(0.0) + lots[at] * lots[at])
    })
}
