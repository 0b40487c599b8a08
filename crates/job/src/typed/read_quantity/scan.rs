//! Walking over typed text, with the many ways of writing one sign made one.

use super::misread::Misread;

/// Longest text that is read as a quantity, in characters.
pub(crate) const LONGEST: usize = 200;

/// The grouping mark that is kept apart from other spaces: it stands inside a number.
pub(crate) const THIN_SPACE: char = '\u{2009}';

/// Typed text and how far it has been read.
#[derive(Clone, Debug)]
pub(crate) struct Scan {
    chars: Vec<char>,
    at: usize,
}

impl Scan {
    pub(crate) fn new(text: &str) -> Result<Self, Misread> {
        if text.chars().count() > LONGEST {
            return Err(Misread::TooLong { most: LONGEST });
        }
        Ok(Self {
            chars: plain(text),
            at: 0,
        })
    }

    /// Begins to read a length or what has one in it, which a day such as `2026-03-08` is not.
    pub(crate) fn of_length(text: &str) -> Result<Self, Misread> {
        let bytes = text.trim().as_bytes();
        let is_date = bytes.len() == 10
            && bytes.iter().enumerate().all(|(at, byte)| match at {
                4 | 7 => *byte == b'-',
                _ => byte.is_ascii_digit(),
            });
        if is_date {
            let date = text.trim().to_owned();
            return Err(Misread::IsADate { date });
        }
        Self::new(text)
    }

    /// The same text with brackets taken for spaces: `#60 (.040)`, `[0.8]`.
    pub(crate) fn without_brackets(mut self) -> Self {
        for c in &mut self.chars {
            if matches!(c, '(' | ')' | '[' | ']') {
                *c = ' ';
            }
        }
        self
    }

    /// The same text with spaces that group digits by three taken for grouping marks: `2 500`, `1 250 000`.
    /// Only for texts of one number.
    pub(crate) fn grouped_by_spaces(mut self) -> Self {
        for at in 1..self.chars.len() {
            if self.chars[at] == ' ' && self.groups_at(at) {
                self.chars[at] = THIN_SPACE;
            }
        }
        self
    }

    /// The same text without the marks that group digits.
    pub(crate) fn ungrouped(mut self) -> Self {
        self.chars.retain(|c| *c != THIN_SPACE);
        self
    }

    /// Whether the sign here can group digits: one to three before it, exactly three after it.
    fn groups_at(&self, at: usize) -> bool {
        let is_digit = |at: usize| self.chars.get(at).is_some_and(char::is_ascii_digit);
        let before = (1..=4).take_while(|back| at.checked_sub(*back).is_some_and(is_digit));
        let before = before.count();
        let after = (1..=4).take_while(|ahead| is_digit(at + ahead)).count();
        let leads_on = |first: usize| {
            let mark = first.checked_sub(1).and_then(|mark| self.chars.get(mark));
            !matches!(mark, Some('.' | ',' | '/'))
        };
        let divides = self.chars.get(at + 4) == Some(&'/');
        (1..=3).contains(&before) && after == 3 && leads_on(at - before) && !divides
    }

    /// Whether spaces part numbers here: one between digits can group none, or two would group a million
    /// and more.
    pub(crate) fn has_parting_spaces(&self) -> bool {
        let is_digit = |at: usize| self.chars.get(at).is_some_and(char::is_ascii_digit);
        (1..self.chars.len()).any(|at| {
            let parts = self.chars[at] == ' ' && is_digit(at - 1) && is_digit(at + 1);
            let goes_on = self.chars.get(at + 4) == Some(&' ') && self.groups_at(at + 4);
            parts && (!self.groups_at(at) || goes_on)
        })
    }

    /// Where reading stands, for [`Self::back_to`].
    pub(crate) const fn mark(&self) -> usize {
        self.at
    }

    pub(crate) const fn back_to(&mut self, mark: usize) {
        self.at = mark;
    }

    /// The next character as it stands, spaces too.
    pub(crate) fn here(&self) -> Option<char> {
        self.chars.get(self.at).copied()
    }

