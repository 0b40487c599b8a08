//! What a line type says of an edge: in sight, hidden, or no edge at all.

use super::entity::Line;

/// By its dashes (above 0), gaps (below 0) and dots (0), or by its name where it has none of them.
pub(super) fn line_of(name: &[u8], elements: &[f64]) -> Line {
    let dashes = || elements.iter().copied().filter(|length| *length > 0.0);
    let longest = dashes().fold(0.0, f64::max);
    let shortest = dashes().fold(f64::INFINITY, f64::min);
    let has_dots = elements.contains(&0.0);
    let has_gaps = elements.iter().any(|length| *length < 0.0);
    if !has_gaps {
        return by_name(name);
    }
    if longest > 0.0 && (has_dots || longest >= LONG_AND_SHORT * shortest) {
        Line::Center
    } else {
        Line::Dashed
    }
}

/// Axes have dashes of which one is so many times as long as the other. ISO 128-2 draws 24 d and 6 d, or a
/// dot; from memory.
const LONG_AND_SHORT: f64 = 1.8;

/// Names that drawings give to line types without saying their dashes; common practice, no source.
fn by_name(name: &[u8]) -> Line {
    let name = name.to_ascii_uppercase();
    let has = |word: &&str| name.windows(word.len()).any(|part| part == word.as_bytes());
    let center = [
        "CENTER",
        "CENTRE",
        "PHANTOM",
        "DASHDOT",
        "CHAIN",
        "MITTEL",
        "STRICHPUNKT",
    ];
    let dashed = ["HIDDEN", "DASH", "DOT", "VERDECKT", "STRICH"];
    if center.iter().any(has) {
        Line::Center
    } else if dashed.iter().any(has) {
        Line::Dashed
    } else {
        Line::Plain
    }
}

#[cfg(test)]
mod tests {
    use super::{Line, line_of};

    /// Dashes of line types that drawings come with; common practice, no source.
    #[test]
    fn axes_are_told_from_hidden_edges() {
        let cases: [(&[u8], &[f64], Line); 8] = [
            (b"CONTINUOUS", &[], Line::Plain),
            (b"A", &[0.25, -0.125], Line::Dashed),
            (b"A", &[1.25, -0.25, 0.25, -0.25], Line::Center),
            (b"A", &[1.25, -0.25, 0.25, -0.25, 0.25, -0.25], Line::Center),
            (b"A", &[0.5, -0.25, 0.0, -0.25], Line::Center),
            (b"A", &[0.0, -0.25], Line::Dashed),
            (b"center2", &[], Line::Center),
            (b"HIDDEN", &[], Line::Dashed),
        ];
        for (name, elements, expect) in cases {
            assert_eq!(line_of(name, elements), expect, "{elements:?}");
        }
    }
}
