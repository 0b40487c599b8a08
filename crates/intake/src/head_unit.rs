//! The unit that a head names: alone, as a part of one such as `1/100 mm`, or beside another.

use quillbore_job::Unit;

use crate::fold::{Key, Token, folded, tokens};
use crate::trade_words::is_of_dimensions;

/// A unit that a head can name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum HeadUnit {
    /// A unit that a job is typed in.
    Whole(Unit),
    /// A unit, and another behind it in brackets: `mm (in)`.
    FirstOf(Unit),
    /// Two units, and nothing says which is meant: `mm / in`.
    Either(&'static str),
    /// Centimeters.
    Cm,
    /// Micrometers.
    Um,
    /// Thousandths of an inch.
    Thou,
    /// A unit divided by this power of ten: `1/100 mm`.
    Part(Unit, u8),
    /// Tenths, of a millimeter or of a thousandth of an inch.
    Tenths,
    /// Degrees.
    Degrees,
}

impl HeadUnit {
    /// The unit as it is written behind a number; none for degrees and for parts, which become decimals.
    ///
    /// Of a unit in doubt it is what no number can have behind it: the cell is asked about then.
    pub(crate) const fn behind(self) -> Option<&'static str> {
        match self {
            Self::Whole(Unit::Mm) | Self::FirstOf(Unit::Mm) => Some("mm"),
            Self::Whole(Unit::Inch) | Self::FirstOf(Unit::Inch) => Some("in"),
            Self::Either(both) => Some(both),
            Self::Cm => Some("cm"),
            Self::Um => Some("um"),
            Self::Thou => Some("thou"),
            Self::Tenths => Some("tenths"),
            Self::Part(..) | Self::Degrees => None,
        }
    }

    /// Whether lengths are in it.
    pub(crate) const fn is_of_length(self) -> bool {
        !matches!(self, Self::Degrees)
    }

    /// The unit that a job is typed in, where it is one.
    pub(crate) const fn typed_in(self) -> Option<Unit> {
        match self {
            Self::Whole(unit) | Self::FirstOf(unit) => Some(unit),
            _ => None,
        }
    }

    /// The unit that a job is typed in which bare numbers are in beside it.
    pub(crate) const fn implies(self) -> Option<Unit> {
        match self {
            Self::Whole(unit) | Self::FirstOf(unit) | Self::Part(unit, _) => Some(unit),
            Self::Thou => Some(Unit::Inch),
            _ => None,
        }
    }

    /// It, divided by a power of ten.
    pub(crate) const fn parted(self, power: u8) -> Self {
        match (self, power) {
            (Self::Whole(Unit::Mm), 3) => Self::Um,
            (Self::Whole(Unit::Inch), 3) => Self::Thou,
            (Self::Whole(unit), _) => Self::Part(unit, power),
            (other, _) => other,
        }
    }

    /// The unit of length that a text names and nothing else.
    pub(crate) fn of_text(text: &str) -> Option<Self> {
        Self::alone_in(text).filter(|unit| unit.is_of_length())
    }

    /// The unit that a text names and nothing else.
    fn alone_in(text: &str) -> Option<Self> {
        let factor = factor_in(text);
        let text = factor.as_ref().map_or(text, |factor| factor.text.as_str());
        match tokens(text).as_slice() {
            [one] => {
                let unit = Self::of(one)?;
                Some(factor.map_or(unit, |factor| unit.parted(factor.power)))
            }
            _ => None,
        }
    }

    pub(crate) fn of(token: &Token) -> Option<Self> {
        Some(match token.spelled() {
            "mm" | "millimeter" | "millimeters" | "millimetre" | "millimetres" => {
                Self::Whole(Unit::Mm)
            }
            "in" | "inch" | "inches" | "zoll" | "pouce" | "pouces" | "pulg" | "pulgada"
            | "pulgadas" | "pollice" | "pollici" => Self::Whole(Unit::Inch),
            "cm" => Self::Cm,
            "um" | "my" | "micron" | "microns" | "mikrometer" => Self::Um,
            "thou" | "mil" | "mils" | "thousandths" => Self::Thou,
            "hundertstel" => Self::Part(Unit::Mm, 2),
            "tausendstel" => Self::Um,
            "tenths" | "zehntel" => Self::Tenths,
            "deg" | "degree" | "degrees" | "grad" | "degre" | "degres" | "grados" | "gradi" => {
                Self::Degrees
            }
            _ => return None,
        })
    }

    /// What two units of one head come to, the second in brackets or not.
    fn beside(self, other: Self, is_bracketed: bool) -> Self {
        match (self, other) {
            (one, other) if one == other || one == Self::Degrees => other,
            (one, Self::Degrees) => one,
            // `Hundertstel mm`, `thousandths of an inch`.
            (Self::Part(Unit::Mm, power), Self::Whole(unit)) => Self::Whole(unit).parted(power),
            (Self::Um | Self::Thou, Self::Whole(unit)) if !is_bracketed => {
                Self::Whole(unit).parted(3)
            }
            (Self::Tenths, Self::Whole(Unit::Mm)) => Self::Part(Unit::Mm, 1),
            (Self::Tenths, _) => Self::Tenths,
            (Self::Whole(one), _) if is_bracketed => Self::FirstOf(one),
            (one @ (Self::FirstOf(_) | Self::Cm | Self::Um | Self::Thou), _) if is_bracketed => one,
            (Self::Whole(Unit::Mm), Self::Whole(_)) => Self::Either("mm / in"),
            (Self::Whole(_), Self::Whole(_)) => Self::Either("in / mm"),
            _ => Self::Either("in two units"),
        }
    }
}

