//! What the values of a column look like, whatever its head says.

use quillbore_calc::standards::fits;
use quillbore_job::{Unit, read_quantity as read};

use crate::callout;
use crate::cell_words::{CellWord, cell_word, in_english, with_signs};
use crate::fold::{Key, tokens};
use crate::of_unit::is_in_both;
use crate::trade_words::is_hole_word;
use quillbore_job::Column;

/// Values of a column that are looked at: more say no more.
pub(crate) const LOOKED_AT: usize = 200;

/// What one value looks like.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Kind {
    /// `4x`, `4 places`.
    Times,
    /// `2x18`: what it is its head says.
    Product,
    /// A whole number.
    Whole,
    /// A number with a decimal part, or with a unit.
    Number,
    /// A number with a sign before it.
    Signed,
    /// A size with a diameter sign or limits: `⌀0.80`, `0.8 +-0.05`, `0.78-0.82`.
    Size,
    /// A number with limits and no diameter sign: a size, or a depth where a head says so.
    Limited,
    /// A callout of more than a size: `4x ⌀0.80 THRU`.
    Callout,
    /// A depth that says so: `↧14`, `14 THRU`, `14 deep`.
    Depth,
    /// A word for where the hole ends.
    End,
    /// An angle with its sign.
    Angle,
    /// A tolerance alone: `±0.02`, `+0.05/-0.02`.
    Tolerance,
    /// A class of fit that is a mark as well: `H7`.
    FitOrMark,
    /// A short mark: `A`, `H12`, `B-3`, `hole 4`.
    Mark,
    /// A number with `#` before it: a drill, or a mark.
    Numbered,
    /// Words.
    Text,
    /// Anything else.
    Other,
}

/// What the values of a column look like, counted, and their numbers by line.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Look {
    counts: [usize; KINDS],
    /// How many were looked at.
    pub(crate) filled: usize,
    /// No two are the same.
    pub(crate) distinct: bool,
    /// Whole numbers, or numbers with `#`, that rise by one from one on.
    pub(crate) rising: bool,
    /// Some number has a decimal part.
    pub(crate) decimals: bool,
    /// The number in each line that was looked at.
    pub(crate) numbers: Vec<(usize, f64)>,
}

const KINDS: usize = 16;

impl Look {
    /// Looks at the values of a column, each with the line that it stands in.
    pub(crate) fn of<'a>(values: impl Iterator<Item = (usize, &'a str)>) -> Self {
        let mut look = Self::default();
        let mut seen = std::collections::BTreeSet::new();
        let mut next = 1.0;
        (look.distinct, look.rising) = (true, true);
        for (line, value) in values.take(LOOKED_AT) {
            let kind = kind(value);
            let number = number_in(value);
            look.filled += 1;
            if let Some(count) = look.counts.get_mut(kind as usize) {
                *count += 1;
            }
            look.distinct &= seen.insert(value.to_lowercase());
            look.rising &= matches!(kind, Kind::Whole | Kind::Numbered) && number == Some(next);
            next += 1.0;
            look.decimals |= kind == Kind::Number && value.contains(['.', ',', '/']);
            look.numbers.extend(number.map(|number| (line, number)));
        }
        look
    }

    /// How many values are of some kinds.
    pub(crate) fn count(&self, kinds: &[Kind]) -> usize {
        let counts = kinds
            .iter()
            .filter_map(|kind| self.counts.get(*kind as usize));
        counts.sum()
    }

    /// Whether there are values, and nine in ten are of these kinds.
    pub(crate) fn is(&self, kinds: &[Kind]) -> bool {
        self.filled > 0 && self.count(kinds) * 10 >= self.filled * 9
    }

    /// Whether nine in ten are of some kinds, and half at least of those that only one thing has.
    pub(crate) fn is_surely(&self, sure: &[Kind], or: &[Kind]) -> bool {
        let (sure, or) = (self.count(sure), self.count(or));
        sure > 0 && sure * 2 >= self.filled && (sure + or) * 10 >= self.filled * 9
    }

    /// Whether its number is greater than another column's by a factor, in nine in ten of the lines
    /// that have both; no where none has.
    pub(crate) fn exceeds(&self, other: &Self, factor: f64) -> bool {
        let (mut both, mut greater) = (0_usize, 0_usize);
        for (line, number) in &self.numbers {
            let at = other.numbers.binary_search_by_key(line, |(line, _)| *line);
            if let Some((_, smaller)) = at.ok().and_then(|at| other.numbers.get(at)) {
                both += 1;
                greater += usize::from(number.abs() > smaller.abs() * factor);
            }
        }
        both > 0 && greater * 10 >= both * 9
    }

    /// Whether all its numbers have one sign or are nothing: 1 not below, -1 not above.
    pub(crate) fn has_sign(&self, sign: f64) -> bool {
        !self.numbers.is_empty() && self.numbers.iter().all(|(_, number)| number * sign >= 0.0)
    }
}

