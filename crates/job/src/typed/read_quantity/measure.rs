//! Lengths as typed: number, own unit, drill sizes; turned to millimeters once their unit is known.

use quillbore_calc::Length;
use quillbore_calc::standards::drills::Drill;

use super::exact::Ratio;
use super::misread::{Misread, What};
use super::number::number;
use super::scan::Scan;
use crate::typed::entry::Unit;

/// Largest length that is taken: a kilometer.
const LARGEST_MM: Ratio = Ratio::whole(1_000_000);

/// A unit of length that text may carry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum LengthUnit {
    Millimeter,
    Centimeter,
    Micron,
    Inch,
    Thou,
    Foot,
}

impl LengthUnit {
    pub(crate) const fn is_metric(self) -> bool {
        matches!(self, Self::Millimeter | Self::Centimeter | Self::Micron)
    }

    /// As it is written behind a number.
    pub(crate) const fn sign(self) -> &'static str {
        match self {
            Self::Millimeter => "mm",
            Self::Centimeter => "cm",
            Self::Micron => "\u{b5}m",
            Self::Inch => "in",
            Self::Thou => "thou",
            Self::Foot => "ft",
        }
    }

    /// Millimeters in one of it, as a ratio.
    pub(crate) const fn mm(self) -> (i128, i128) {
        match self {
            Self::Millimeter => (1, 1),
            Self::Centimeter => (10, 1),
            Self::Micron => (1, 1000),
            Self::Inch => (127, 5),
            Self::Thou => (127, 5000),
            Self::Foot => (1524, 5),
        }
    }
}

impl From<Unit> for LengthUnit {
    fn from(unit: Unit) -> Self {
        match unit {
            Unit::Mm => Self::Millimeter,
            Unit::Inch => Self::Inch,
        }
    }
}

/// An unsigned length as typed.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Measure {
    /// A number with the unit that stands behind it.
    Number {
        value: Ratio,
        fraction: bool,
        unit: Option<LengthUnit>,
        typed: String,
    },
    /// A drill size, which is a length by itself.
    Drill { mm: Ratio, typed: String },
}

impl Measure {
    pub(crate) const fn unit(&self) -> Option<LengthUnit> {
        match self {
            Self::Number { unit, .. } => *unit,
            Self::Drill { .. } => None,
        }
    }

    pub(crate) fn typed(&self) -> &str {
        match self {
            Self::Number { typed, .. } | Self::Drill { typed, .. } => typed,
        }
    }

    pub(crate) const fn is_drill(&self) -> bool {
        matches!(self, Self::Drill { .. })
    }

    pub(crate) const fn is_zero(&self) -> bool {
        match self {
            Self::Number { value, .. } => value.is_zero(),
            Self::Drill { .. } => false,
        }
    }

    /// In millimeters, a bare number being meant in `bare`.
    pub(crate) fn mm(&self, bare: Bare, what: What) -> Result<Ratio, Misread> {
        let mm = match self {
            Self::Drill { mm, .. } => *mm,
            Self::Number {
                value,
                fraction,
                unit,
                typed,
            } => {
                // Of millimeters a fraction below one is an inch size in all likelihood; above one it
                // is a quotient: inches would be written as a mixed number.
                let is_quotient = value.at_least(Ratio::whole(1)) && !is_mixed(typed);
                if *fraction && unit.is_none() && bare.unit.is_metric() && !is_quotient {
                    return Err(Misread::FractionWithoutUnit {
                        fraction: typed.clone(),
                    });
                }
                let (above, below) = unit.unwrap_or(bare.unit).mm();
                Ratio::new(above, below)
                    .and_then(|factor| value.mul(factor))
                    .ok_or_else(|| Misread::TooManyDigits {
                        number: typed.clone(),
                    })?
            }
        };
        if mm.at_least(LARGEST_MM) {
            return Err(Misread::TooLarge { what, most: "1 km" });
        }
        Ok(mm)
    }
}

/// Whether a number is written as a whole one and a fraction: `1-1/4`, `1 1/4`.
fn is_mixed(typed: &str) -> bool {
    typed.trim().contains([' ', '-'])
}

/// The unit of bare numbers in one text.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Bare {
    pub(crate) unit: LengthUnit,
    /// True where the text itself says it somewhere.
    pub(crate) said: bool,
}

/// A unit given anywhere in a text holds for its bare numbers too; else the context's does.
pub(crate) fn bare_unit(measures: &[&Measure], context: Unit) -> Result<Bare, Misread> {
    let mut said: Option<LengthUnit> = None;
    let mut differ = false;
    for unit in measures.iter().filter_map(|measure| measure.unit()) {
        differ |= said.is_some_and(|other| other != unit);
        said = Some(unit);
    }
    let some_bare = measures
        .iter()
        .any(|measure| measure.unit().is_none() && !measure.is_drill() && !measure.is_zero());
    if differ && some_bare {
        return Err(Misread::MixedUnits);
    }
    Ok(Bare {
        unit: said.unwrap_or_else(|| context.into()),
        said: said.is_some(),
    })
}

/// Reads a number with its unit, where one starts here.
pub(crate) fn measure(scan: &mut Scan) -> Result<Option<Measure>, Misread> {
    let Some(number) = number(scan)? else {
        return Ok(None);
    };
    Ok(Some(Measure::Number {
        value: number.value,
        fraction: number.fraction,
        unit: length_unit(scan),
        typed: number.typed,
    }))
}

