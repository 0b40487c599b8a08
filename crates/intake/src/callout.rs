//! A drawing's callout in one cell, taken apart: `4x ⌀0.80 ±0.02 ↧14`.
//!
//! Forms as ASME Y14.5 and ISO 129-1 have them (number of times, diameter, tolerance, depth sign,
//! THRU), from memory, and as shops and drawing programs write them (`%%c` for a diameter sign); common
//! practice, no source.

use std::ops::Range;

use quillbore_job::field::AngleBasis;
use quillbore_job::{Column, Unit, read_quantity as read};

use crate::brackets::{is_torn, once_each};
use crate::cell_words::{CellWord, TakenWord, in_english, with_signs};
use crate::set_apart::set_apart;
use crate::signs::{Kind, Sign, count_before, count_behind, signs};

/// The parts of a callout, each as it stands, but for words of other languages.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Callout {
    /// What goes into which cell, the size first.
    pub(crate) parts: Vec<(Column, String)>,
    /// Words that were taken as English ones.
    pub(crate) words: Vec<TakenWord>,
    /// It has a depth with its sign or `DEEP`, and nothing says where the hole ends: on a drawing a
    /// through hole says THRU, and this one is blind (ASME Y14.5, from memory).
    pub(crate) is_deep: bool,
}

/// Takes a callout apart; `None` where it says nothing beside a size, or a part of it can't be read.
pub(crate) fn split(text: &str, unit: Unit) -> Option<Callout> {
    let speaks = |letter: char| letter.is_alphabetic() || "(\u{d7}\u{21a7}\u{b0}-".contains(letter);
    // Most sizes have no more than digits and signs.
    if text.len() > LONGEST || !text.contains(speaks) {
        return None;
    }
    let text = &once_each(&set_apart(&with_signs(text)));
    if let Some(broken) = broken(text, unit) {
        return Some(broken);
    }
    let signs = signs(text);
    let mut rest = 0..signs.len();
    let count = count_before(&signs, &mut rest).or_else(|| count_behind(&signs, &mut rest));
    let reading = Reading {
        text,
        unit,
        signs: &signs,
    };
    let mut parts = reading.hole(rest)?;
    if let Some(count) = count {
        parts.push((Column::Count, text.get(count)?.trim()));
    }
    if parts.len() < 2 {
        return None;
    }
    let has = |column: Column| parts.iter().any(|(of, _)| *of == column);
    let deep = |sign: &Sign| {
        matches!(
            sign.kind,
            Kind::DepthSign | Kind::Word(Some(CellWord::Deep))
        )
    };
    let mut callout = Callout {
        is_deep: has(Column::Depth) && !has(Column::End) && signs.iter().any(deep),
        ..Callout::default()
    };
    for (column, part) in parts {
        if is_torn(part) {
            return None;
        }
        let (part, words) = as_read(column, part, unit)?;
        callout.parts.push((column, part));
        callout.words.extend(words);
    }
    Some(callout)
}

/// `M6 tap broken 12 deep`: what broke, and how deep its hole is.
fn broken(text: &str, unit: Unit) -> Option<Callout> {
    let words = text.split_whitespace();
    let word = words
        .into_iter()
        .find(|word| word.eq_ignore_ascii_case("broken"))?;
    let (what, rest) = text.split_once(word)?;
    let rest = rest.trim_start();
    // `BROKEN OFF`.
    let off = rest.get(..3).filter(|off| off.eq_ignore_ascii_case("off"));
    let rest = rest.get(off.map_or(0, str::len)..).unwrap_or_default();
    let depth = rest.trim_matches(|letter: char| letter.is_whitespace() || ",;-".contains(letter));
    let mut callout = Callout::default();
    for (column, part) in [(Column::Broken, what.trim()), (Column::Depth, depth)] {
        if column == Column::Depth && part.is_empty() {
            continue;
        }
        let (part, words) = as_read(column, part, unit)?;
        callout.parts.push((column, part));
        callout.words.extend(words);
    }
    Some(callout)
}