/// What one value looks like.
pub(crate) fn kind(value: &str) -> Kind {
    let value = &*with_signs(value.trim());
    if value.chars().count() > 100 {
        return Kind::Text;
    }
    bare(value)
        .or_else(|| by_its_words(value))
        .or_else(|| as_size(value))
        .unwrap_or_else(|| as_text(value))
}

/// Numbers with nothing but a sign, and tolerances.
fn bare(value: &str) -> Option<Kind> {
    const PLUS_MINUS: [&str; 4] = ["\u{b1}", "+-", "+/-", "+\u{2212}"];
    let plain = |letter: char| letter.is_ascii_digit() || ".,/ ".contains(letter);
    let sign = |letter: char| matches!(letter, '+' | '-' | '\u{2212}' | '\u{2013}');
    let begins = value.chars().next()?;
    if PLUS_MINUS.iter().any(|signs| value.starts_with(signs)) {
        return Some(Kind::Tolerance);
    }
    if value.chars().all(|letter| letter.is_ascii_digit()) {
        return Some(Kind::Whole);
    }
    let limits = value.contains('/') && value.contains(['.', ',']);
    if value.chars().all(plain) && !limits {
        return number_in(value).map(|_| Kind::Number);
    }
    // `0/-0.02`, and not `0.8 mm`.
    let after: String = value.chars().skip(1).collect();
    if sign(begins) || (begins == '0' && after.contains(sign)) {
        if sign(begins) && after.trim().chars().all(plain) && number_in(&after).is_some() {
            return Some(Kind::Signed);
        }
        if read::tolerance(value, Unit::Mm).is_ok() {
            return Some(Kind::Tolerance);
        }
    }
    let numbered = value.strip_prefix('#').map(str::trim);
    let digits = |rest: &str| !rest.is_empty() && rest.chars().all(|l| l.is_ascii_digit());
    numbered.is_some_and(digits).then_some(Kind::Numbered)
}

/// Values whose words or signs tell: counts, angles, ends, depths.
fn by_its_words(value: &str) -> Option<Kind> {
    if read::holes(value).is_ok() {
        let kind = if is_product(value) {
            Kind::Product
        } else {
            Kind::Times
        };
        return Some(kind);
    }
    if is_count_of(value) {
        return Some(Kind::Times);
    }
    let angle =
        value.contains(['\u{b0}', '\u{ba}']) || says(value, CellWord::Degrees, Column::Angle);
    if angle && is_read(Column::Angle, value) {
        return Some(Kind::Angle);
    }
    let ends = says(value, CellWord::Through, Column::End)
        || says(value, CellWord::Blind, Column::End)
        || says(value, CellWord::Into, Column::End);
    if ends && is_read(Column::End, value) {
        return Some(Kind::End);
    }
    let deep = value.contains('\u{21a7}') || says(value, CellWord::Deep, Column::Depth);
    let through = ends && value.contains(|letter: char| letter.is_ascii_digit());
    let numbers = value
        .split_whitespace()
        .filter(|part| number_in(part).is_some());
    let one_alone = through && numbers.count() == 1;
    if (deep || through) && (is_read(Column::Depth, value) || one_alone) {
        let of_size = is_a_size_sign(value) || value.contains('#');
        return (!of_size).then_some(Kind::Depth);
    }
    // A length with its unit.
    (number_in(value).is_some() && read::length_or_zero(value, Unit::Mm).is_ok())
        .then_some(Kind::Number)
}

/// `2x18`: a count where the head says so, but under another head it may as well be something else.
fn is_product(value: &str) -> bool {
    let mut factors = value.split(['x', 'X', '*', '\u{d7}']).skip(1);
    factors.any(|factor| {
        factor
            .trim_start()
            .starts_with(|sign: char| sign.is_ascii_digit())
    })
}

/// `4 Stk`, `4 trous`; a number behind the word is a mark.
fn is_count_of(value: &str) -> bool {
    if !value.starts_with(|letter: char| letter.is_ascii_digit()) {
        return false;
    }
    let english = in_english(value, Column::Count);
    english.is_some_and(|(english, _)| read::holes(&english).is_ok())
}

/// Whether a value has a word that says this.
fn says(value: &str, said: CellWord, column: Column) -> bool {
    let mut words = value.split(|letter: char| !letter.is_alphabetic());
    words.any(|word| !word.is_empty() && cell_word(word, column) == Some(said))
}