/// Reads a number with its unit or a drill size, where one starts here.
pub(crate) fn diameter(scan: &mut Scan) -> Result<Option<Measure>, Misread> {
    match drill(scan)? {
        Some(drill) => Ok(Some(drill)),
        None => measure(scan),
    }
}

/// The same behind another size, where a letter is no drill any more but the `x` of `36x`.
pub(crate) fn second_diameter(scan: &mut Scan) -> Result<Option<Measure>, Misread> {
    if scan.peek().is_some_and(char::is_alphabetic) {
        let mark = scan.mark();
        if scan.word().is_some_and(|word| word.chars().count() == 1) {
            scan.back_to(mark);
            return Ok(None);
        }
        scan.back_to(mark);
    }
    diameter(scan)
}

/// Takes a unit of length.
pub(crate) fn length_unit(scan: &mut Scan) -> Option<LengthUnit> {
    const WORDS: [(&[&str], LengthUnit); 6] = [
        (
            &[
                "mm",
                "millimeter",
                "millimeters",
                "millimetre",
                "millimetres",
            ],
            LengthUnit::Millimeter,
        ),
        (
            &[
                "cm",
                "centimeter",
                "centimeters",
                "centimetre",
                "centimetres",
            ],
            LengthUnit::Centimeter,
        ),
        (&["\u{b5}m", "um", "micron", "microns"], LengthUnit::Micron),
        (&["in", "inch", "inches"], LengthUnit::Inch),
        (&["thou", "mil", "mils"], LengthUnit::Thou),
        (&["ft", "foot", "feet"], LengthUnit::Foot),
    ];
    if scan.eat('"') {
        return Some(LengthUnit::Inch);
    }
    WORDS
        .into_iter()
        .find_map(|(words, unit)| scan.eat_word(words).then_some(unit))
}

/// Reads `#60`, `No. 60`, `letter F`, `F drill`, `F`.
pub(crate) fn drill(scan: &mut Scan) -> Result<Option<Measure>, Misread> {
    let start = scan.mark();
    scan.eat_word(&["drill", "size"]);
    let number_word = scan.eat_word(&["no", "nr", "num", "number"]);
    if number_word && scan.here() == Some('.') {
        scan.step();
    }
    let sign = scan.eat('#');
    let found = if sign || number_word {
        scan.digits().map(|digits| {
            let number = digits.parse::<u8>().unwrap_or(0);
            (digits, Drill::Number(number))
        })
    } else {
        scan.eat_word(&["letter"]);
        single_letter(scan).map(|letter| (letter.to_string(), Drill::Letter(letter)))
    };
    let Some((name, drill)) = found else {
        scan.back_to(start);
        return Ok(None);
    };
    scan.eat_word(&["drill"]);
    let typed = scan.between(start, scan.mark()).trim().to_owned();
    let mm = drill
        .ratio_mm()
        .and_then(|(above, below)| Ratio::new(above, below));
    match mm {
        Some(mm) => Ok(Some(Measure::Drill { mm, typed })),
        None => Err(Misread::NoSuchDrill { drill: name }),
    }
}

/// One letter that is no part of a word and has no digits behind it.
fn single_letter(scan: &mut Scan) -> Option<char> {
    let mark = scan.mark();
    if let Some(word) = scan.word() {
        let mut letters = word.chars();
        if let (Some(letter), None) = (letters.next(), letters.next())
            && letter.is_ascii_alphabetic()
            && !scan.here().is_some_and(|c| c.is_ascii_digit())
        {
            return Some(letter.to_ascii_uppercase());
        }
    }
    scan.back_to(mark);
    None
}

/// An exact number of millimeters as a length.
pub(crate) fn to_length(mm: Ratio, what: What) -> Result<Length, Misread> {
    let (above, below) = mm.parts();
    Length::from_ratio_mm(above, below).ok_or(Misread::TooLarge { what, most: "1 km" })
}

/// What signs a length may have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Sign {
    Positive,
    NotNegative,
    Any,
}

/// Reads the whole rest of a text as one signed length.
pub(crate) fn whole_length(
    scan: &mut Scan,
    unit: Unit,
    what: What,
    sign: Sign,
) -> Result<Length, Misread> {
    let negative = scan.eat('-');
    if !negative {
        scan.eat('+');
    }
    let start = scan.mark();
    if let Some(Measure::Drill { typed, .. }) = drill(scan)? {
        return Err(Misread::DrillIsADiameter { drill: typed });
    }
    let Some(measure) = measure(scan)? else {
        scan.back_to(start);
        return Err(Misread::Not {
            what,
            found: scan.rest(),
        });
    };
    if !scan.at_end() {
        return Err(Misread::LeftOver {
            what,
            rest: scan.rest(),
        });
    }
    let mm = measure.mm(bare_unit(&[&measure], unit)?, what)?;
    if mm.is_zero() && sign == Sign::Positive {
        return Err(Misread::Zero { what });
    }
    if negative && !mm.is_zero() && sign != Sign::Any {
        return Err(Misread::Negative { what });
    }
    let length = to_length(mm, what)?;
    Ok(if negative && !mm.is_zero() {
        -length
    } else {
        length
    })
}