/// Longest text that is taken for a callout, in bytes.
const LONGEST: usize = 200;

/// A part as the hole table reads it, if it does, in English words where it needs them.
pub(crate) fn as_read(column: Column, part: &str, unit: Unit) -> Option<(String, Vec<TakenWord>)> {
    if is_read(column, part, unit) {
        return Some((part.to_owned(), Vec::new()));
    }
    let (english, words) = in_english(part, column)?;
    is_read(column, &english, unit).then_some((english, words))
}

fn is_read(column: Column, part: &str, unit: Unit) -> bool {
    match column {
        Column::Count => read::holes(part).is_ok(),
        Column::Size => read::size(part, unit).is_ok(),
        Column::Depth => read::depth(part, unit).is_ok(),
        Column::End => read::hole_end(part).is_ok(),
        Column::Angle => read::tilt(part, AngleBasis::default()).is_ok(),
        Column::Broken => read::broken(part, unit).is_ok(),
        _ => false,
    }
}

struct Reading<'a> {
    text: &'a str,
    unit: Unit,
    signs: &'a [Sign],
}

impl<'a> Reading<'a> {
    /// Size, depth, end and angle of the signs in a range; the size stands first.
    fn hole(&self, range: Range<usize>) -> Option<Vec<(Column, &'a str)>> {
        let first_number = range.clone().find(|at| self.is_number(*at))?;
        let ends = (first_number + 1..range.end).find(|at| self.ends_size(*at, range.end));
        let Some(ends) = ends else {
            return Some(vec![(Column::Size, self.cut(range))]);
        };
        let whole_alone =
            range.start == first_number && self.kind(first_number) == Some(Kind::Whole);
        if whole_alone && self.kind(ends) == Some(Kind::Times) {
            // `2x18`: two of a size, or a size and its depth.
            return None;
        }
        let (size, before) = self.size(range.start..ends, self.kind(ends));
        let mut parts = vec![(Column::Size, self.cut(size))];
        let mut depth: Option<Range<usize>> = before;
        let mut at = ends;
        while at < range.end {
            match self.kind(at)? {
                Kind::Word(Some(CellWord::Through | CellWord::Blind)) => {
                    parts.push((Column::End, self.cut(at..at + 1)));
                    at += 1;
                }
                Kind::Word(None) if self.is_of_all(at) => at += 1,
                Kind::Word(Some(CellWord::Hole))
                | Kind::Other(',' | ';' | '-' | '/' | '|' | '@') => {
                    at += 1;
                }
                _ => {
                    let to = (at + 1..range.end).find(|next| self.ends_depth(*next));
                    let part = at..to.unwrap_or(range.end);
                    if part.clone().any(|at| self.kind(at) == Some(Kind::Degree)) {
                        parts.push((Column::Angle, self.cut(part.clone())));
                    } else if part.clone().any(|at| self.is_number(at)) && depth.is_none() {
                        depth = Some(self.without_times(part.clone()));
                    } else if !self.is_said_before(part.clone(), depth.as_ref()) {
                        return None;
                    }
                    at = part.end;
                }
            }
        }
        if let Some(depth) = depth {
            parts.push((Column::Depth, self.cut(depth)));
        }
        Some(parts)
    }

    /// Words that say the same of all holes: `THRU ALL`, `EQ SP`, `EQUALLY SPACED`.
    fn is_of_all(&self, at: usize) -> bool {
        const WORDS: [&str; 7] = ["all", "eq", "equal", "equally", "sp", "spaced", "spacing"];
        let word = self.cut(at..at + 1);
        WORDS.iter().any(|of_all| word.eq_ignore_ascii_case(of_all))
    }