fn is_read(column: Column, value: &str) -> bool {
    callout::as_read(column, value, Unit::Inch).is_some()
}

fn is_a_size_sign(value: &str) -> bool {
    value.contains([
        '\u{d8}', '\u{f8}', '\u{2300}', '\u{2205}', '\u{3a6}', '\u{3c6}',
    ])
}

/// Sizes that say so, and callouts of more.
fn as_size(value: &str) -> Option<Kind> {
    let digits = value.contains(|letter: char| letter.is_ascii_digit());
    if !digits {
        return None;
    }
    let begins = value.starts_with(|letter: char| letter.is_ascii_digit() || letter == '.');
    // `12.7 [.500]` may be a depth as well.
    if begins && value.contains(['[', '(', '/']) && is_in_both(value) {
        return Some(Kind::Number);
    }
    // A fit has its limits in millimeters alone.
    let is_callout = |unit| callout::split(value, unit).is_some();
    if is_callout(Unit::Inch) || is_callout(Unit::Mm) {
        return Some(Kind::Callout);
    }
    let is_diameter = is_a_size_sign(value) || says(value, CellWord::Diameter, Column::Size);
    let signed =
        is_diameter || says(value, CellWord::Most, Column::Size) || value.contains(['\u{b1}', '+']);
    let limits = begins && value.contains(['.', ',']) && !value.ends_with(['.', ',']);
    let fit = begins && value.contains(' ') && read::size(value, Unit::Mm).is_ok();
    let read = is_read(Column::Size, value) || read::size(value, Unit::Mm).is_ok();
    // `0.8 H7`, and not `0.8 +-0.05`.
    let fit_or_diameter =
        is_diameter || (fit && !signed && value.contains(|letter: char| letter.is_alphabetic()));
    let kind = if fit_or_diameter {
        Kind::Size
    } else {
        Kind::Limited
    };
    (read && (signed || limits || fit)).then_some(kind)
}

fn as_text(value: &str) -> Kind {
    let words: Vec<&str> = value.split_whitespace().collect();
    let letters = |word: &&&str| word.chars().filter(|letter| letter.is_alphabetic()).count() >= 2;
    if words.iter().filter(letters).count() >= 2 && !is_hole_and_mark(&words) {
        return Kind::Text;
    }
    match words.as_slice() {
        [one] if is_fit(one) => Kind::FitOrMark,
        [one] if is_mark(one) => Kind::Mark,
        [_, mark] if is_hole_and_mark(&words) && is_mark_or_number(mark) => Kind::Mark,
        _ => Kind::Other,
    }
}

/// `Hole A`, `Bohrung 3`.
pub(crate) fn is_hole_and_mark(words: &[&str]) -> bool {
    matches!(words, [hole, mark]
        if is_hole_word(&Key::of(&tokens(hole))) && is_mark_or_number(mark))
}

fn is_mark_or_number(word: &str) -> bool {
    is_mark(word) || word.chars().all(|letter| letter.is_ascii_digit())
}

fn is_fit(word: &str) -> bool {
    let mm = quillbore_calc::Length::from_mm(1.0);
    mm.is_some_and(|mm| fits::deviations_um(mm, word).is_some())
}

/// One or two letters, alone or with a few digits; digits with a letter.
fn is_mark(word: &str) -> bool {
    let (mut letters, mut digits) = (0_usize, 0_usize);
    for letter in word.chars() {
        match letter {
            letter if letter.is_ascii_digit() => digits += 1,
            letter if letter.is_alphabetic() => letters += 1,
            '-' | '_' | '.' | '\'' => {}
            _ => return false,
        }
    }
    (1..=2).contains(&letters) && digits <= 4
}

/// The number that a value begins with, behind signs of diameter, count or depth.
pub(crate) fn number_in(value: &str) -> Option<f64> {
    let signs = |letter: char| letter.is_whitespace() || is_a_size_sign_letter(letter);
    let value = value.trim_start_matches(|letter| signs(letter) || "#\u{21a7}(".contains(letter));
    let (negative, digits) = match value.chars().next()? {
        '+' => (false, value.get(1..)?),
        sign @ ('-' | '\u{2212}' | '\u{2013}') => (true, value.get(sign.len_utf8()..)?),
        _ => (false, value),
    };
    let digits = digits.trim_start();
    let ends = digits.find(|letter: char| !letter.is_ascii_digit() && !".,/".contains(letter));
    let digits = digits
        .get(..ends.unwrap_or(digits.len()))?
        .trim_end_matches(['.', ',', '/']);
    let number = match digits.split_once('/') {
        Some((above, below)) if !digits.contains(['.', ',']) => {
            above.parse::<f64>().ok()? / below.parse::<f64>().ok()?
        }
        // Of two limits the first.
        Some((first, _)) => first.replace(',', ".").parse().ok()?,
        None => digits.replace(',', ".").parse().ok()?,
    };
    number
        .is_finite()
        .then_some(if negative { -number } else { number })
}

