//! What the price is made of, in words.

use crate::typed::show_quantity as show;

/// Heads of a spread: its P10, P50 and P90.
pub const BAND: [&str; 3] = ["low", "likely", "high"];

/// What the price rests on.
pub const EXPECTED_COST: &str = "expected cost";

/// What the mean of all that nobody knows yet adds to the cost at the medians.
#[must_use]
pub fn not_yet_known(share: f64) -> String {
    let sign = if share < 0.0 { "\u{2212}" } else { "+" };
    format!("not yet known {sign}{}", show::percent(share.abs()))
}
