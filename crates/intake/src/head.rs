//! One head of a foreign table: what its words say of the column, and the unit that it names.

use quillbore_job::Column;

use crate::fold::{Key, Token, folded, tokens};
use crate::head_unit::{HeadUnit, factor_in, is_unit_alone, without_unit};
use crate::meaning::Meaning;
use crate::note_words::{NoteWord, NoteWords};
use crate::trade_words::{Heading, heading, is_filler, is_hole_word};

/// A head of a column.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Head {
    /// As it stands.
    pub(crate) text: String,
    /// The text by which two heads are the same.
    pub(crate) folded: String,
    /// What it says.
    pub(crate) says: Says,
    /// The unit in it: `dia (mm)`, `depth [in]`, `Tol µm`.
    pub(crate) unit: Option<HeadUnit>,
    /// What angles below it are measured from: `angle to surface`.
    pub(crate) basis: Option<AngleFrom>,
}

/// What an angle is measured from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum AngleFrom {
    /// The surface.
    Surface,
    /// The surface's normal.
    Normal,
}

impl AngleFrom {
    /// The words behind an angle that say so.
    pub(crate) const fn behind(self) -> &'static str {
        match self {
            Self::Surface => "to surface",
            Self::Normal => "to normal",
        }
    }

    /// What the words of a head name beside the angle.
    fn of(words: &[&Token]) -> Option<Self> {
        let says = |said| {
            words
                .iter()
                .any(|word| NoteWords::of(&Key::of([*word])).has(said))
        };
        match (says(NoteWord::Surface), says(NoteWord::Normal)) {
            (_, true) => Some(Self::Normal),
            (true, false) => Some(Self::Surface),
            (false, false) => None,
        }
    }
}

/// What the words of a head say.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Says {
    /// It has no words, or none that are known.
    #[default]
    Nothing,
    /// What the column holds.
    Plainly(Meaning),
    /// One of several things; the first of them if it is the usual one.
    OneOf {
        meanings: &'static [Meaning],
        usual: bool,
    },
    /// What one of its words means, beside others that are not known.
    InPart(Meaning),
    /// Something that the hole table has no column for.
    Other,
}

impl Says {
    /// Whether it can mean something, or one thing.
    pub(crate) fn may_be(self, wanted: Option<Meaning>) -> bool {
        let is = |meaning: &Meaning| wanted.is_none_or(|wanted| wanted == *meaning);
        match self {
            Self::Plainly(meaning) | Self::InPart(meaning) => is(&meaning),
            Self::OneOf { meanings, .. } => meanings.iter().any(is),
            Self::Nothing | Self::Other => false,
        }
    }
}

impl Head {
    /// Reads a head.
    pub(crate) fn of(text: &str) -> Self {
        let factor = factor_in(text);
        let all = tokens(factor.as_ref().map_or(text, |factor| factor.text.as_str()));
        let (unit, words) = without_unit(&all);
        let unit = match factor {
            Some(factor) => unit.map(|unit| unit.parted(factor.power)),
            None => unit,
        };
        let angle = Says::Plainly(Meaning::Ours(Column::Angle));
        let (says, basis) = if words.is_empty() && unit == Some(HeadUnit::Degrees) {
            (angle, None)
        } else {
            match AngleFrom::of(&words) {
                Some(basis) if says(&beside_basis(&words)) == angle => (angle, Some(basis)),
                _ => (says(&words), None),
            }
        };
        Self {
            text: text.split_whitespace().collect::<Vec<_>>().join(" "),
            folded: folded(text),
            says,
            unit,
            basis,
        }
    }

    /// The head with another line below it, as of `Position` over `X` and `Y`, or of units.
    pub(crate) fn over(&self, below: &str) -> Self {
        let below_alone = Self::of(below);
        // A unit below says nothing else: behind `Tol -` its sign would be none any more.
        if is_unit_alone(below) && self.says != Says::Nothing {
            let text = format!("{} {}", self.text, below_alone.text);
            return Self {
                text,
                unit: below_alone.unit,
                ..self.clone()
            };
        }
        let mut joined = Self::of(format!("{} {below}", self.text).trim());
        if matches!(joined.says, Says::Nothing | Says::Other | Says::InPart(_)) {
            let own = [below_alone.says, self.says];
            let own = own.into_iter().find(|says| *says != Says::Nothing);
            joined.says = own.unwrap_or(joined.says);
        }
        joined.unit = below_alone.unit.or(self.unit);
        joined
    }

