//! Hole sizes with their limits, as drawings give them.

use quillbore_calc::Limits;
use quillbore_calc::standards::fits;

use super::beside::units;
use super::deviations::{Deviations, deviations};
use super::exact::Ratio;
use super::measure::{Bare, Measure, bare_unit, diameter, second_diameter, to_length};
use super::misread::{Misread, What};
use super::scan::Scan;
use super::twice::twice;
use crate::typed::entry::Unit;
use crate::typed::quantity::{LimitsGiven, Size};

const DIAMETER_WORDS: [&str; 4] = ["dia", "diam", "diameter", "drill"];
const NOMINAL_WORDS: [&str; 7] = ["basic", "bsc", "nom", "nominal", "ref", "reference", "hole"];

/// Reads a hole size: `0.80 +-0.02`, `.031 +.003/-0`, `0.78-0.82`, `0.82 MAX`, `3 H7`, `#60`.
pub fn size(text: &str, unit: Unit) -> Result<Size, Misread> {
    let mut scan = Scan::of_length(text)?.without_brackets();
    eat_diameter_words(&mut scan);
    let bound = eat_bound(&mut scan);
    eat_diameter_words(&mut scan);
    let Some(first) = diameter(&mut scan)? else {
        return Err(Misread::Not {
            what: What::Size,
            found: scan.rest(),
        });
    };
    eat_diameter_words(&mut scan);
    let size = match bound.or_else(|| eat_bound(&mut scan)) {
        Some(bound) => bounded(&mut scan, bound, &first, unit)?,
        None => with_tail(&mut scan, &first, unit)?,
    };
    eat_diameter_words(&mut scan);
    if scan.at_end() {
        Ok(size)
    } else {
        Err(left_over(&mut scan))
    }
}

/// `MAX` or `MIN` before or behind a number.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Bound {
    Least,
    Most,
}

pub(super) fn eat_bound(scan: &mut Scan) -> Option<Bound> {
    if scan.eat_word(&["max", "maximum"]) || scan.eat('\u{2264}') || scan.eat_all("<=") {
        Some(Bound::Most)
    } else if scan.eat_word(&["min", "minimum"]) || scan.eat('\u{2265}') || scan.eat_all(">=") {
        Some(Bound::Least)
    } else {
        None
    }
}

fn eat_diameter_words(scan: &mut Scan) {
    while scan.eat('\u{d8}') || scan.eat_word(&DIAMETER_WORDS) {}
}

/// `0.82 MAX`, or `0.78 MIN 0.82 MAX` in either order.
fn bounded(scan: &mut Scan, bound: Bound, first: &Measure, unit: Unit) -> Result<Size, Misread> {
    let mark = scan.mark();
    let _ = ['/', ',', ';', '-'].into_iter().any(|sign| scan.eat(sign));
    eat_diameter_words(scan);
    let other_bound = eat_bound(scan);
    eat_diameter_words(scan);
    if let Some(second) = second_diameter(scan)? {
        let other_bound = other_bound.or_else(|| eat_bound(scan));
        return match other_bound {
            Some(other) if other != bound => pair(first, &second, unit),
            _ => Err(left_over(scan)),
        };
    }
    scan.back_to(mark);
    if bound == Bound::Least {
        return Err(Misread::MinimumAlone);
    }
    let upper = first.mm(bare_unit(&[first], unit)?, What::Size)?;
    if upper.is_zero() {
        return Err(Misread::Zero { what: What::Size });
    }
    Ok(Size {
        nominal: None,
        lower: to_length(Ratio::ZERO, What::Size)?,
        upper: to_length(upper, What::Size)?,
        given: LimitsGiven::Max,
    })
}

/// What follows the first number: nothing, a tolerance, a second limit, a class of fit.
fn with_tail(scan: &mut Scan, first: &Measure, unit: Unit) -> Result<Size, Misread> {
    if scan.eat_word(&NOMINAL_WORDS) || scan.at_end() {
        no_pair_meant(first)?;
        let nominal = first.mm(bare_unit(&[first], unit)?, What::Size)?;
        return around(nominal, Ratio::ZERO, Ratio::ZERO, LimitsGiven::None);
    }
    if !scan.eat_word(&["to"]) && !scan.eat_all("..") {
        if let Some(class) = class_of_fit(scan) {
            return of_class(first, class, unit);
        }
        if let Some(deviations) = deviations(scan)? {
            if scan.peek() == Some('%') {
                return Err(Misread::LeftOver {
                    what: What::Tolerance,
                    rest: scan.rest(),
                });
            }
            return with_deviations(first, &deviations, unit);
        }
        let _ = scan.eat('-') || scan.eat('/');
    }
    eat_diameter_words(scan);
    match second_diameter(scan)? {
        Some(second) => pair(first, &second, unit),
        None => Err(left_over(scan)),
    }
}

fn with_deviations(first: &Measure, deviations: &Deviations, unit: Unit) -> Result<Size, Misread> {
    let units = units(first, deviations, unit, What::Size)?;
    if first.is_drill() && unit == Unit::Mm && !units.deviations.said {
        return Err(Misread::DrillToleranceWithoutUnit);
    }
    let nominal = first.mm(units.nominal, What::Size)?;
    let (lower, upper) = deviations.mm(units.deviations)?;
    let given = if deviations.symmetric() {
        LimitsGiven::PlusMinus
    } else {
        LimitsGiven::Unequal
    };
    around(nominal, lower, upper, given)
}

