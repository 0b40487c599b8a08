//! The numbers, words and single signs of a cell, and a count of holes among them.

use std::ops::Range;

use quillbore_job::Column;

use crate::cell_words::{CellWord, cell_word_of};
use crate::fold::Key;

/// A sign of a callout: a number, a word or a single character, and where it stands.
#[derive(Clone, Debug)]
pub(crate) struct Sign {
    pub(crate) kind: Kind,
    pub(crate) at: Range<usize>,
    /// The folded word; empty where it is none.
    pub(crate) key: Key,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    Whole,
    Decimal,
    Word(Option<CellWord>),
    /// An `x` by itself.
    Times,
    Diameter,
    DepthSign,
    Degree,
    Other(char),
}

impl Kind {
    pub(crate) const fn is_number(self) -> bool {
        matches!(self, Self::Whole | Self::Decimal)
    }
}

/// The signs of a text, in its order.
pub(crate) fn signs(text: &str) -> Vec<Sign> {
    let mut signs = Vec::new();
    let mut at = 0;
    while let Some(letter) = text.get(at..).and_then(|rest| rest.chars().next()) {
        let rest = text.get(at..).unwrap_or_default();
        let mut key = Key::default();
        let (kind, length) = match letter {
            letter if letter.is_ascii_digit() || begins_decimal(rest) => number(rest),
            letter if letter.is_alphabetic() && !is_diameter(letter) => word(rest, &mut key),
            '\u{d7}' => (Kind::Times, letter.len_utf8()),
            '\u{21a7}' => (Kind::DepthSign, letter.len_utf8()),
            '\u{b0}' | '\u{ba}' => (Kind::Degree, letter.len_utf8()),
            letter if is_diameter(letter) => (Kind::Diameter, letter.len_utf8()),
            letter => (Kind::Other(letter), letter.len_utf8()),
        };
        if !letter.is_whitespace() {
            let at = at..at + length;
            signs.push(Sign { kind, at, key });
        }
        at += length;
    }
    signs
}

fn begins_decimal(rest: &str) -> bool {
    let digit = |rest: &str| rest.starts_with(|letter: char| letter.is_ascii_digit());
    rest.strip_prefix(['.', ',']).is_some_and(digit)
}

fn is_diameter(letter: char) -> bool {
    matches!(
        letter,
        '\u{d8}' | '\u{f8}' | '\u{2300}' | '\u{2205}' | '\u{3a6}' | '\u{3c6}'
    )
}

fn number(rest: &str) -> (Kind, usize) {
    let bytes = rest.as_bytes();
    let digit = |at: usize| bytes.get(at).is_some_and(u8::is_ascii_digit);
    let (mut end, mut kind) = (0, Kind::Whole);
    loop {
        match bytes.get(end) {
            Some(byte) if byte.is_ascii_digit() => end += 1,
            Some(b'.' | b',') if digit(end + 1) => {
                kind = Kind::Decimal;
                end += 1;
            }
            // A fraction: both sides are whole.
            Some(b'/') if kind == Kind::Whole && end > 0 && digit(end + 1) => {
                kind = Kind::Decimal;
                end += 1;
            }
            _ => return (kind, end),
        }
    }
}

fn word(rest: &str, key: &mut Key) -> (Kind, usize) {
    let ends = rest.find(|letter: char| !letter.is_alphabetic() || is_diameter(letter));
    let word = rest.get(..ends.unwrap_or(rest.len())).unwrap_or_default();
    if word.eq_ignore_ascii_case("x") {
        return (Kind::Times, word.len());
    }
    *key = Key::of_text(word);
    let said = cell_word_of(key, Column::Size);
    let point = rest
        .get(word.len()..)
        .is_some_and(|rest| rest.starts_with('.') && said.is_some() && !begins_decimal(rest));
    (Kind::Word(said), word.len() + usize::from(point))
}

/// `4x`, `(4)`, `4 holes` or `4-` before a diameter sign, at the beginning; the range is left without.
pub(crate) fn count_before(signs: &[Sign], rest: &mut Range<usize>) -> Option<Range<usize>> {
    let kind = |at: usize| signs.get(at).map(|sign| sign.kind);
    let ends = match (kind(0)?, kind(1)?, kind(2)) {
        (Kind::Whole, Kind::Times, Some(next)) => {
            // `2x18` may be a size with its depth as well.
            let says_size = next == Kind::Decimal || starts_size(next) || is_spoken(signs, 3);
            says_size.then_some(2)?
        }
        (Kind::Whole, Kind::Word(Some(CellWord::Holes | CellWord::Hole)), Some(_)) => 2,
        (Kind::Whole, Kind::Other('-'), Some(Kind::Diameter)) => 2,
        (Kind::Other('('), Kind::Whole, Some(Kind::Other(')'))) => 3,
        (Kind::Other('('), Kind::Whole, Some(Kind::Times)) if kind(3) == Some(Kind::Other(')')) => {
            4
        }
        _ => return None,
    };
    let is_dash = kind(1) == Some(Kind::Other('-'));
    let last = if is_dash { 0 } else { ends - 1 };
    rest.start = ends;
    Some(signs.first()?.at.start..signs.get(last)?.at.end)
}

/// What can stand before a size and nowhere else.
const fn starts_size(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Diameter | Kind::Other('#') | Kind::Word(Some(CellWord::Diameter | CellWord::Hole))
    )
}

/// Whether words or signs from here on say that a size stands before them.
fn is_spoken(signs: &[Sign], from: usize) -> bool {
    let mut rest = signs.iter().skip(from);
    rest.any(|sign| {
        let says = |said| {
            matches!(
                said,
                CellWord::Through | CellWord::Blind | CellWord::Deep | CellWord::Diameter
            )
        };
        match sign.kind {
            Kind::DepthSign | Kind::Diameter | Kind::Other('\u{b1}' | '+') => true,
            Kind::Word(said) => said.is_some_and(says),
            _ => false,
        }
    })
}

/// `(4x)`, `4x`, `4 PL` or `(4) PLACES` at the end; the range is left without.
pub(crate) fn count_behind(signs: &[Sign], rest: &mut Range<usize>) -> Option<Range<usize>> {
    let behind = |back: usize| signs.len().checked_sub(back).and_then(|at| signs.get(at));
    let kind = |back: usize| behind(back).map(|sign| sign.kind);
    let is_word = |kind| matches!(kind, Kind::Word(Some(CellWord::Holes | CellWord::Hole)));
    let bracketed = |back: usize| {
        kind(back) == Some(Kind::Other(')'))
            && kind(back + 1) == Some(Kind::Whole)
            && kind(back + 2) == Some(Kind::Other('('))
    };
    let length = match (kind(1)?, kind(2)?) {
        (Kind::Times, Kind::Whole) => 2,
        (last, Kind::Whole) if is_word(last) => 2,
        (last, _) if is_word(last) && bracketed(2) => 4,
        (Kind::Other(')'), Kind::Times)
            if kind(3) == Some(Kind::Whole) && kind(4) == Some(Kind::Other('(')) =>
        {
            4
        }
        (Kind::Other(')'), last)
            if is_word(last)
                && kind(3) == Some(Kind::Whole)
                && kind(4) == Some(Kind::Other('(')) =>
        {
            4
        }
        (Kind::Other(')'), _) if bracketed(1) => 3,
        _ => return None,
    };
    let first = signs.len() - length;
    (first > rest.start).then(|| rest.end = first)?;
    Some(signs.get(first)?.at.start..signs.last()?.at.end)
}