fn is_a_size_sign_letter(letter: char) -> bool {
    is_a_size_sign(letter.encode_utf8(&mut [0; 4]))
}

#[cfg(test)]
mod tests {
    use super::{Kind, Look, kind, number_in};

    #[test]
    fn what_values_look_like() {
        for (looks, values) in [
            (
                Kind::Times,
                &[
                    "4x",
                    "4X",
                    "4 \u{d7}",
                    "36 places",
                    "(4)",
                    "4 Stk",
                    "4 trous",
                ][..],
            ),
            (Kind::Whole, &["4", "118", "0"]),
            (
                Kind::Number,
                &[
                    "0.80", "0,8", ".0315", "1/32", "14.5", "1/32\"", "14 mm", "0.8 mm",
                ][..],
            ),
            (Kind::Signed, &["-3.5", "+12", "\u{2212}0,25", "- 4"]),
            (
                Kind::Size,
                &["\u{2300}0.80 \u{b1}0.02", "\u{d8}3", "0.8 H7"],
            ),
            (
                Kind::Limited,
                &[
                    "0.8 +-0.05",
                    "0.78-0.82",
                    "0.82 MAX",
                    "0.78/0.82",
                    ".031 +.003/-0",
                ],
            ),
            (
                Kind::Callout,
                &[
                    "4x \u{2300}0.80 \u{b1}0.02 THRU",
                    "4X .0315 THRU",
                    "\u{d8}0.8 14 deep",
                ],
            ),
            (
                Kind::Depth,
                &["\u{21a7}14", "14 THRU", "14 deep", "14 tief", "12 blind"],
            ),
            (
                Kind::End,
                &[
                    "THRU",
                    "through",
                    "Blind",
                    "durch",
                    "débouchant",
                    "Sackloch",
                    "DG",
                ],
            ),
            (
                Kind::Angle,
                &["60\u{b0}", "30 deg", "45 Grad", "22.5\u{b0}"],
            ),
            (
                Kind::Tolerance,
                &[
                    "\u{b1}0.02",
                    "+-.001",
                    "+0.05/-0.02",
                    "+0,05 -0,02",
                    "0/-0.02",
                ],
            ),
            (Kind::FitOrMark, &["H7", "H12"]),
            (
                Kind::Mark,
                &[
                    "A",
                    "B2",
                    "A-1",
                    "P3.1",
                    "1a",
                    "Hole A",
                    "Bohrung 3",
                    "Trou 2",
                ],
            ),
            (Kind::Numbered, &["#60", "# 1"]),
            (
                Kind::Text,
                &[
                    "see view C",
                    "gratfrei, innen poliert",
                    "no break at the exit",
                ],
            ),
            (Kind::Other, &["finish", "four", "Ra 1.6", "\""]),
        ] {
            for value in values {
                assert_eq!(kind(value), looks, "{value}");
            }
        }
    }

    #[test]
    fn numbers_of_values() {
        for (value, number) in [
            ("\u{d8}0,80 \u{b1}0,02", Some(0.8)),
            ("-3.5", Some(-3.5)),
            ("0.78/0.82", Some(0.78)),
            ("1/32\"", Some(0.03125)),
            ("\u{21a7}14", Some(14.0)),
            ("4x", Some(4.0)),
            ("A", None),
            ("1/0", None),
            ("1.2.3", None),
            ("", None),
        ] {
            assert_eq!(number_in(value), number, "{value}");
        }
    }

    #[test]
    fn a_look_at_columns() {
        let look = |values: &[&'static str]| Look::of(values.iter().copied().enumerate());
        assert!(look(&["1", "2", "3"]).rising && !look(&["1", "3"]).rising);
        assert!(look(&["#1", "#2"]).rising);
        assert!(!look(&["A", "A"]).distinct);
        let (sizes, depths) = (look(&["0.8", "1.2", ""]), look(&["14", "10", "2"]));
        assert!(depths.exceeds(&sizes, 1.0) && !sizes.exceeds(&depths, 1.0));
        assert!(!look(&["A"]).exceeds(&sizes, 1.0));
        assert!(look(&["+0.05", "0"]).has_sign(1.0) && look(&["-0.02", "0"]).has_sign(-1.0));
    }
}
