//! A remark cut into its clauses, and each of these into words, numbers and signs.

use std::borrow::Cow;
use std::ops::Range;

use crate::cell_words::CellWord;
use crate::fold::Key;
use crate::note_words::{NoteWord, NoteWords};
use crate::signs::{Kind, Sign, signs};
use crate::trade_words::is_hole_word;

/// A word, number or sign of a remark.
pub(crate) struct Part<'a> {
    pub(crate) text: &'a str,
    pub(crate) at: Range<usize>,
    pub(crate) kind: Kind,
    key: Key,
    says: NoteWords,
    /// Where a hole ends, where it is a word for that.
    pub(crate) end: Option<CellWord>,
}

impl Part<'_> {
    /// The folded word; empty where it is none.
    pub(crate) const fn key(&self) -> &Key {
        &self.key
    }

    /// Whether it is a word that does this; a capital letter by itself is a mark and no such word.
    pub(crate) fn is(&self, said: NoteWord) -> bool {
        self.says.has(said) && self.is_word() && !self.is_capital()
    }

    /// Whether it is a capital letter by itself, as holes are marked.
    pub(crate) fn is_capital(&self) -> bool {
        let mut letters = self.text.chars();
        self.is_word() && letters.next().is_some_and(char::is_uppercase) && letters.next().is_none()
    }

    /// Whether it is a word.
    pub(crate) const fn is_word(&self) -> bool {
        matches!(self.kind, Kind::Word(_))
    }

    /// Whether it says no more than that a hole is spoken of.
    pub(crate) fn is_hole(&self) -> bool {
        self.is_word() && is_hole_word(&self.key)
    }

    /// Whether it is one of some signs.
    pub(crate) fn is_sign(&self, signs: &str) -> bool {
        matches!(self.kind, Kind::Other(sign) if signs.contains(sign))
    }

    /// Whether it says that the number before it is one of degrees.
    pub(crate) const fn is_degrees(&self) -> bool {
        matches!(
            self.kind,
            Kind::Degree | Kind::Word(Some(CellWord::Degrees))
        )
    }
}

/// A remark without accents and other signs that stand for themselves beside a letter, so that each
/// word is one.
pub(crate) fn without_loose_accents(remark: &str) -> Cow<'_, str> {
    let loose = |letter: char| matches!(letter, '\u{300}'..='\u{36f}' | '\u{200b}'..='\u{200f}' | '\u{ad}' | '\u{feff}');
    match remark.contains(loose) {
        true => remark.replace(loose, "").into(),
        false => remark.into(),
    }
}

/// A remark cut into its clauses.
pub(crate) struct Remark<'a> {
    pub(crate) text: &'a str,
    pub(crate) clauses: Vec<Vec<Part<'a>>>,
}

impl<'a> Remark<'a> {
    /// Cuts a text that has no loose accents.
    pub(crate) fn of(text: &'a str) -> Self {
        let clauses = clauses(text);
        Self { text, clauses }
    }

    /// All words, numbers and signs of its clauses.
    pub(crate) fn parts(&self) -> impl Iterator<Item = &Part<'a>> {
        self.clauses.iter().flatten()
    }

    /// Whether it asks, or leaves several things open.
    pub(crate) fn is_open(&self) -> bool {
        self.text.contains('?') || self.parts().any(|part| part.is(NoteWord::Or))
    }
}

/// The clauses of a remark: commas, points, brackets, strokes, line ends and words such as `and` part
/// them.
fn clauses(remark: &str) -> Vec<Vec<Part<'_>>> {
    let (mut clauses, mut clause) = (Vec::new(), Vec::new());
    let mut end = 0;
    for sign in signs(remark) {
        let between = |range: Range<usize>| remark.get(range).unwrap_or_default();
        let part = part(remark, sign);
        let dash = part.is_sign("-")
            && end < part.at.start
            && between(part.at.end..remark.len()).starts_with(char::is_whitespace);
        let parts = dash
            || part.is_sign(",;()[]/|&+!?\u{2013}\u{2014}\u{2022}\u{b7}")
            // The point of an abbreviation goes on in small letters or with a number: `ca. 30`.
            || part.is_sign(".") && begins_anew(between(part.at.end..remark.len()))
            || part.is(NoteWord::And);
        let breaks = between(end..part.at.start).contains(['\n', '\r']);
        end = part.at.end;
        if parts || breaks {
            clauses.push(std::mem::take(&mut clause));
        }
        if !parts {
            clause.push(part);
        }
    }
    clauses.push(clause);
    clauses.retain(|clause| !clause.is_empty());
    clauses
}

/// Whether a point before this text ends a sentence.
fn begins_anew(after: &str) -> bool {
    let next = after.trim_start().chars().next();
    next.is_none_or(|next| next.is_uppercase() || !next.is_alphanumeric())
}

fn part(remark: &str, sign: Sign) -> Part<'_> {
    let Sign { kind, at, key } = sign;
    let says = NoteWords::of(&key);
    let end = match kind {
        Kind::Word(Some(said @ (CellWord::Through | CellWord::Blind | CellWord::Into))) => {
            (!says.has(NoteWord::NoEnd)).then_some(said)
        }
        _ => None,
    };
    Part {
        text: remark.get(at.clone()).unwrap_or_default(),
        at,
        kind,
        key,
        says,
        end,
    }
}
