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

impl Numbers {
    /// The form that another number was typed in: `1'234.50`, `12345,6`; none where its signs can be read
    /// in two ways.
    #[must_use]
    pub fn like(text: &str) -> Option<Self> {
        let text = text.trim().replace(['\u{2019}', '\u{2bc}'], "'");
        let (whole, decimals) = text.rsplit_once(['.', ','])?;
        let point = text.chars().nth(whole.chars().count())?;
        let is_digits = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
        let mut groups = whole.split(|sign: char| !sign.is_ascii_digit());
        let first = groups.next().filter(|first| is_digits(first))?;
        let groups: Vec<&str> = groups.collect();
        if !is_digits(decimals)
            || !groups
                .iter()
                .all(|group| is_digits(group) && group.len() == 3)
        {
            return None;
        }
        let mut marks = whole.chars().filter(|sign| !sign.is_ascii_digit());
        let mark = marks.next().map(|mark| {
            if mark.is_whitespace() {
                NO_BREAK_SPACE
            } else {
                mark
            }
        });
        // `1,234` alone may be grouped.
        if mark.is_none() && decimals.len() == 3 && first.len() <= 3 {
            return None;
        }
        let is_it = |form: &Self| form.group() == mark && form.point() == point;
        Self::ALL.iter().copied().find(is_it)
    }
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
