//! Figures of the working, for overrules: feed, minutes, hours, parts of a vector.

use super::amounts::{at_end, unsigned};
use super::exact::Ratio;
use super::measure::{LengthUnit, length_unit};
use super::misread::{Misread, What};
use super::number::number;
use super::scan::Scan;
use super::whole::grouped_or_not;
use crate::typed::entry::Unit;

/// Reads a feed in millimeters a minute: `15`, `15 mm/min`, `0.6 in/min`, `0.6 ipm`.
pub fn feed_mm_min(text: &str, unit: Unit) -> Result<f64, Misread> {
    let what = What::Feed;
    let mut scan = Scan::new(text)?;
    let (value, typed) = unsigned(&mut scan, what)?;
    let length = if scan.eat_word(&["ipm"]) {
        LengthUnit::Inch
    } else {
        let length = length_unit(&mut scan);
        if length.is_some() && !per_minute(&mut scan) {
            return Err(Misread::LeftOver {
                what,
                rest: scan.rest(),
            });
        }
        length.unwrap_or_else(|| unit.into())
    };
    at_end(&mut scan, what)?;
    let (above, below) = length.mm();
    positive(value, Ratio::new(above, below), what, &typed)
}

fn per_minute(scan: &mut Scan) -> bool {
    (scan.eat('/') || scan.eat_word(&["per", "a"])) && scan.eat_word(&["min", "minute"])
}

/// Reads minutes: `2.5`, `2.5 min`, `90 s`, `1 h 30 min`.
pub fn minutes(text: &str) -> Result<f64, Misread> {
    time(text, What::Minutes, 60)
}

/// Reads minutes that may be none.
pub fn minutes_or_none(text: &str) -> Result<f64, Misread> {
    match minutes(text) {
        Err(Misread::Zero { .. }) => Ok(0.0),
        read => read,
    }
}

/// Reads hours: `3.5`, `3.5 h`, `210 min`, `3 h 30 min`.
pub fn hours(text: &str) -> Result<f64, Misread> {
    time(text, What::Hours, 3600)
}

/// Reads a time in units of `seconds` each, which a bare number is in too.
fn time(text: &str, what: What, seconds: i128) -> Result<f64, Misread> {
    let mut scan = Scan::new(text)?;
    let mut total = Ratio::ZERO;
    let mut bare_before = false;
    loop {
        let (value, typed) = unsigned(&mut scan, what)?;
        let unit = time_unit(&mut scan);
        if bare_before {
            return Err(Misread::LeftOver { what, rest: typed });
        }
        // A point is the decimal point of a counter; a comma is that in one office and a mark for thousands
        // in the next, and a thousandfold of a minute teaches something absurd.
        if typed.contains(',')
            && let Some(readings) = grouped_or_not(&typed)
        {
            return Err(readings);
        }
        bare_before = unit.is_none();
        total = value
            .mul(Ratio::whole(unit.unwrap_or(seconds)))
            .and_then(|part| total.add(part))
            .ok_or(Misread::TooManyDigits { number: typed })?;
        if scan.at_end() {
            break;
        }
    }
    positive(total, Ratio::new(1, seconds), what, text.trim())
}

/// Takes a unit of time; seconds in one.
fn time_unit(scan: &mut Scan) -> Option<i128> {
    if scan.eat_word(&["s", "sec", "secs", "second", "seconds"]) {
        Some(1)
    } else if scan.eat_word(&["min", "mins", "minute", "minutes", "m"]) {
        Some(60)
    } else if scan.eat_word(&["h", "hr", "hrs", "hour", "hours"]) {
        Some(3600)
    } else {
        None
    }
}

fn positive(value: Ratio, factor: Option<Ratio>, what: What, typed: &str) -> Result<f64, Misread> {
    if value.is_zero() {
        return Err(Misread::Zero { what });
    }
    let value =
        factor
            .and_then(|factor| value.mul(factor))
            .ok_or_else(|| Misread::TooManyDigits {
                number: typed.to_owned(),
            })?;
    if value.at_least(Ratio::whole(10_000_000)) {
        return Err(Misread::TooLarge {
            what,
            most: "ten million",
        });
    }
    Ok(value.to_f64())
}

/// Reads a plain number above 0: `7.85`, `1/3`.
pub fn plain_number(text: &str) -> Result<f64, Misread> {
    match number_or_none(text)? {
        0.0 => Err(Misread::Zero { what: What::Number }),
        number => Ok(number),
    }
}

/// Reads a plain number of 0 or more.
pub fn number_or_none(text: &str) -> Result<f64, Misread> {
    let what = What::Number;
    let mut scan = Scan::new(text)?;
    let (value, typed) = unsigned(&mut scan, what)?;
    at_end(&mut scan, what)?;
    if value.is_zero() {
        return Ok(0.0);
    }
    positive(value, Some(Ratio::whole(1)), what, &typed)
}

/// Reads plain degrees of any sign: `60`, `-15`, `15 deg`.
pub fn degrees_of_tilt(text: &str) -> Result<f64, Misread> {
    let plain = text.trim().trim_end_matches('\u{b0}');
    let without = plain
        .strip_suffix("degrees")
        .or_else(|| plain.strip_suffix("deg"));
    signed(without.unwrap_or(plain), What::Turn)
}

/// Reads one part of a direction's vector: a plain number of any sign.
pub fn vector_part(text: &str) -> Result<f64, Misread> {
    signed(text, What::VectorPart)
}

fn signed(text: &str, what: What) -> Result<f64, Misread> {
    let mut scan = Scan::new(text)?;
    let negative = scan.eat('-');
    if !negative {
        scan.eat('+');
    }
    let Some(part) = number(&mut scan)? else {
        return Err(Misread::Not {
            what,
            found: scan.rest(),
        });
    };
    at_end(&mut scan, what)?;
    let part = part.value.to_f64();
    Ok(if negative && part != 0.0 { -part } else { part })
}