    /// Whether what follows belongs to the size no more.
    fn ends_size(&self, at: usize, end: usize) -> bool {
        match self.kind(at) {
            Some(Kind::DepthSign) => true,
            Some(Kind::Times) => at + 1 < end,
            Some(Kind::Word(said)) => matches!(
                said,
                Some(CellWord::Through | CellWord::Blind | CellWord::Deep | CellWord::Hole)
            ),
            // A number with a degree sign behind it.
            Some(_) if self.is_number(at) => self.kind(at + 1) == Some(Kind::Degree),
            Some(Kind::Other('@')) => true,
            _ => false,
        }
    }

    fn ends_depth(&self, at: usize) -> bool {
        match self.kind(at) {
            Some(Kind::Word(said)) => {
                matches!(
                    said,
                    Some(CellWord::Through | CellWord::Blind | CellWord::Hole)
                )
            }
            Some(Kind::Other('@' | ';' | '|')) => true,
            Some(_) if self.is_number(at) => self.kind(at + 1) == Some(Kind::Degree),
            _ => false,
        }
    }

    /// The size in a range, and the depth that stands behind it there: `.031 .55` before `DEEP`.
    fn size(
        &self,
        range: Range<usize>,
        ends: Option<Kind>,
    ) -> (Range<usize>, Option<Range<usize>>) {
        let range = self.trimmed(range);
        let reads = |range: Range<usize>| self.is_size(self.cut(range));
        if reads(range.clone()) || !matches!(ends, Some(Kind::Word(_))) {
            return (range, None);
        }
        let last = range.clone().rev().find(|at| self.is_number(*at));
        let split = last.map(|last| (self.trimmed(range.start..last), last..range.end));
        match split {
            Some((size, depth))
                if size.clone().any(|at| self.is_number(at)) && reads(size.clone()) =>
            {
                (size, Some(depth))
            }
            _ => (range, None),
        }
    }

    fn is_size(&self, text: &str) -> bool {
        as_read(Column::Size, text, self.unit).is_some()
    }

    /// A range without separators at its end.
    fn trimmed(&self, range: Range<usize>) -> Range<usize> {
        let parts = |at: &usize| {
            matches!(
                self.kind(*at),
                Some(Kind::Other(',' | ';' | '-' | '/' | '|'))
            )
        };
        let ends = range.clone().rev().find(|at| !parts(at));
        range.start..ends.map_or(range.start, |at| at + 1)
    }

    /// `x 14` without its sign, and without separators at its end.
    fn without_times(&self, range: Range<usize>) -> Range<usize> {
        let times = self.kind(range.start) == Some(Kind::Times);
        self.trimmed(range.start + usize::from(times)..range.end)
    }

    /// A word such as `DEEP` behind a depth that was read already.
    fn is_said_before(&self, mut part: Range<usize>, depth: Option<&Range<usize>>) -> bool {
        depth.is_some()
            && part.all(|at| matches!(self.kind(at), Some(Kind::Word(Some(CellWord::Deep)))))
    }

    fn kind(&self, at: usize) -> Option<Kind> {
        self.signs.get(at).map(|sign| sign.kind)
    }

    fn is_number(&self, at: usize) -> bool {
        self.kind(at).is_some_and(Kind::is_number)
    }

    /// What stands in a range of signs.
    fn cut(&self, range: Range<usize>) -> &'a str {
        let signs = self.signs.get(range).unwrap_or_default();
        let (first, last) = (signs.first(), signs.last());
        let at = first
            .zip(last)
            .map(|(first, last)| first.at.start..last.at.end);
        at.and_then(|at| self.text.get(at)).unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use quillbore_job::{Column, Unit};

    use super::split;

    fn parts(text: &str, unit: Unit) -> Option<Vec<(Column, String)>> {
        let mut parts = split(text, unit)?.parts;
        parts.sort();
        Some(parts)
    }