    /// Whether it says no more than that a tolerance stands below, and not of what.
    pub(crate) fn is_bare_tolerance(&self) -> bool {
        const WORDS: [&str; 7] = [
            "tol",
            "toll",
            "tolerance",
            "toleranz",
            "tolerancia",
            "tolleranza",
            "pm",
        ];
        let factor = factor_in(&self.text);
        let text = factor.map_or_else(|| self.text.clone(), |factor| factor.text);
        tokens(&text)
            .iter()
            .all(|word| HeadUnit::of(word).is_some() || WORDS.contains(&word.spelled()))
    }

    /// Whether one of its words is this, folded.
    pub(crate) fn has_word(&self, words: &[&str]) -> bool {
        let said = self.folded.split(' ');
        said.into_iter().any(|said| words.contains(&said))
    }

    /// Whether it is a sign and no word: `+`.
    pub(crate) fn is_sign(&self) -> bool {
        matches!(self.folded.as_str(), "plus" | "minus")
    }

    /// Whether one of its words speaks of an angle: `angle tol`.
    pub(crate) fn speaks_of_angle(&self) -> bool {
        let angle = Says::Plainly(Meaning::Ours(Column::Angle));
        tokens(&self.text)
            .iter()
            .any(|word| says_of_one(word) == angle)
    }

    /// Whether it has words, and at least one of them is known.
    pub(crate) fn is_known(&self) -> bool {
        self.says != Says::Nothing
    }
}

/// The words of an angle's head without those that say what it is measured from.
fn beside_basis<'a>(words: &[&'a Token]) -> Vec<&'a Token> {
    let of_basis = [
        NoteWord::Surface,
        NoteWord::Normal,
        NoteWord::To,
        NoteWord::Plain,
    ];
    let others = words.iter().filter(|word| {
        let says = NoteWords::of(&Key::of([**word]));
        !of_basis.into_iter().any(|said| says.has(said))
    });
    others.copied().collect()
}

fn says(words: &[&Token]) -> Says {
    let all = says_together(words);
    if all != Says::Nothing {
        return all;
    }
    let meaningful = |word: &&&Token| {
        let key = Key::of([**word]);
        !is_filler(&key) && !is_hole_word(&key)
    };
    let rest: Vec<&Token> = words.iter().filter(meaningful).copied().collect();
    let less = says_together(&rest);
    if less != Says::Nothing {
        return less;
    }
    by_parts(words)
        .or_else(|| by_words(&rest))
        .unwrap_or_default()
}

fn says_together(words: &[&Token]) -> Says {
    if words.is_empty() {
        return Says::Nothing;
    }
    match heading(&Key::of(words.iter().copied())) {
        Some(Heading::One(meaning)) => Says::Plainly(meaning),
        Some(Heading::OneOf { meanings, usual }) => Says::OneOf { meanings, usual },
        Some(Heading::Other) => Says::Other,
        None => Says::Nothing,
    }
}

/// A head in several languages, or with something in brackets: `Tiefe / depth`, `depth (ref)`.
fn by_parts(words: &[&Token]) -> Option<Says> {
    let mut agreed = None;
    for part in words.chunk_by(|one, other| one.part == other.part) {
        if part.len() == words.len() {
            return None;
        }
        let known = says(part);
        let bracketed = part.iter().all(|word| word.bracketed);
        match (known, agreed) {
            (Says::Plainly(_) | Says::OneOf { .. }, None) => agreed = Some(known),
            (known, Some(before)) if known == before => {}
            (Says::Nothing, _) if bracketed => {}
            _ => return None,
        }
    }
    agreed
}

/// What single words of a head say; a tolerance of something, or words that differ, say nothing.
fn by_words(words: &[&Token]) -> Option<Says> {
    let each: Vec<Says> = words.iter().map(|word| says_of_one(word)).collect();
    if each.contains(&Says::Other) {
        return Some(Says::Other);
    }
    let mut plain = each.iter().filter_map(|says| match says {
        Says::Plainly(meaning) | Says::InPart(meaning) => Some(*meaning),
        Says::Nothing | Says::OneOf { .. } | Says::Other => None,
    });
    let meaning = plain.next()?;
    if plain.any(|other| other != meaning) {
        return None;
    }
    let agrees = |says: &Says| match says {
        Says::Plainly(_) => true,
        Says::OneOf { meanings, .. } => meanings.contains(&meaning),
        Says::Nothing | Says::InPart(_) | Says::Other => false,
    };
    Some(match meaning {
        _ if each.iter().all(agrees) => Says::Plainly(meaning),
        // A tolerance of something that isn't known is hardly the size's: of position, of form.
        Meaning::Tolerance => Says::Other,
        _ => Says::InPart(meaning),
    })
}

