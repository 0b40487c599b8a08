//! Numbers of cells as texts.

/// A number as a spreadsheet shows it where a column is wide enough: at most 15 digits, as many as such
/// programs reckon with.
pub(super) fn number(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return if value.is_finite() {
            "0".to_owned()
        } else {
            String::new()
        };
    }
    // Digits enough to tell it from all others: where they are not more than 15, rounding leaves them.
    let shortest = value.to_string();
    if shortest.len() <= 15 {
        return shortest;
    }
    let rounded: f64 = format!("{value:.14e}").parse().unwrap_or(value);
    let plain = rounded.to_string();
    // A number with a hundred zeros is no length; as it is written it can be read.
    if plain.len() > 40 {
        format!("{rounded:e}")
    } else {
        plain
    }
}

/// Whether a number format shows fractions: `# ?/?`, `# ??/16`.
pub(super) fn is_of_fractions(format: &str) -> bool {
    let first = format.split(';').next().unwrap_or_default();
    let is_place = |letter: char| matches!(letter, '?' | '#' | '0');
    first.split_once('/').is_some_and(|(above, below)| {
        above.ends_with(is_place)
            && below.starts_with(|letter: char| is_place(letter) || letter.is_ascii_digit())
    })
}

/// A number as a fraction, as it is shown or would be with digits enough: `1/32`, `1 1/4`; `None` where it is
/// none of a small divisor.
pub(super) fn fraction(value: f64) -> Option<String> {
    const DIVISORS: std::ops::RangeInclusive<u32> = 2..=128;
    const MOST: f64 = 1e6;
    let size = value.abs();
    let whole = size.trunc();
    if size.fract() == 0.0 || size > MOST {
        return None;
    }
    let above = |divisor: &u32| size.fract() * f64::from(*divisor);
    let divisor = DIVISORS.into_iter().find(|divisor| {
        let above = above(divisor);
        (above - above.round()).abs() < 1e-9 && above.round() > 0.0
    })?;
    let sign = if value < 0.0 { "-" } else { "" };
    let above = above(&divisor).round();
    Some(match whole == 0.0 {
        true => format!("{sign}{above}/{divisor}"),
        false => format!("{sign}{whole} {above}/{divisor}"),
    })
}

/// The unit that a number format puts behind its numbers: `0.00" mm"`; `None` where it puts none.
pub(super) fn unit_of(format: &str) -> Option<&'static str> {
    let first = format.split(';').next().unwrap_or_default();
    let behind = first
        .rfind(['0', '#', '?'])
        .and_then(|last| first.get(last + 1..))?;
    let behind: String = behind
        .chars()
        .filter(|each| !matches!(each, '"' | '\\' | ' ' | '\u{a0}' | '_'))
        .collect();
    // A stroke for inches is written as an escaped quotation mark, or in quotation marks of its own.
    let inch_mark = first.ends_with("\\\"") || first.ends_with("\"\"\"\"");
    match behind.to_lowercase().as_str() {
        "mm" => Some(" mm"),
        "in" | "inch" | "in." => Some(" in"),
        "\u{b5}m" | "\u{3bc}m" | "um" => Some(" \u{b5}m"),
        "\u{b0}" | "deg" => Some("\u{b0}"),
        "" if inch_mark => Some(" in"),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::{fraction, is_of_fractions, number, unit_of};

    #[test]
    fn numbers_as_a_spreadsheet_shows_them() {
        let cases = [
            (0.8, "0.8"),
            (0.1 + 0.2, "0.3"),
            (12.0, "12"),
            (-4.5, "-4.5"),
            (1.0 / 3.0, "0.333333333333333"),
            (0.0, "0"),
            (-0.0, "0"),
            (1e-7, "0.0000001"),
            (123_456_789_012_345.0, "123456789012345"),
            (1_234_567_890_123_456.0, "1234567890123460"),
            (0.123_456_789_012_3, "0.1234567890123"),
            (-0.123_456_789_012_345_67, "-0.123456789012346"),
            (1e300, "1e300"),
        ];
        for (value, text) in cases {
            assert_eq!(number(value), text);
        }
    }

    #[test]
    fn formats_of_fractions() {
        for format in ["# ?/?", "# ??/??", "# ??/16", "#\\ ?/32", "0/0"] {
            assert!(is_of_fractions(format), "{format}");
        }
        for format in ["0.00", "dd/mm/yyyy", "General", "0.00\"/m\"", "d/m"] {
            assert!(!is_of_fractions(format), "{format}");
        }
        for (value, text) in [
            (0.03125, Some("1/32")),
            (1.25, Some("1 1/4")),
            (-0.5, Some("-1/2")),
            (2.0, None),
            (0.031_415, None),
            (f64::NAN, None),
        ] {
            assert_eq!(fraction(value).as_deref(), text);
        }
    }

    #[test]
    fn a_format_may_name_a_unit() {
        let cases = [
            ("0.00\" mm\"", Some(" mm")),
            ("0.000\\ \"mm\"", Some(" mm")),
            ("0.0000\"in\"", Some(" in")),
            ("0.000\\\"", Some(" in")),
            ("0\u{b0}", Some("\u{b0}")),
            ("0.00\" mm\";-0.00\" mm\"", Some(" mm")),
            ("General", None),
            ("0.00", None),
            ("#,##0.00\\ \"pcs\"", None),
        ];
        for (format, unit) in cases {
            assert_eq!(unit_of(format), unit, "{format}");
        }
    }
}
