//! Trade words in the cells of hole tables, and the English words that the hole table reads for them.
//!
//! English, German, French, Spanish and Italian; common practice, no source.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::LazyLock;

use quillbore_job::Column;

use crate::fold::Key;
use crate::trade_words::is_hole_word;

/// What a word in a cell says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum CellWord {
    Through,
    Blind,
    Into,
    Deep,
    Yes,
    No,
    Degrees,
    Holes,
    Diameter,
    Most,
    Least,
    Flat,
    Cylinder,
    Ball,
    OneEnd,
    BothEnds,
    Pin,
    Light,
    Wire,
    Air,
    /// It says no more than that a hole is spoken of.
    Hole,
}

impl CellWord {
    /// The English word that the hole table reads.
    pub(crate) const fn english(self) -> &'static str {
        match self {
            Self::Through => "through",
            Self::Blind => "blind",
            Self::Into => "into",
            Self::Deep => "deep",
            Self::Yes => "yes",
            Self::No => "no",
            Self::Degrees => "deg",
            Self::Holes => "holes",
            Self::Diameter => "dia",
            Self::Most => "MAX",
            Self::Least => "MIN",
            Self::Flat => "flat",
            Self::Cylinder => "cylinder",
            Self::Ball => "ball",
            Self::OneEnd => "one end",
            Self::BothEnds => "both ends",
            Self::Pin => "pin",
            Self::Light => "light",
            Self::Wire => "wire",
            Self::Air => "air",
            Self::Hole => "",
        }
    }

    /// Whether it can stand in a cell of this column.
    const fn stands_in(self, column: Column) -> bool {
        match self {
            Self::Through | Self::Blind | Self::Into => {
                matches!(column, Column::End | Column::Depth | Column::Size)
            }
            Self::Deep => matches!(column, Column::Depth | Column::Size | Column::End),
            Self::Yes | Self::No => {
                matches!(column, Column::Backed | Column::CoreTrapped | Column::End)
            }
            Self::Degrees => matches!(column, Column::Angle | Column::Size),
            Self::Holes => matches!(column, Column::Count | Column::Size),
            Self::Diameter | Self::Most | Self::Least => {
                matches!(
                    column,
                    Column::Size | Column::Depth | Column::Surface | Column::Exit
                )
            }
            Self::Flat | Self::Cylinder | Self::Ball => {
                matches!(column, Column::Surface | Column::Exit)
            }
            Self::OneEnd | Self::BothEnds => matches!(column, Column::Ends),
            Self::Pin | Self::Light | Self::Wire | Self::Air => matches!(column, Column::Proved),
            Self::Hole => matches!(
                column,
                Column::End | Column::Depth | Column::Size | Column::Count
            ),
        }
    }
}

#[rustfmt::skip]
const WORDS: &[(CellWord, [&str; 5])] = &[
    (CellWord::Through, [
        "through, thru, thro",
        "durch, durchgehend, durchgehende, durchgehendes, durchg, Durchgang, Durchgangsbohrung, Durchgangsloch, DG, DL",
        "débouchant, débouchants, débouche, déb, traversant, traversants, passant, passants",
        "pasante, pasantes, pas",
        "passante, passanti, pass",
    ]),
    (CellWord::Blind, [
        "blind",
        "Sackloch, Sacklöcher, Sacklochbohrung, Sackbohrung, Sackl, SL, Grundloch, Grundbohrung, GL",
        "borgne, borgnes",
        "ciego, ciegos",
        "cieco, ciechi",
    ]),
    (CellWord::Into, [
        "into",
        "hinein, kreuzend",
        "dans, croisant",
        "cruzando, cruce",
        "incrociante",
    ]),
    (CellWord::Deep, [
        "deep, depth, dp",
        "tief, Tiefe",
        "profondeur, profond, prof",
        "profundidad, profundo, prof",
        "profondità, profondo, prof",
    ]),
    (CellWord::Yes, ["yes", "ja", "oui", "sí", "sì"]),
    (CellWord::No, ["no", "nein", "non", "no", "no"]),
    (CellWord::Degrees, [
        "deg, degs, degree, degrees",
        "Grad",
        "degré, degrés",
        "grado, grados",
        "grado, gradi",
    ]),
    (CellWord::Holes, [
        "pl, plc, plcs, place, places, pc, pcs, off, ea, qty",
        "Stk, Stck, Stück, St, mal",
        "fois, pièces, pcs",
        "veces, uds, ud, pzas",
        "volte, pz, pezzi",
    ]),
    (CellWord::Diameter, [
        "dia, diam, diameter",
        "Durchmesser, Durchm, Dm",
        "diamètre, diam",
        "diámetro, diám",
        "diametro, diam",
    ]),
    (CellWord::Most, ["max, maximum", "max, maximal", "maxi, max", "máx, máximo", "max, massimo"]),
    (CellWord::Least, ["min, minimum", "min, minimal", "mini, min", "mín, mínimo", "min, minimo"]),
    (CellWord::Flat, ["flat", "eben, plan", "plat, plan, plane", "plano, plana", "piano, piana"]),
    (CellWord::Cylinder, ["cylinder, cyl", "Zylinder, zyl", "cylindre", "cilindro, cil", "cilindro, cil"]),
    (CellWord::Ball, ["ball, sphere", "Kugel", "sphère", "esfera", "sfera"]),
    (CellWord::OneEnd, ["single", "einseitig", "", "", ""]),
    (CellWord::BothEnds, ["both", "beidseitig, beide", "", "ambos", "entrambi"]),
    (CellWord::Pin, ["pin, pins", "Prüfstift, Prüfstifte, Stift, Lehrdorn", "pige, piges", "calibre", "spina, tampone"]),
    (CellWord::Light, ["light", "Licht, Lichtprobe", "lumière", "luz", "luce"]),
    (CellWord::Wire, ["wire", "Draht, Drahtprobe", "fil", "hilo", "filo"]),
    (CellWord::Air, ["air, airflow", "Luft, Durchfluss", "air", "aire", "aria"]),
];