/// What one word says, or, where it is not known, the end of a German compound.
fn says_of_one(word: &Token) -> Says {
    const ENDS: [&str; 6] = [
        "durchmesser",
        "tiefe",
        "winkel",
        "toleranz",
        "anzahl",
        "nummer",
    ];
    let whole = says_together(&[word]);
    if whole != Says::Nothing {
        return whole;
    }
    let end = ENDS.iter().find(|end| word.spelled().ends_with(**end));
    let of_end = end.map(|end| says_together(&tokens(end).iter().collect::<Vec<_>>()));
    match of_end {
        Some(Says::Plainly(meaning)) => Says::InPart(meaning),
        _ => Says::Nothing,
    }
}

#[cfg(test)]
mod tests {
    use quillbore_job::{Column, Unit};

    use super::{Head, HeadUnit, Says};
    use crate::meaning::Meaning;

    const MARK: Says = Says::Plainly(Meaning::Ours(Column::Mark));
    const COUNT: Says = Says::Plainly(Meaning::Ours(Column::Count));
    const SIZE: Says = Says::Plainly(Meaning::Ours(Column::Size));
    const DEPTH: Says = Says::Plainly(Meaning::Ours(Column::Depth));
    const END: Says = Says::Plainly(Meaning::Ours(Column::End));
    const ANGLE: Says = Says::Plainly(Meaning::Ours(Column::Angle));
    const NOTE: Says = Says::Plainly(Meaning::Ours(Column::Note));
    const TOLERANCE: Says = Says::Plainly(Meaning::Tolerance);