    /// The character `ahead` of the next one.
    pub(crate) fn ahead(&self, ahead: usize) -> Option<char> {
        self.chars.get(self.at + ahead).copied()
    }

    /// The next character that is no space.
    pub(crate) fn peek(&mut self) -> Option<char> {
        self.skip_spaces();
        self.here()
    }

    pub(crate) fn step(&mut self) {
        self.at += 1;
    }

    pub(crate) fn skip_spaces(&mut self) {
        while matches!(self.here(), Some(' ' | THIN_SPACE)) {
            self.at += 1;
        }
    }

    pub(crate) fn at_end(&mut self) -> bool {
        self.peek().is_none()
    }

    /// Takes one sign, over spaces before it.
    pub(crate) fn eat(&mut self, sign: char) -> bool {
        if self.peek() == Some(sign) {
            self.at += 1;
            true
        } else {
            false
        }
    }

    /// Takes a sequence of signs without regard to case, over spaces before it.
    pub(crate) fn eat_all(&mut self, signs: &str) -> bool {
        self.skip_spaces();
        let mut at = self.at;
        for sign in signs.chars() {
            match self.chars.get(at) {
                Some(c) if c.eq_ignore_ascii_case(&sign) => at += 1,
                _ => return false,
            }
        }
        self.at = at;
        true
    }

    /// Takes `+-`, `+/-` or the one sign for it.
    pub(crate) fn eat_plus_minus(&mut self) -> bool {
        ["\u{b1}", "+/-", "-/+", "+-"]
            .into_iter()
            .any(|signs| self.eat_all(signs))
    }

    /// The next run of letters, as typed.
    pub(crate) fn word(&mut self) -> Option<String> {
        self.skip_spaces();
        let word: String = self.chars[self.at..]
            .iter()
            .take_while(|c| c.is_alphabetic())
            .collect();
        if word.is_empty() {
            return None;
        }
        self.at += word.chars().count();
        Some(word)
    }

    /// Takes one of these words, whole and without regard to case, and a point after it.
    pub(crate) fn eat_word(&mut self, words: &[&str]) -> bool {
        let mark = self.mark();
        if let Some(word) = self.word()
            && words.iter().any(|known| known.eq_ignore_ascii_case(&word))
        {
            if self.here() == Some('.') && !self.ahead(1).is_some_and(|c| c.is_ascii_digit()) {
                self.step();
            }
            return true;
        }
        self.back_to(mark);
        false
    }

    /// A run of ASCII digits.
    pub(crate) fn digits(&mut self) -> Option<String> {
        self.skip_spaces();
        let digits: String = self.chars[self.at..]
            .iter()
            .take_while(|c| c.is_ascii_digit())
            .collect();
        if digits.is_empty() {
            return None;
        }
        self.at += digits.len();
        Some(digits)
    }

    /// What has not been read yet.
    pub(crate) fn rest(&mut self) -> String {
        self.skip_spaces();
        self.chars[self.at..].iter().collect::<String>()
    }

    /// What stands between two marks.
    pub(crate) fn between(&self, from: usize, to: usize) -> String {
        self.chars[from..to].iter().collect()
    }
}