/// What a word in a cell of this column says, where it is known.
pub(crate) fn cell_word(word: &str, column: Column) -> Option<CellWord> {
    cell_word_of(&Key::of_text(word), column)
}

/// What a folded word in a cell of this column says, where it is known.
pub(crate) fn cell_word_of(key: &Key, column: Column) -> Option<CellWord> {
    let listed = key.spellings().find_map(|word| LISTED.get(word));
    let hole = || is_hole_word(key).then_some(CellWord::Hole);
    let meant = |said: &CellWord| said.stands_in(column);
    listed.copied().or_else(hole).filter(meant)
}

static LISTED: LazyLock<BTreeMap<String, CellWord>> = LazyLock::new(|| {
    let mut listed = BTreeMap::new();
    for (said, languages) in WORDS {
        let words = languages.iter().flat_map(|words| words.split(','));
        for word in words.filter(|word| !word.trim().is_empty()) {
            for spelling in Key::of_text(word).spellings() {
                listed.insert(spelling.to_owned(), *said);
            }
        }
    }
    listed
});

/// A text with the signs that drawing programs write two percent signs and a letter for.
pub(crate) fn with_signs(text: &str) -> Cow<'_, str> {
    let mut parts = text.split("%%");
    let first = parts.next().unwrap_or_default();
    let mut with_signs = Cow::Borrowed(first);
    for part in parts {
        let sign = match part
            .chars()
            .next()
            .map(|letter| letter.to_ascii_lowercase())
        {
            Some('c') => "\u{2300}",
            Some('d') => "\u{b0}",
            Some('p') => "\u{b1}",
            // Where a line under or over it begins or ends.
            Some('u' | 'o') => "",
            _ => return Cow::Borrowed(text),
        };
        let with_signs = with_signs.to_mut();
        with_signs.push_str(sign);
        with_signs.push_str(part.get(1..).unwrap_or_default());
    }
    with_signs
}

/// A text with its known words in English, and what each of them was; `None` where it has none that
/// would be another word.
pub(crate) fn in_english(text: &str, column: Column) -> Option<(String, Vec<TakenWord>)> {
    let (mut english, mut taken) = (String::with_capacity(text.len()), Vec::new());
    let with_signs = with_signs(text);
    let mut rest = &*with_signs;
    while let Some(begins) = rest.find(char::is_alphabetic) {
        let (before, from) = rest.split_at(begins);
        english.push_str(before);
        let ends = from.find(|letter: char| !is_of_a_word(letter));
        let (word, after) = from.split_at(ends.unwrap_or(from.len()));
        rest = after;
        match cell_word(word, column) {
            Some(said) if !said.english().eq_ignore_ascii_case(word) => {
                english.push_str(said.english());
                // The point of an abbreviation.
                rest = rest.strip_prefix('.').unwrap_or(rest);
                taken.push(TakenWord {
                    word: word.to_owned(),
                    english: said.english(),
                });
            }
            _ => english.push_str(word),
        }
    }
    english.push_str(rest);
    let english = english.split_whitespace().collect::<Vec<_>>().join(" ");
    let is_other = !taken.is_empty() || with_signs != text;
    (is_other && !english.is_empty()).then_some((english, taken))
}

fn is_of_a_word(letter: char) -> bool {
    letter.is_alphabetic() || matches!(letter, '\u{300}'..='\u{36f}')
}

/// A word of a cell that was taken as another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct TakenWord {
    /// As it stands.
    pub(crate) word: String,
    /// The English word that it was taken as; none where it was left out.
    pub(crate) english: &'static str,
}

#[cfg(test)]
mod tests {
    use quillbore_job::Column;

    use super::in_english;

    #[test]
    fn words_of_five_languages() {
        for (column, text, english) in [
            (Column::End, "durchgehend", "through"),
            (Column::End, "DG", "through"),
            (Column::End, "Sackloch", "blind"),
            (Column::End, "Bohrung durchgehend", "through"),
            (Column::End, "débouchant", "through"),
            (Column::End, "trou borgne", "blind"),
            (Column::End, "pasante", "through"),
            (Column::End, "agujero ciego", "blind"),
            (Column::End, "foro passante", "through"),
            (Column::End, "CIECO", "blind"),
            (Column::Depth, "14 tief", "14 deep"),
            (Column::Depth, "Prof. 14 mm", "deep 14 mm"),
            (Column::Depth, "14 durchg.", "14 through"),
            (Column::Angle, "60 Grad", "60 deg"),
            (Column::Count, "4 Stk.", "4 holes"),
            (Column::Backed, "ja", "yes"),
            (Column::Backed, "s\u{ed}", "yes"),
            (Column::Size, "0,82 máx", "0,82 MAX"),
        ] {
            let read = in_english(text, column).map(|(english, _)| english);
            assert_eq!(read.as_deref(), Some(english), "{text}");
        }
        for (column, text) in [
            (Column::End, "through"),
            (Column::End, "0.8"),
            (Column::Note, "durchgehend"),
            (Column::Mark, "Sackloch"),
            (Column::Angle, "tief"),
            (Column::Size, "Hole"),
        ] {
            assert_eq!(in_english(text, column), None, "{text}");
        }
    }
}