    /// Forms of ASME Y14.5 and ISO 129-1 from memory, and of the shop; common practice, no source.
    #[test]
    fn callouts_taken_apart() {
        use Column::{Angle, Broken, Count, Depth, End, Size};
        type Parts = &'static [(Column, &'static str)];
        let truth: &[(&str, Parts)] = &[
            (
                "4x \u{2300}0.80 \u{b1}0.02 THRU",
                &[
                    (Count, "4x"),
                    (Size, "\u{2300}0.80 \u{b1}0.02"),
                    (End, "THRU"),
                ],
            ),
            (
                "12x \u{2300}0.80 \u{b1}0.02 \u{21a7}14",
                &[
                    (Count, "12x"),
                    (Size, "\u{2300}0.80 \u{b1}0.02"),
                    (Depth, "\u{21a7}14"),
                ],
            ),
            (
                "4\u{d7} \u{d8}0,8 H7 \u{21a7} 14 mm",
                &[
                    (Count, "4\u{d7}"),
                    (Size, "\u{d8}0,8 H7"),
                    (Depth, "\u{21a7} 14 mm"),
                ],
            ),
            (
                "4 X \u{2205}1.2 THRU ALL",
                &[(Count, "4 X"), (Size, "\u{2205}1.2"), (End, "THRU")],
            ),
            ("\u{d8}0.8 x 14", &[(Size, "\u{d8}0.8"), (Depth, "14")]),
            ("0.8 x 14", &[(Size, "0.8"), (Depth, "14")]),
            ("\u{d8}0.8 14 DEEP", &[(Size, "\u{d8}0.8"), (Depth, "14")]),
            (
                "\u{d8}0.8 DEPTH 14",
                &[(Size, "\u{d8}0.8"), (Depth, "DEPTH 14")],
            ),
            ("\u{d8}0,8 - 14 tief", &[(Size, "\u{d8}0,8"), (Depth, "14")]),
            (
                "3 x \u{d8}0,80+0,05/-0,02 durchgehend",
                &[
                    (Count, "3 x"),
                    (Size, "\u{d8}0,80+0,05/-0,02"),
                    (End, "through"),
                ],
            ),
            (
                "\u{d8}0.80 \u{b1}0.02 14 DEEP",
                &[(Size, "\u{d8}0.80 \u{b1}0.02"), (Depth, "14")],
            ),
            (
                "\u{d8}0.78-0.82 THRU",
                &[(Size, "\u{d8}0.78-0.82"), (End, "THRU")],
            ),
            (
                "4-\u{d8}0.8 THRU",
                &[(Count, "4"), (Size, "\u{d8}0.8"), (End, "THRU")],
            ),
            (
                "\u{d8}0.8 THRU (4x)",
                &[(Count, "(4x)"), (Size, "\u{d8}0.8"), (End, "THRU")],
            ),
            ("(4) \u{d8}0.8", &[(Count, "(4)"), (Size, "\u{d8}0.8")]),
            (
                "4 trous \u{d8}0,8 débouchants",
                &[(Count, "4"), (Size, "\u{d8}0,8"), (End, "through")],
            ),
            (
                "\u{d8}0,8 prof. 14",
                &[(Size, "\u{d8}0,8"), (Depth, "deep 14")],
            ),
            (
                "\u{d8}0.8 14 blind",
                &[(Size, "\u{d8}0.8"), (Depth, "14"), (End, "blind")],
            ),
            (
                "2x \u{d8}1,0 THRU 30\u{b0}",
                &[
                    (Count, "2x"),
                    (Size, "\u{d8}1,0"),
                    (End, "THRU"),
                    (Angle, "30\u{b0}"),
                ],
            ),
            (
                "2x 1.0 THRU",
                &[(Count, "2x"), (Size, "1.0"), (End, "THRU")],
            ),
            (
                "M6 tap broken 12 deep",
                &[(Broken, "M6 tap"), (Depth, "12 deep")],
            ),
            ("M4 TAP, CARBIDE BROKEN OFF", &[(Broken, "M4 TAP, CARBIDE")]),
            (
                "3 HOLES \u{d8}0.5 THRU ALL EQ SP",
                &[(Count, "3 HOLES"), (Size, "\u{d8}0.5"), (End, "THRU")],
            ),
            (
                "%%c0.8 %%p0.02 THRU",
                &[(Size, "\u{2300}0.8 \u{b1}0.02"), (End, "THRU")],
            ),
            ("2 x 3 THRU", &[(Count, "2 x"), (Size, "3"), (End, "THRU")]),
        ];
        for (text, expect) in truth {
            let mut expect: Vec<(Column, String)> = expect
                .iter()
                .map(|(column, part)| (*column, (*part).to_owned()))
                .collect();
            expect.sort();
            assert_eq!(parts(text, Unit::Mm), Some(expect), "{text}");
        }
        let inch: &[(&str, Parts)] = &[
            (
                "4X .0315 THRU",
                &[(Count, "4X"), (Size, ".0315"), (End, "THRU")],
            ),
            (
                ".031 +.003/-.000 DIA (4) PLACES",
                &[(Count, "(4) PLACES"), (Size, ".031 +.003/-.000 DIA")],
            ),
            (
                "\u{d8}.031\u{b1}.002 \u{21a7}.55",
                &[(Size, "\u{d8}.031\u{b1}.002"), (Depth, "\u{21a7}.55")],
            ),
            (
                "2X \u{d8}.020 +.001/-.000 X .50 DP",
                &[
                    (Count, "2X"),
                    (Size, "\u{d8}.020 +.001/-.000"),
                    (Depth, ".50 DP"),
                ],
            ),
            (".031 .55 DEEP", &[(Size, ".031"), (Depth, ".55")]),
            (
                "1/32 DIA THRU 6 PL",
                &[(Count, "6 PL"), (Size, "1/32 DIA"), (End, "THRU")],
            ),
            ("#60 DRILL THRU", &[(Size, "#60"), (End, "THRU")]),
        ];
        for (text, expect) in inch {
            let mut expect: Vec<(Column, String)> = expect
                .iter()
                .map(|(column, part)| (*column, (*part).to_owned()))
                .collect();
            expect.sort();
            assert_eq!(parts(text, Unit::Inch), Some(expect), "{text}");
        }
    }

    /// ASME Y14.5 writes THRU at a through hole and a depth at a blind one; from memory.
    #[test]
    fn depths_without_thru_are_blind() {
        for (text, is_deep) in [
            ("\u{d8}0.8 \u{21a7}14", true),
            ("2X \u{d8}0.8 X 14 DP", true),
            ("\u{d8}0,8 - 14 tief", true),
            ("\u{d8}0.8 x 14", false),
            ("\u{d8}0.8 14 THRU", false),
            ("\u{d8}0.8 THRU \u{21a7}14", false),
            ("\u{d8}0.8 14 deep blind", false),
            ("M6 tap broken 12 deep", false),
        ] {
            let callout = split(text, Unit::Mm).unwrap();
            assert_eq!(callout.is_deep, is_deep, "{text}");
        }
    }

    #[test]
    fn what_is_in_doubt_is_left_as_it_is() {
        for text in [
            "",
            "0.8",
            "\u{d8}0.80 \u{b1}0.02",
            "0.8 H7",
            "2x18",
            "2 x 18",
            "0.78-0.82",
            "4x",
            "THRU",
            "4x M3 THRU",
            "\u{d8}0.8 see note 2",
            "about 1 thru",
            "4x \u{d8}0.8 C'BORE \u{d8}2 \u{21a7}1",
            "(0.8)",
            "A",
            "F",
            "letter F",
            "M6 tap broken, see note 2",
            "%%q0.8 THRU",
            "0.8 mm",
        ] {
            assert_eq!(parts(text, Unit::Mm), None, "{text}");
        }
    }
}