/// The text with each sign written one way; case is kept, since `h7` is not `H7`.
fn plain(text: &str) -> Vec<char> {
    let mut chars = Vec::with_capacity(text.len());
    for c in text.trim().chars() {
        match c {
            '\u{200b}'..='\u{200f}' | '\u{feff}' | '\u{ad}' | '\u{2060}' => {}
            '\u{a0}' | '\u{2007}' | '\u{2009}' | '\u{202f}' => chars.push(THIN_SPACE),
            '\u{2010}'..='\u{2015}' | '\u{2212}' | '\u{fe63}' => chars.push('-'),
            '\u{2033}' | '\u{201c}' | '\u{201d}' => chars.push('"'),
            '\u{2032}' | '\u{2018}' | '\u{2019}' => chars.push('\''),
            '\u{d7}' | '\u{2715}' | '\u{2a2f}' => chars.push('x'),
            '\u{f8}' | '\u{2300}' | '\u{2205}' | '\u{3a6}' | '\u{3c6}' => chars.push('\u{d8}'),
            '\u{ba}' | '\u{2da}' => chars.push('\u{b0}'),
            '\u{3bc}' => chars.push('\u{b5}'),
            '\u{2044}' | '\u{2215}' => chars.push('/'),
            '\u{22c5}' | '\u{2219}' => chars.push('\u{b7}'),
            '\u{2126}' | '\u{3a9}' => chars.extend("ohm".chars()),
            '\u{2026}' => chars.extend("..".chars()),
            // Full-width forms are ASCII moved up by a fixed distance.
            '\u{ff01}'..='\u{ff5e}' => {
                chars.extend(char::from_u32(u32::from(c) - 0xfee0));
            }
            c if c.is_whitespace() => chars.push(' '),
            c => match vulgar_fraction(c) {
                Some(fraction) => {
                    if chars.last().is_some_and(char::is_ascii_digit) {
                        chars.push(' ');
                    }
                    chars.extend(fraction.chars());
                }
                None => chars.push(c),
            },
        }
    }
    one_inch_sign(&mut chars);
    keep_grouping_only(&mut chars);
    chars
}

/// `''` typed for the inch sign.
fn one_inch_sign(chars: &mut Vec<char>) {
    let mut at = 0;
    while at + 1 < chars.len() {
        if chars[at] == '\'' && chars[at + 1] == '\'' {
            chars[at] = '"';
            chars.remove(at + 1);
        }
        at += 1;
    }
}

/// A thin space groups digits where exactly three follow; anywhere else it is a space. An apostrophe
/// there is read as one; anywhere else it stays.
fn keep_grouping_only(chars: &mut [char]) {
    for at in 0..chars.len() {
        if !matches!(chars[at], THIN_SPACE | '\'') {
            continue;
        }
        let digit = |at: usize| chars.get(at).is_some_and(char::is_ascii_digit);
        let groups = at > 0
            && digit(at - 1)
            && (1..=3).all(|ahead| digit(at + ahead))
            && !digit(at + 4)
            && chars.get(at + 4) != Some(&'/');
        match chars[at] {
            '\'' if groups => chars[at] = THIN_SPACE,
            THIN_SPACE if !groups => chars[at] = ' ',
            _ => {}
        }
    }
}

const fn vulgar_fraction(c: char) -> Option<&'static str> {
    Some(match c {
        '\u{bd}' => "1/2",
        '\u{bc}' => "1/4",
        '\u{be}' => "3/4",
        '\u{2153}' => "1/3",
        '\u{2154}' => "2/3",
        '\u{215b}' => "1/8",
        '\u{215c}' => "3/8",
        '\u{215d}' => "5/8",
        '\u{215e}' => "7/8",
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plainly(text: &str) -> String {
        plain(text).into_iter().collect()
    }

    #[test]
    fn one_sign_for_each_meaning() {
        for (typed, plain) in [
            ("\u{2300}0.8 \u{b1} 0.02", "\u{d8}0.8 \u{b1} 0.02"),
            ("\u{f8} 3", "\u{d8} 3"),
            ("1\u{bd}\u{2033}", "1 1/2\""),
            ("30\u{ba}15\u{2032}", "30\u{b0}15'"),
            ("0.78\u{2013}0.82", "0.78-0.82"),
            ("36\u{d7}", "36x"),
            ("\u{ff11}\u{ff0e}\u{ff15}", "1.5"),
            ("1''", "1\""),
            ("0.8\u{a0}mm", "0.8 mm"),
            ("1\u{2009}250.5", "1\u{2009}250.5"),
            ("1\u{202f}1/2", "1 1/2"),
            ("120 \u{b5}\u{3a9}\u{22c5}cm", "120 \u{b5}ohm\u{b7}cm"),
        ] {
            assert_eq!(plainly(typed), plain, "{typed}");
        }
    }
}