    /// What a person in each of the countries writes above a column. Common practice, no source.
    #[test]
    fn heads_in_five_languages() {
        let truth: [(&[&str], Says); 15] = [
            (
                &[
                    "Hole",
                    "HOLE ID",
                    "Pos.",
                    "Pos.-Nr.",
                    "Bohrung",
                    "Loch-Nr.",
                    "Repère",
                    "N° trou",
                    "Trou n°",
                    "Agujero",
                    "Nº de agujero",
                    "Taladro",
                    "Foro",
                    "N. foro",
                ],
                MARK,
            ),
            (
                &[
                    "Qty",
                    "QTY.",
                    "Q'ty per part",
                    "No. of holes",
                    "Anzahl",
                    "Anz.",
                    "Stk.",
                    "St\u{fc}ck",
                    "Anzahl pro Teil",
                    "Quantité",
                    "Qté",
                    "Nbre",
                    "Nbre de trous",
                    "Cantidad",
                    "Cant.",
                    "N.º de agujeros",
                    "Quantità",
                    "Q.tà",
                    "N. fori",
                ],
                COUNT,
            ),
            (
                &[
                    "Dia",
                    "DIA.",
                    "\u{2300}",
                    "\u{d8} (mm)",
                    "Hole \u{d8}",
                    "Hole dia.",
                    "Durchmesser",
                    "Durchm. [mm]",
                    "Bohr-\u{d8}",
                    "Bohrungsdurchmesser",
                    "Diamètre",
                    "diametre (mm)",
                    "Di\u{e1}metro",
                    "DIAMETRO",
                    "Diametro foro",
                ],
                SIZE,
            ),
            (
                &[
                    "Depth",
                    "DEPTH (IN)",
                    "Hole depth",
                    "Tiefe",
                    "Bohrtiefe",
                    "Bohrungs-\ntiefe",
                    "Profondeur",
                    "Prof.",
                    "Profundidad",
                    "Profondità",
                    "Tiefe / depth",
                    "Depth (ref)",
                    "\u{21a7}",
                ],
                DEPTH,
            ),
            (
                &[
                    "Tol",
                    "Tol.",
                    "\u{b1}",
                    "\u{b1} Tol",
                    "+/- tol",
                    "Toleranz",
                    "Durchmessertoleranz",
                    "\u{d8}-Tol. (\u{b5}m)",
                    "Tolérance",
                    "Tolerancia",
                    "Tolleranza",
                    "Toll.",
                    "Passung",
                    "Ajustement",
                ],
                TOLERANCE,
            ),
            (
                &[
                    "Min",
                    "\u{d8} min",
                    "Mindestmaß",
                    "Cote mini",
                    "Diámetro mínimo",
                    "Dimensione minima",
                    "LLS",
                ],
                Says::Plainly(Meaning::Lower),
            ),
            (
                &[
                    "Max.",
                    "\u{d8} max",
                    "Größtmaß",
                    "GROESSTMASS",
                    "Höchstmass",
                    "Cote maxi",
                    "Diámetro máximo",
                    "Quota massima",
                    "ULS",
                ],
                Says::Plainly(Meaning::Upper),
            ),
            (
                &[
                    "unteres Abmaß",
                    "Tol. -",
                    "Tol (-)",
                    "Minus",
                    "EI",
                    "\u{c9}cart inférieur",
                    "Desviación inferior",
                    "Scostamento inferiore",
                ],
                Says::Plainly(Meaning::LowerDeviation),
            ),
            (
                &[
                    "oberes Abmass",
                    "Tol. +",
                    "+ Tol",
                    "Plus",
                    "ES",
                    "\u{c9}cart supérieur",
                    "Desviación superior",
                    "Scostamento sup.",
                ],
                Says::Plainly(Meaning::UpperDeviation),
            ),
            (
                &["Tiefentoleranz", "Depth tol.", "Tolérance de profondeur"],
                Says::Plainly(Meaning::DepthTolerance),
            ),
            (
                &[
                    "Thru/Blind",
                    "Through",
                    "Durchgang/Sackloch",
                    "durchgehend",
                    "Débouchant / borgne",
                    "Pasante/ciego",
                    "Passante",
                ],
                END,
            ),
            (
                &[
                    "Angle",
                    "Winkel (\u{b0})",
                    "\u{b0}",
                    "Neigung [Grad]",
                    "Angle d'entrée",
                    "\u{c1}ngulo",
                    "Angolo",
                    "\u{2220}",
                ],
                ANGLE,
            ),
            (
                &[
                    "Note",
                    "Notes",
                    "Remarks",
                    "Bemerkung",
                    "BEMERKUNGEN",
                    "Remarque",
                    "Observations",
                    "Observación",
                    "Osservazioni",
                    "Anmerkungen",
                ],
                NOTE,
            ),
            (
                &["X", "x (mm)", "X-Koordinate", "Coord. X", "Pos X"],
                Says::Plainly(Meaning::Point(0)),
            ),
            (
                &[
                    "finish",
                    "Surface finish",
                    "Ra",
                    "Oberfläche",
                    "Wandstärke",
                    "thickness",
                    "\u{c9}tat de surface",
                    "Rugosità",
                    "Pitch",
                ],
                Says::Other,
            ),
        ];
        for (heads, says) in truth {
            for head in heads {
                assert_eq!(Head::of(head).says, says, "{head}");
            }
        }
    }

    #[test]
    fn what_is_in_doubt_stays_in_doubt() {
        for head in ["D", "T", "No.", "Nr.", "N°", "Typ", "Position", "Bohrungen"] {
            assert!(matches!(Head::of(head).says, Says::OneOf { .. }), "{head}");
        }
        for (head, meaning) in [
            ("Tiefe gesamt bis Schulter", Column::Depth),
            ("Kernlochdurchmesser", Column::Size),
        ] {
            let says = Says::InPart(Meaning::Ours(meaning));
            assert_eq!(Head::of(head).says, says, "{head}");
        }
        for head in [
            "",
            "min/max",
            "angle tol",
            "grade",
            "Otwór",
            "tolerance of position and depth",
        ] {
            assert_eq!(Head::of(head).says, Says::Nothing, "{head}");
        }
    }

    #[test]
    fn a_head_of_two_lines() {
        let x = Head::of("Position").over("X");
        assert_eq!(
            (x.text.as_str(), x.says),
            ("Position X", Says::Plainly(Meaning::Point(0)))
        );
        let size = Head::of("Durchmesser").over("(mm)");
        assert_eq!(
            (size.says, size.unit),
            (SIZE, Some(HeadUnit::Whole(Unit::Mm)))
        );
        assert_eq!(
            Head::of("").over("Y").says,
            Says::Plainly(Meaning::Point(1))
        );
    }
}
