//! General tolerances of lengths, for drawings that give none of their own.

/// Upper ends of the ranges [mm] and deviations to either side [mm], class m.
const MEDIUM: [(f64, f64); 8] = [
    (3.0, 0.1),
    (6.0, 0.1),
    (30.0, 0.2),
    (120.0, 0.3),
    (400.0, 0.5),
    (1000.0, 0.8),
    (2000.0, 1.2),
    (4000.0, 2.0),
];

/// General tolerance of a length, class m.
///
/// Formula: looked up by the range that the length lies in.
///
/// - `length_mm`: nominal length [mm], above 0; the standard begins at 0.5 mm, what is shorter takes
///   the first range's.
///
/// Result: permissible deviation to either side [mm]; `None` beyond 4 m.
///
/// ```
/// use quillbore_calc::standards::general::medium;
/// assert_eq!(medium(12.0), Some(0.2));
/// assert_eq!(medium(6.0), Some(0.1)); // up to and including
/// ```
///
/// Source: ISO 2768-1:1989, table 1, class m («memory»).
#[must_use]
pub fn medium(length_mm: f64) -> Option<f64> {
    let range = MEDIUM.iter().find(|(upper, _)| length_mm <= *upper);
    range.map(|(_, deviation)| *deviation)
}
