//! Texts that a spreadsheet would work out as a formula: an apostrophe before them keeps them texts.

/// The same text; one that a spreadsheet would take for a formula has an apostrophe before it.
pub(crate) fn guarded(text: &str) -> String {
    if is_like_formula(text.trim_start_matches('\'')) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}

/// The text that [`guarded`] was given.
pub(super) fn unguarded(text: &str) -> &str {
    let guard = text.strip_prefix('\'');
    let guard = guard.filter(|text| is_like_formula(text.trim_start_matches('\'')));
    guard.unwrap_or(text)
}

fn is_like_formula(text: &str) -> bool {
    let is_number_or_telephone = |text: &str| {
        text.chars()
            .all(|sign| sign.is_ascii_digit() || " .,()/".contains(sign))
    };
    match text.chars().next() {
        Some('=' | '@' | '\t' | '\r') => true,
        // `-0.02` and `+1 555 0100` are no formulas.
        Some(sign @ ('+' | '-')) => !is_number_or_telephone(text.trim_start_matches(sign)),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_formula_is_kept_a_text_and_comes_back_as_it_was() {
        for text in ["=1+1", "@sum", "-2+3", "+cmd", "'=1", "''=1", "\tx"] {
            assert_eq!(guarded(text), format!("'{text}"));
            assert_eq!(unguarded(&guarded(text)), text);
        }
        for text in [
            "",
            "0.5",
            "-0.02",
            "+1 555 0100",
            "'tis",
            "brass = soft",
            "'",
        ] {
            assert_eq!(guarded(text), text);
            assert_eq!(unguarded(text), text);
        }
    }
}