/// A text without the factor of its unit: `Tol [1/100 mm]` is `Tol [mm]` with a power of two.
pub(crate) struct Factor {
    pub(crate) text: String,
    pub(crate) power: u8,
}

/// The factor before the unit of a head.
pub(crate) fn factor_in(text: &str) -> Option<Factor> {
    if !text.contains('1') {
        return None;
    }
    let of_number = |letter: char| letter.is_ascii_digit() || matches!(letter, '.' | ',' | '/');
    let mut from = 0;
    while let Some(begins) = text.get(from..)?.find(of_number).map(|at| at + from) {
        let number = text.get(begins..)?;
        let length = number.find(|letter| !of_number(letter));
        let (number, behind) = number.split_at(length.unwrap_or(number.len()));
        let unit = behind.trim_start_matches([' ', '\u{a0}', '-', '\u{d7}', '*', '\u{b7}']);
        let ends = unit.find(|letter: char| !letter.is_alphabetic() && letter != '"');
        let word = unit.get(..ends.unwrap_or(unit.len()))?;
        if let Some(power) = power_in(number)
            && let Some(HeadUnit::Whole(_)) = tokens(word).first().and_then(HeadUnit::of)
        {
            let before = text.get(..begins)?;
            return Some(Factor {
                text: format!("{before} {unit}"),
                power,
            });
        }
        from = begins + number.len();
    }
    None
}

/// By which power of ten a number divides: 2 for `1/100`, `0.01` and `.01`.
fn power_in(number: &str) -> Option<u8> {
    let zeros_and_one = |digits: &str| digits.chars().all(|digit| digit == '0');
    let number = number.trim_start_matches('/');
    let power = match number.strip_prefix("1/") {
        Some(below) => {
            let zeros = below.strip_prefix('1').filter(|zeros| zeros_and_one(zeros));
            zeros?.len()
        }
        None => {
            let part = number.trim_start_matches('0').strip_prefix(['.', ','])?;
            let zeros = part.strip_suffix('1').filter(|zeros| zeros_and_one(zeros));
            zeros?.len() + 1
        }
    };
    u8::try_from(power)
        .ok()
        .filter(|power| (1..=6).contains(power))
}

/// Whether a text names a unit and says nothing else: `mm`, `[in]`, `(°)`.
pub(crate) fn is_unit_alone(text: &str) -> bool {
    HeadUnit::alone_in(text).is_some()
}

/// The unit that a line of words says of all dimensions: `Alle Maße in mm`, `DIMENSIONS IN INCHES`,
/// `Units: in`.
pub(crate) fn unit_of_all(text: &str) -> Option<Unit> {
    let all = tokens(text);
    let spoken = all.iter().any(|word| is_of_dimensions(&Key::of([word])));
    let last = all.len().saturating_sub(1);
    let mut units = all
        .iter()
        .enumerate()
        .filter_map(|(at, word)| match HeadUnit::of(word) {
            // `in` is a unit behind two or three words only: longer lines are cut off.
            Some(HeadUnit::Whole(unit)) if !word.is("in") || (at == last && at <= 3) => Some(unit),
            _ => None,
        });
    let unit = units.next().filter(|_| spoken)?;
    units.all(|other| other == unit).then_some(unit)
}