/// The size whose limits lie by these deviations about a nominal one.
fn around(nominal: Ratio, lower: Ratio, upper: Ratio, given: LimitsGiven) -> Result<Size, Misread> {
    if nominal.is_zero() {
        return Err(Misread::Zero { what: What::Size });
    }
    let sum = |deviation| {
        nominal
            .add(deviation)
            .ok_or_else(|| Misread::TooManyDigits {
                number: nominal.to_f64().to_string(),
            })
    };
    let (lower, upper) = (sum(lower)?, sum(upper)?);
    if lower.to_f64() == upper.to_f64() && given != LimitsGiven::None {
        return Err(Misread::EqualLimits);
    }
    if lower.is_zero() || lower.is_negative() {
        return Err(Misread::LowerLimitNotAboveZero);
    }
    Ok(Size {
        nominal: Some(to_length(nominal, What::Size)?),
        lower: to_length(lower, What::Size)?,
        upper: to_length(upper, What::Size)?,
        given,
    })
}

/// Two limits in either order, or one size in two units.
fn pair(first: &Measure, second: &Measure, unit: Unit) -> Result<Size, Misread> {
    if let Some(one) = twice(first, second, What::Size)? {
        return around(one, Ratio::ZERO, Ratio::ZERO, LimitsGiven::None);
    }
    // A drill list is in inches, and so is the decimal that it prints beside a drill.
    let unit = if first.is_drill() { Unit::Inch } else { unit };
    let bare = bare_unit(&[first, second], unit)?;
    let (one, two) = (first.mm(bare, What::Size)?, second.mm(bare, What::Size)?);
    if first.is_drill() && !second.is_drill() {
        // `#60 (.040)`: the drawing says the same thing twice, or contradicts itself.
        return if one == two {
            around(one, Ratio::ZERO, Ratio::ZERO, LimitsGiven::None)
        } else {
            Err(Misread::DrillAndSize {
                drill: first.typed().to_owned(),
                size: second.typed().to_owned(),
            })
        };
    }
    let (lower, upper) = if one.at_least(two) {
        (two, one)
    } else {
        (one, two)
    };
    if upper.is_zero() {
        return Err(Misread::Zero { what: What::Size });
    }
    let doubled = lower.add(lower);
    if !doubled.is_some_and(|doubled| doubled.at_least(upper)) {
        return Err(Misread::NoPair {
            first: first.typed().to_owned(),
            second: second.typed().to_owned(),
        });
    }
    if one.to_f64() == two.to_f64() {
        return Err(Misread::EqualLimits);
    }
    Ok(Size {
        nominal: None,
        lower: to_length(lower, What::Size)?,
        upper: to_length(upper, What::Size)?,
        given: LimitsGiven::Pair,
    })
}

/// `10/11` may be a fraction or two limits; only halves, quarters and so on are surely fractions.
pub(super) fn no_pair_meant(first: &Measure) -> Result<(), Misread> {
    if let Measure::Number {
        value,
        fraction: true,
        typed,
        ..
    } = first
        && let Some((above, below)) = typed.split_once('/')
        && u128::try_from(value.parts().1).is_ok_and(|below| !below.is_power_of_two())
        && value
            .add(*value)
            .is_some_and(|twice| twice.at_least(Ratio::whole(1)))
    {
        return Err(Misread::TwoReadings {
            text: typed.clone(),
            one: format!("{}-{}", above.trim(), below.trim()),
            other: format!("{:.4}", value.to_f64()),
        });
    }
    Ok(())
}

/// Takes one or two letters with one or two digits: `H7`, `JS 9`.
fn class_of_fit(scan: &mut Scan) -> Option<String> {
    let mark = scan.mark();
    if let Some(letters) = scan.word()
        && letters.is_ascii()
        && letters.len() <= 2
        && (scan.here() != Some(' ') || letters.starts_with(|c: char| c.is_ascii_uppercase()))
        && let Some(grade) = scan.digits()
        && grade.len() <= 2
    {
        return Some(format!("{letters}{grade}"));
    }
    scan.back_to(mark);
    None
}

fn of_class(first: &Measure, class: String, unit: Unit) -> Result<Size, Misread> {
    if class.starts_with(|letter: char| letter.is_ascii_lowercase()) {
        return Err(Misread::ShaftClass { class });
    }
    let bare: Bare = bare_unit(&[first], unit)?;
    if unit == Unit::Inch && !bare.said && !first.is_drill() {
        return Err(Misread::ClassOnInches { class });
    }
    let class = class.to_ascii_uppercase();
    let nominal = first.mm(bare, What::Size)?;
    let deviations = fits::deviations_um(to_length(nominal, What::Size)?, &class);
    let micrometers = deviations.and_then(|Limits { lower, upper }| {
        Some((half_micrometers(lower)?, half_micrometers(upper)?))
    });
    match micrometers {
        Some((lower, upper)) => around(nominal, lower, upper, LimitsGiven::FitClass(class)),
        None => Err(Misread::NoSuchClass { class }),
    }
}

/// A deviation of the table, which has whole and half micrometers, as exact millimeters.
#[expect(
    clippy::cast_possible_truncation,
    reason = "the table's deviations are below a thousand micrometers"
)]
fn half_micrometers(um: f64) -> Option<Ratio> {
    Ratio::new((um * 2.0).round() as i128, 2000)
}

fn left_over(scan: &mut Scan) -> Misread {
    Misread::LeftOver {
        what: What::Size,
        rest: scan.rest(),
    }
}
