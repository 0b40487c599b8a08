//! Brackets in callouts: the same measure once more in the other unit, or a count.

use quillbore_job::Column;

use crate::cell_words::{CellWord, cell_word};
use crate::values::number_in;

/// Millimeters in an inch.
const INCH_MM: f64 = 25.4;

/// A callout whose measures in two units are one each, with its unit: `\u{d8}.0315 [0.80]` is `\u{d8}.0315 in`; and
/// whose counts stand before it: `\u{d8}0.5 (x6)` is `6x \u{d8}0.5`, and so does `\u{d8}0.5 (4 PLACES) THRU`.
pub(crate) fn once_each(text: &str) -> String {
    let mut once = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(opens) = rest.find(['(', '[']) {
        let (before, from) = rest.split_at(opens);
        once.push_str(before);
        let Some(closes) = from.find([')', ']']) else {
            rest = from;
            break;
        };
        let inner = from.get(1..closes).unwrap_or_default().trim();
        let group = from.get(..=closes).unwrap_or_default();
        if let Some(unit) = unit_of_same(&once, inner) {
            let kept = once.trim_end().len();
            once.truncate(kept);
            once.push_str(unit);
            once.push(' ');
        } else if let Some(count) = count_in(inner).or_else(|| {
            // Behind everything else a count is read where it stands.
            let behind = from.get(closes + 1..).unwrap_or_default();
            places_in(inner).filter(|_| !behind.trim().is_empty())
        }) {
            once.insert_str(0, &format!("{count}x "));
        } else {
            once.push_str(group);
        }
        rest = from.get(closes + 1..).unwrap_or_default();
    }
    once.push_str(rest);
    once
}

/// Whether a part of a callout has a bracket without its other half.
pub(crate) fn is_torn(part: &str) -> bool {
    let count = |signs: [char; 2]| part.matches(signs).count();
    count(['(', '[']) != count([')', ']'])
}

/// The unit of the number before a bracket that says the same in the other unit, to be put behind it; nothing
/// where one is there already.
///
/// A bracket may as well give a depth: it says the same only where it names a unit, or the inches have three
/// decimals, as drawings in two units write them.
fn unit_of_same(before: &str, inner: &str) -> Option<&'static str> {
    if !inner.starts_with(is_of_number) || inner.contains(['x', 'X', '\u{d7}']) {
        return None;
    }
    let other = Figure::at_the_beginning(inner)?;
    // Of a size with its tolerance the size is meant, which is the first of the numbers behind the last word.
    let parts =
        |letter: char| letter.is_alphabetic() || "\u{2300}\u{21a7}\u{d7}\"".contains(letter);
    let own = before.rsplit(parts).map(str::trim);
    let own = Figure::at_the_beginning(own.clone().find(|own| own.contains(is_of_number))?)?;
    let named = inner.contains(|letter: char| letter.is_alphabetic() || letter == '"');
    let unit = if own.is_mm_of(&other) && (named || other.decimals >= 3) {
        " mm"
    } else if other.is_mm_of(&own) && (named || own.decimals >= 3) {
        " in"
    } else {
        return None;
    };
    let has_unit = before
        .trim_end()
        .ends_with(|letter: char| letter.is_alphabetic() || letter == '"');
    Some(if has_unit { "" } else { unit })
}

fn is_of_number(letter: char) -> bool {
    letter.is_ascii_digit() || ".,".contains(letter)
}

/// A number and how exactly it is written.
struct Figure {
    value: f64,
    decimals: usize,
}

impl Figure {
    fn at_the_beginning(text: &str) -> Option<Self> {
        let begins = text.find(is_of_number)?;
        let text = text.get(begins..)?;
        let digits = text.get(
            ..text
                .find(|letter| !is_of_number(letter))
                .unwrap_or(text.len()),
        )?;
        let decimals = digits
            .split_once(['.', ','])
            .map_or(0, |(_, part)| part.len());
        let value = number_in(digits).filter(|value| *value > 0.0)?;
        Some(Self { value, decimals })
    }

    /// Whether it is the other in millimeters, each rounded to its last digit.
    fn is_mm_of(&self, inches: &Self) -> bool {
        let half = |figure: &Self| {
            let decimals = i32::try_from(figure.decimals).unwrap_or(i32::MAX);
            0.5 * libm::pow(10.0, -f64::from(decimals))
        };
        let off = (self.value - inches.value * INCH_MM).abs();
        off <= half(self) + half(inches) * INCH_MM + 1e-9
    }
}

/// The count of `x6`.
fn count_in(inner: &str) -> Option<&str> {
    let count = inner.strip_prefix(['x', 'X', '\u{d7}'])?.trim();
    (!count.is_empty() && count.chars().all(|letter| letter.is_ascii_digit())).then_some(count)
}

/// The count of `4 PLACES`.
fn places_in(inner: &str) -> Option<&str> {
    let (count, word) = inner.split_once(char::is_whitespace)?;
    let is_word = cell_word(word.trim(), Column::Count) == Some(CellWord::Holes);
    (is_word && count.chars().all(|letter| letter.is_ascii_digit())).then_some(count)
}

#[cfg(test)]
mod tests {
    use super::once_each;

    #[test]
    fn a_measure_in_two_units_is_one() {
        for (text, once) in [
            ("4X \u{d8}.0315 [0.80] THRU", "4X \u{d8}.0315 in  THRU"),
            (
                "\u{2300}0.80 [.031 IN] \u{21a7}12",
                "\u{2300}0.80 mm  \u{21a7}12",
            ),
            ("\u{d8}.0394 (1.00mm) THRU", "\u{d8}.0394 in  THRU"),
            (
                "0.80 \u{b1}0.02 [.031 \u{b1}.001] THRU",
                "0.80 \u{b1}0.02 mm  THRU",
            ),
            ("\u{d8} 0.45 (x6) THRU", "6x \u{d8} 0.45  THRU"),
            ("0.8 mm (.0315) THRU", "0.8 mm  THRU"),
            ("\u{d8}0.5 (4 PLACES) THRU", "4x \u{d8}0.5  THRU"),
            ("\u{d8}0.5 THRU (4 PLACES)", "\u{d8}0.5 THRU (4 PLACES)"),
            // Something else stands in brackets.
            ("\u{d8}0.5 (4) THRU", "\u{d8}0.5 (4) THRU"),
            ("\u{d8}0.5 (REF) THRU", "\u{d8}0.5 (REF) THRU"),
            ("\u{d8}0.5 THRU (4x", "\u{d8}0.5 THRU (4x"),
            ("\u{d8}.500 [12.7]", "\u{d8}.500 in "),
            ("\u{d8}0.5 [12.7]", "\u{d8}0.5 [12.7]"),
            ("\u{d8}0.5 (12.5) THRU", "\u{d8}0.5 (12.5) THRU"),
            ("\u{d8}.020 [0.55] THRU", "\u{d8}.020 [0.55] THRU"),
            ("\u{d8}.020 [0.51] THRU", "\u{d8}.020 in  THRU"),
        ] {
            assert_eq!(once_each(text), once, "{text}");
        }
    }
}
