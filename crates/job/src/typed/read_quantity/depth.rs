//! Depths on a hole's axis, with their limits, and the word that a hole goes through.

use super::beside::units;
use super::deviations::{Deviations, deviations};
use super::exact::Ratio;
use super::measure::{Measure, bare_unit, drill, measure, to_length};
use super::misread::{Misread, What};
use super::scan::Scan;
use super::size::{Bound, eat_bound, no_pair_meant};
use super::twice::twice;
use crate::typed::entry::Unit;
use crate::typed::quantity::Depth;
use quillbore_calc::Limits;

const WHAT: What = What::Depth;

/// Reads a depth on a hole's axis: `14`, `.55 deep`, `12 +-0.2`, `12 +.1/-0`, `12.0-12.4`, `thru`,
/// `14 thru`.
pub fn depth(text: &str, unit: Unit) -> Result<Depth, Misread> {
    let mut scan = Scan::of_length(text)?.without_brackets();
    let mut through = eat_words(&mut scan);
    if through && scan.at_end() {
        return Ok(Depth {
            through,
            ..Depth::default()
        });
    }
    let bound = eat_bound(&mut scan);
    let negative = scan.eat('-');
    if !negative {
        scan.eat('+');
    }
    let first = number(&mut scan)?;
    through |= eat_words(&mut scan);
    let bound = bound.or_else(|| eat_bound(&mut scan));
    let mut depth = match bound {
        Some(bound) => bounded(&mut scan, bound, &first, unit)?,
        None => with_tail(&mut scan, &first, unit)?,
    };
    through |= eat_words(&mut scan);
    if !scan.at_end() {
        return Err(Misread::LeftOver {
            what: WHAT,
            rest: scan.rest(),
        });
    }
    if negative {
        return Err(Misread::Negative { what: WHAT });
    }
    depth.through = through;
    Ok(depth)
}

/// Takes words that say no more than that this is a depth; true where one says that it goes through.
fn eat_words(scan: &mut Scan) -> bool {
    let mut through = false;
    loop {
        if scan.eat_word(&["thru", "through", "thro"]) {
            scan.eat_word(&["all"]);
            through = true;
        } else if !scan.eat('\u{21a7}') && !scan.eat_word(&["depth", "deep", "dp"]) {
            return through;
        }
    }
}

fn number(scan: &mut Scan) -> Result<Measure, Misread> {
    let start = scan.mark();
    if let Some(Measure::Drill { typed, .. }) = drill(scan)? {
        return Err(Misread::DrillIsADiameter { drill: typed });
    }
    if let Some(number) = measure(scan)? {
        return Ok(number);
    }
    scan.back_to(start);
    Err(Misread::Not {
        what: WHAT,
        found: scan.rest(),
    })
}

/// `12.4 MAX`, which leaves the other limit open, or `12.0 MIN 12.4 MAX` in either order.
fn bounded(scan: &mut Scan, bound: Bound, first: &Measure, unit: Unit) -> Result<Depth, Misread> {
    let _ = ['/', ',', ';', '-'].into_iter().any(|sign| scan.eat(sign));
    let other = eat_bound(scan);
    let Some(second) = measure(scan)? else {
        return Err(Misread::DepthLimitAlone {
            typed: first.typed().to_owned(),
        });
    };
    match other.or_else(|| eat_bound(scan)) {
        Some(other) if other != bound => pair(first, &second, unit),
        _ => Err(Misread::LeftOver {
            what: WHAT,
            rest: second.typed().to_owned(),
        }),
    }
}

/// What follows the first number: nothing, a tolerance, a second limit.
fn with_tail(scan: &mut Scan, first: &Measure, unit: Unit) -> Result<Depth, Misread> {
    let mark = scan.mark();
    if !scan.eat_word(&["to"]) && !scan.eat_all("..") {
        if let Some(deviations) = deviations(scan)? {
            return around(first, &deviations, unit);
        }
        let _ = scan.eat('-') || scan.eat('/');
    }
    if let Some(second) = measure(scan)? {
        return pair(first, &second, unit);
    }
    scan.back_to(mark);
    no_pair_meant(first)?;
    let mm = first.mm(bare_unit(&[first], unit)?, WHAT)?;
    if mm.is_zero() {
        return Err(Misread::Zero { what: WHAT });
    }
    without_limits(mm)
}

fn without_limits(mm: Ratio) -> Result<Depth, Misread> {
    let nominal = to_length(mm, WHAT)?;
    Ok(Depth {
        through: false,
        nominal: Some(nominal),
        limits: None,
        aim: Some(nominal),
    })
}

fn around(first: &Measure, deviations: &Deviations, unit: Unit) -> Result<Depth, Misread> {
    let units = units(first, deviations, unit, WHAT)?;
    let nominal = first.mm(units.nominal, WHAT)?;
    if nominal.is_zero() {
        return Err(Misread::Zero { what: WHAT });
    }
    let (lower, upper) = deviations.mm(units.deviations)?;
    let sum = |deviation| {
        nominal
            .add(deviation)
            .ok_or_else(|| Misread::TooManyDigits {
                number: first.typed().to_owned(),
            })
    };
    let depth = between(sum(lower)?, sum(upper)?)?;
    Ok(Depth {
        nominal: Some(to_length(nominal, WHAT)?),
        ..depth
    })
}

/// Two limits in either order, or one depth in two units.
fn pair(first: &Measure, second: &Measure, unit: Unit) -> Result<Depth, Misread> {
    if let Some(one) = twice(first, second, WHAT)? {
        return without_limits(one);
    }
    let bare = bare_unit(&[first, second], unit)?;
    let (one, two) = (first.mm(bare, WHAT)?, second.mm(bare, WHAT)?);
    let (lower, upper) = if one.at_least(two) {
        (two, one)
    } else {
        (one, two)
    };
    if upper.is_zero() {
        return Err(Misread::Zero { what: WHAT });
    }
    let doubled = lower.add(lower);
    if !doubled.is_some_and(|doubled| doubled.at_least(upper)) {
        return Err(Misread::NoPair {
            first: first.typed().to_owned(),
            second: second.typed().to_owned(),
        });
    }
    between(lower, upper)
}

/// A depth whose limits alone are known: the middle is aimed at.
fn between(lower: Ratio, upper: Ratio) -> Result<Depth, Misread> {
    if lower.to_f64() == upper.to_f64() {
        return Err(Misread::EqualLimits);
    }
    if lower.is_zero() || lower.is_negative() {
        return Err(Misread::LowerLimitNotAboveZero);
    }
    let middle = Ratio::new(1, 2).and_then(|half| lower.add(upper)?.mul(half));
    let middle = middle.ok_or_else(|| Misread::TooManyDigits {
        number: upper.to_f64().to_string(),
    })?;
    Ok(Depth {
        through: false,
        nominal: None,
        limits: Some(Limits::new(
            to_length(lower, WHAT)?,
            to_length(upper, WHAT)?,
        )),
        aim: Some(to_length(middle, WHAT)?),
    })
}
