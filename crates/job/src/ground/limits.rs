//! How much one job can hold.

/// Most rows of a table.
pub const MOST_ROWS: usize = 100_000;

/// Most places of a row.
pub const MOST_PLACES: usize = 100_000;

/// Most slips of a job.
pub const MOST_SLIPS: usize = 10_000;

/// Most characters of one text.
pub const LONGEST_TEXT: usize = 100_000;

/// Longest word of an answer, in characters: it is printed in one line or two.
pub const LONGEST_ANSWER: usize = 400;

/// Farthest that a coordinate may lie from the part's zero [mm]: a kilometer.
pub const FARTHEST_MM: f64 = 1_000_000.0;

/// Whether a point lies where a part can be; also none that is no number does.
#[must_use]
pub fn is_reachable(point_mm: [f64; 3]) -> bool {
    point_mm.iter().all(|along| along.abs() <= FARTHEST_MM)
}

/// Whether a shop can have such a number: 0, or from a billionth to a billion. Beyond, products of a
/// few of them would be no numbers any more.
#[must_use]
pub fn is_of_a_shop(value: f64) -> bool {
    value == 0.0 || (1e-9..=1e9).contains(&value.abs())
}
