//! Marks that name several holes: `A1-A12`, `A1 to A4`, `13, 14, 17`.

/// Most holes that one cell names.
const MOST: u32 = 1_000;

/// What a mark says of how many holes it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Marks {
    /// One.
    One,
    /// So many.
    Several(u32),
    /// One, or a first and a last one: `1-12`.
    Maybe,
}

/// Counts the holes that a mark names.
pub(crate) fn marks_in(text: &str) -> Marks {
    let parts: Vec<&str> = text
        .split([',', ';', '&', '+'])
        .map(str::trim)
        .filter(|part| !part.is_empty())
        .collect();
    let mut all = 0_u32;
    for part in &parts {
        let holes = match range(part) {
            Some(Range { holes, sure: true }) => holes,
            Some(_) if parts.len() == 1 => return Marks::Maybe,
            Some(Range { holes, .. }) => holes,
            None if parts.len() > 1 && mark(part).is_some() => 1,
            None => return Marks::One,
        };
        all = all.saturating_add(holes);
    }
    match all {
        0 | 1 => Marks::One,
        all if all <= MOST => Marks::Several(all),
        _ => Marks::Maybe,
    }
}

struct Range {
    holes: u32,
    /// It can't be one mark of two numbers.
    sure: bool,
}

/// A first and a last mark of one kind, and how many lie between them.
fn range(text: &str) -> Option<Range> {
    const WORDS: [&str; 8] = [
        " to ",
        " bis ",
        " thru ",
        " through ",
        " \u{e0} ",
        " a ",
        "..",
        "\u{2026}",
    ];
    let lower = text.to_lowercase();
    let by_word = WORDS.iter().find_map(|word| {
        let at = lower.find(word).filter(|_| lower.len() == text.len())?;
        Some((text.get(..at)?, text.get(at + word.len()..)?))
    });
    let by_dash = || text.split_once(['-', '\u{2013}']);
    let sure = by_word.is_some();
    let (first, last) = by_word.or_else(by_dash)?;
    let (first, last) = (mark(first)?, mark(last.trim_start_matches('.'))?);
    let named = !first.letters.is_empty();
    let alike = first.letters == last.letters || (named && last.letters.is_empty());
    let holes = last.number.checked_sub(first.number)?.checked_add(1)?;
    (alike && holes > 1).then_some(Range {
        holes,
        sure: sure || (named && first.letters == last.letters),
    })
}

/// Letters and the number behind them.
struct Mark<'a> {
    letters: &'a str,
    number: u32,
}

fn mark(text: &str) -> Option<Mark<'_>> {
    let text = text.trim();
    let digits = text.find(|letter: char| letter.is_ascii_digit())?;
    let (letters, number) = text.split_at(digits);
    let plain = letters.chars().all(char::is_alphabetic) && letters.chars().count() <= 3;
    Some(Mark {
        letters,
        number: number.parse().ok().filter(|_| plain && number.len() <= 4)?,
    })
}

#[cfg(test)]
mod tests {
    use super::{Marks, marks_in};

    #[test]
    fn marks_of_several_holes() {
        for (text, marks) in [
            ("A1-A12", Marks::Several(12)),
            ("A1 - A12", Marks::Several(12)),
            ("A1 to A4", Marks::Several(4)),
            ("A1 bis A4", Marks::Several(4)),
            ("1 to 12", Marks::Several(12)),
            ("1..12", Marks::Several(12)),
            ("13, 14, 17", Marks::Several(3)),
            ("A1-A3, A7", Marks::Several(4)),
            ("B1, B2 & B3", Marks::Several(3)),
            ("1-12", Marks::Maybe),
            ("A1-12", Marks::Maybe),
            ("A1-A99999", Marks::One),
            ("B-3", Marks::One),
            ("A", Marks::One),
            ("A, B", Marks::One),
            ("3-1", Marks::One),
            ("A1-B2", Marks::One),
            ("12", Marks::One),
            ("", Marks::One),
            ("hole 4", Marks::One),
            ("1-1", Marks::One),
        ] {
            assert_eq!(marks_in(text), marks, "{text}");
        }
    }
}
