//! How characteristics of holes are written, in whatever language their papers are.

/// A requirement of a row.
pub fn of_mark(mark: &str, asked: &str) -> String {
    format!("{mark}: {asked}")
}

/// Sizes of so many holes.
pub fn size(count: &str, limits: &str, unit: &str) -> String {
    let count = match count {
        "" | "1" => String::new(),
        count => format!("{count}\u{a0}\u{d7} "),
    };
    format!("{count}\u{2300}\u{a0}{limits}\u{a0}{unit}")
}

/// From one limit to the other.
pub fn between(lower: &str, upper: &str) -> String {
    format!("{lower}\u{a0}\u{2013}\u{a0}{upper}")
}
