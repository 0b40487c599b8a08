//! Signs of numbers: between groups of three digits, and before the decimals.

use super::Form;
use crate::ground::list::list;

/// A space that is a part of the number: of all spaces the window, too, breaks no line at this one.
const NO_BREAK_SPACE: char = '\u{a0}';

const MINUS: char = '\u{2212}';

list! {
    /// How numbers are written, each by a number that is written so.
    #[derive(Default)]
    pub enum Numbers {
        /// What stands between groups of three digits.
        group: Option<char>,
        /// What stands before the decimals.
        point: char,
    }

    /// A comma between thousands, a decimal point.
    #[default]
    CommaPoint "1,234.5" Some(','), '.';
    /// A space between thousands, a decimal point.
    SpacePoint "1 234.5" Some(NO_BREAK_SPACE), '.';
    /// A point between thousands, a decimal comma.
    PointComma "1.234,5" Some('.'), ',';
    /// A space between thousands, a decimal comma.
    SpaceComma "1 234,5" Some(NO_BREAK_SPACE), ',';
    /// An apostrophe between thousands, a decimal point.
    ApostrophePoint "1'234.5" Some('\''), '.';
    /// A decimal point alone.
    Point "1234.5" None, '.';
    /// A decimal comma alone.
    Comma "1234,5" None, ',';
}

impl Form {
    /// An amount or a count out of plain digits: without decimals too its thousands are apart, since
    /// whoever reads one of these asks what `1,234` means.
    pub(super) fn counted(self, plain: &str) -> String {
        self.grouped(plain, self.numbers.group())
    }

    /// A measure out of plain digits: without decimals it has no comma and no point, since `1,234 mm`
    /// is read as little more than one.
    pub(super) fn measured(self, plain: &str) -> String {
        let group = self.numbers.group();
        let is_clear = |group: &char| plain.contains('.') || !matches!(group, ',' | '.');
        self.grouped(plain, group.filter(is_clear))
    }

    /// Plain digits as somebody types them: with the decimal sign of the form, and nothing between
    /// thousands. Wherever numbers are read, this is read as just these digits.
    #[must_use]
    pub fn typed(self, plain: &str) -> String {
        let point = self.numbers.point();
        let signs = plain.chars();
        signs.map(|c| if c == '.' { point } else { c }).collect()
    }

    /// Plain digits with a sign between groups of three and a real minus sign; no `-0`.
    fn grouped(self, plain: &str, group: Option<char>) -> String {
        let digits = plain.trim_start_matches('-');
        let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
        let is_zero = !digits.chars().any(|c| c.is_ascii_digit() && c != '0');
        let mut shown = String::with_capacity(plain.len() + 8);
        if plain.starts_with('-') && !is_zero {
            shown.push(MINUS);
        }
        for (index, digit) in whole.chars().enumerate() {
            if index > 0 && (whole.len() - index).is_multiple_of(3) {
                shown.extend(group);
            }
            shown.push(digit);
        }
        if !part.is_empty() {
            shown.push(self.numbers.point());
            shown.push_str(part);
        }
        shown
    }
}