/// The unit that a text names and nothing else: `INCH`, `[mm]`.
pub(crate) fn unit_alone(text: &str) -> Option<Unit> {
    match HeadUnit::of_text(text) {
        Some(HeadUnit::Whole(unit)) if folded(text) != "in" => Some(unit),
        _ => None,
    }
}

/// The unit among some words, and the others. `in` is one at the end or in brackets only: `Maße in mm`.
pub(crate) fn without_unit(all: &[Token]) -> (Option<HeadUnit>, Vec<&Token>) {
    let mut unit: Option<(HeadUnit, bool)> = None;
    let mut words = Vec::with_capacity(all.len());
    for (at, token) in all.iter().enumerate() {
        let next = all.get(at + 1);
        let is_preposition = token.is("in") && next.is_some_and(|next| next.part == token.part);
        match HeadUnit::of(token) {
            Some(_) if is_preposition => {
                if next.and_then(HeadUnit::of).is_none() {
                    words.push(token);
                }
            }
            Some(named) => {
                let both = unit.map_or(named, |(first, bracketed)| {
                    first.beside(named, token.bracketed && !bracketed)
                });
                let bracketed = unit.map_or(token.bracketed, |(_, bracketed)| bracketed);
                unit = Some((both, bracketed));
            }
            None => words.push(token),
        }
    }
    (unit.map(|(unit, _)| unit), words)
}

#[cfg(test)]
mod tests {
    use quillbore_job::Unit;

    use super::{HeadUnit, is_unit_alone, unit_of_all};
    use crate::head::Head;

    #[test]
    fn units_of_heads() {
        let (mm, inch) = (HeadUnit::Whole(Unit::Mm), HeadUnit::Whole(Unit::Inch));
        for (head, unit) in [
            ("dia (mm)", Some(mm)),
            ("Maße in mm", Some(mm)),
            ("depth [in]", Some(inch)),
            ("depth in", Some(inch)),
            ("depth \"", Some(inch)),
            ("Tiefe in Zoll", Some(inch)),
            ("\u{d8}, pouces", Some(inch)),
            ("Tol. \u{b5}m", Some(HeadUnit::Um)),
            ("Winkel \u{b0}", Some(HeadUnit::Degrees)),
            ("depth in part", None),
            ("dia", None),
        ] {
            assert_eq!(Head::of(head).unit, unit, "{head}");
        }
        for (line, unit) in [
            ("Alle Maße in mm.", Some(Unit::Mm)),
            ("ALL DIMENSIONS IN INCHES", Some(Unit::Inch)),
            ("Cotes en mm", Some(Unit::Mm)),
            ("UNITS: INCH", Some(Unit::Inch)),
            ("dimensions in mm (inch)", None),
            ("holes 2 mm from the edge", None),
            ("dimensions in part", None),
        ] {
            assert_eq!(unit_of_all(line), unit, "{line}");
        }
        assert!(is_unit_alone("[mm]") && is_unit_alone("\u{b0}") && !is_unit_alone("dia mm"));
    }

    #[test]
    fn parts_of_units_and_two_units() {
        for (head, unit) in [
            ("Tol [1/100 mm]", HeadUnit::Part(Unit::Mm, 2)),
            ("Dia [0.001 in]", HeadUnit::Thou),
            ("Dia (.001\")", HeadUnit::Thou),
            ("Tol 1/1000mm", HeadUnit::Um),
            ("Toleranz [0,01 mm]", HeadUnit::Part(Unit::Mm, 2)),
            ("Dia (1/10 mm)", HeadUnit::Part(Unit::Mm, 1)),
            ("Tol (0.0001 in)", HeadUnit::Part(Unit::Inch, 4)),
            ("Tol (Hundertstel mm)", HeadUnit::Part(Unit::Mm, 2)),
            ("Tol (tenths)", HeadUnit::Tenths),
            ("Dia mm (in)", HeadUnit::FirstOf(Unit::Mm)),
            ("Dia [in] (mm)", HeadUnit::Either("in / mm")),
            ("Dia mm / inch", HeadUnit::Either("mm / in")),
            ("Dia mm / Durchmesser mm", HeadUnit::Whole(Unit::Mm)),
            ("Dia mm (Tol \u{b5}m)", HeadUnit::FirstOf(Unit::Mm)),
            ("Tol \u{b5}m (in)", HeadUnit::Um),
        ] {
            assert_eq!(Head::of(head).unit, Some(unit), "{head}");
        }
        assert!(is_unit_alone("[1/100 mm]") && !is_unit_alone("12 mm") && !is_unit_alone("1 mm"));
    }
}
