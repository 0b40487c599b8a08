//! Showing numbers, such that what is shown can be typed back and means what was shown.
//!
//! A real minus sign, a thin space between groups of three digits, a point, and only as many
//! digits as are worth reading.

use quillbore_calc::price::money as rounded_money;
use quillbore_calc::quantity::MM_PER_INCH;
use quillbore_calc::{Angle, Band, Length, Limits};
use rust_decimal::{Decimal, RoundingStrategy};

use crate::typed::entry::Unit;
use crate::typed::quantity::{LimitsGiven, Size};

const MINUS: char = '\u{2212}';
const THIN_SPACE: char = '\u{2009}';
const PLUS_MINUS: char = '\u{b1}';

/// What stands for a number that is none.
const UNKNOWN: &str = "?";

/// Decimals of a length: at most this many, and no fewer than two.
const fn most_decimals(unit: Unit) -> usize {
    match unit {
        Unit::Mm => 3,
        Unit::Inch => 4,
    }
}

/// A length in the unit, without it: `0.80`, `12.345`, `0.0315`.
#[must_use]
pub fn length(length: Length, unit: Unit) -> String {
    fixed(in_unit(length, unit), 2, most_decimals(unit))
}

/// A number of millimeters in the unit, without it.
#[must_use]
pub fn length_mm(mm: f64, unit: Unit) -> String {
    Length::from_mm(mm).map_or_else(|| UNKNOWN.to_owned(), |mm| length(mm, unit))
}

/// A number of millimeters in the unit, as one reads it off a rule: `343`, `13.50`.
#[must_use]
pub fn length_by_rule(mm: f64, unit: Unit) -> String {
    match unit {
        Unit::Mm => fixed(mm, 0, 0),
        Unit::Inch => fixed(mm / MM_PER_INCH, 2, 2),
    }
}

/// A number of millimeters with the unit: `0.80 mm`, `0.0315 in`.
#[must_use]
pub fn length_with_unit(mm: f64, unit: Unit) -> String {
    let name = match unit {
        Unit::Mm => "mm",
        Unit::Inch => "in",
    };
    format!("{} {name}", length_mm(mm, unit))
}

/// A size as a drawing would give it, each number with the same decimals: `0.80 \u{b1}0.02`,
/// `0.031 +0.003/0.000`, `0.78\u{2013}0.82`, `0.82 max`, `3.00 H7`.
#[must_use]
pub fn size(size: &Size, unit: Unit) -> String {
    let nominal = size.nominal.unwrap_or(size.upper);
    let both = || limits(Limits::new(size.lower.mm(), size.upper.mm()), unit);
    match &size.given {
        LimitsGiven::PlusMinus => {
            let [nominal, upper] = same_decimals([nominal, size.upper - nominal], unit);
            format!("{nominal} {PLUS_MINUS}{upper}")
        }
        LimitsGiven::Unequal => {
            let deviations = [size.upper - nominal, size.lower - nominal];
            let sign = deviations.map(|one| if one.mm() > 0.0 { "+" } else { "" });
            let [nominal, upper, lower] =
                same_decimals([nominal, deviations[0], deviations[1]], unit);
            format!("{nominal} {}{upper}/{}{lower}", sign[0], sign[1])
        }
        LimitsGiven::Pair => both(),
        // A class belongs to a metric size; in inches its limits say more.
        LimitsGiven::FitClass(_) if unit == Unit::Inch => both(),
        LimitsGiven::Max => format!("{} max", length(nominal, unit)),
        LimitsGiven::FitClass(class) => format!("{} {class}", length(nominal, unit)),
        LimitsGiven::None => length(nominal, unit),
    }
}

/// Lengths that stand beside each other, each with as many decimals as the one that has most.
fn same_decimals<const N: usize>(lengths: [Length; N], unit: Unit) -> [String; N] {
    let values = lengths.map(|length| in_unit(length, unit));
    let decimals = most_decimals_of(&values, unit);
    values.map(|value| fixed(value, decimals, decimals))
}

/// Millimeters that are named in one breath, in the unit, without it, with the same decimals.
#[must_use]
pub fn lengths_mm(lengths_mm: &[f64], unit: Unit) -> Vec<String> {
    let lengths = lengths_mm.iter().copied();
    let values = lengths.map(|mm| Length::from_mm(mm).map_or(f64::NAN, |mm| in_unit(mm, unit)));
    let values: Vec<f64> = values.collect();
    let decimals = most_decimals_of(&values, unit);
    let shown = values.iter();
    shown
        .map(|value| fixed(*value, decimals, decimals))
        .collect()
}

/// As many decimals as that one of some values needs which needs most.
fn most_decimals_of(values: &[f64], unit: Unit) -> usize {
    let most = most_decimals(unit);
    let decimals = values.iter().map(|value| {
        let text = fixed(*value, 2, most);
        text.split_once('.').map_or(0, |(_, part)| part.len())
    });
    decimals.max().unwrap_or(2)
}

fn in_unit(length: Length, unit: Unit) -> f64 {
    match unit {
        Unit::Mm => length.mm(),
        Unit::Inch => length.inch(),
    }
}

/// Two limits in millimeters, in the unit, without it, with the same decimals: `0.78\u{2013}0.82`.
#[must_use]
pub fn limits(limits_mm: Limits, unit: Unit) -> String {
    let Limits { lower, upper } = limits_mm.map(Length::from_mm);
    match (lower, upper) {
        (Some(lower), Some(upper)) => same_decimals([lower, upper], unit).join("\u{2013}"),
        _ => format!(
            "{}\u{2013}{}",
            length_mm(limits_mm.lower, unit),
            length_mm(limits_mm.upper, unit)
        ),
    }
}

/// An angle without its sign, at most two decimals: `60`, `12.25`.
#[must_use]
pub fn angle(angle: Angle) -> String {
    fixed(angle.deg(), 0, 2)
}

/// A number of degrees with its sign: `60\u{b0}`.
#[must_use]
pub fn angle_with_unit(deg: f64) -> String {
    format!("{}\u{b0}", fixed(deg, 0, 2))
}

/// Minutes, with two decimals below ten, one below a hundred, none above.
#[must_use]
pub fn minutes(minutes: f64) -> String {
    graded(minutes, 2)
}

/// Minutes with their unit: `4.33 min`.
#[must_use]
pub fn minutes_with_unit(value: f64) -> String {
    format!("{} min", minutes(value))
}

/// Hours, with one decimal below ten, none above.
#[must_use]
pub fn hours(hours: f64) -> String {
    graded(hours, 1)
}

/// Hours with their spread, low, likely and high: all with as many decimals as the likely ones.
#[must_use]
pub fn hours_band(band: Band) -> [String; 3] {
    let decimals = graded_decimals(band.p50, 1);
    [band.p10, band.p50, band.p90].map(|hours| fixed(hours, decimals, decimals))
}

/// Hours with their unit: `41 h`.
#[must_use]
pub fn hours_with_unit(value: f64) -> String {
    format!("{} h", hours(value))
}

/// A share as whole percent: what is known no better.
#[must_use]
pub fn percent_rough(share: f64) -> String {
    format!("{} %", fixed(share * 100.0, 0, 0))
}

/// A share as percent, at most one decimal: `12.5 %`.
#[must_use]
pub fn percent(share: f64) -> String {
    format!("{} %", fixed(share * 100.0, 0, 1))
}

/// A number of things, rounded to a whole one.
#[must_use]
pub fn count(count: f64) -> String {
    fixed(count, 0, 0)
}

/// A number to this many significant digits; digits before the point are never lost.
#[must_use]
pub fn number(value: f64, significant: usize) -> String {
    if value == 0.0 || !value.is_finite() {
        return fixed(value, 0, 0);
    }
    // The exponent as printed is exact where a logarithm could be off by one.
    let printed = format!("{value:.*e}", significant.saturating_sub(1));
    let exponent = printed
        .split_once('e')
        .and_then(|(_, exponent)| exponent.parse::<i64>().ok())
        .unwrap_or(0);
    let decimals = i64::try_from(significant).unwrap_or(0) - 1 - exponent;
    fixed(value, 0, usize::try_from(decimals).unwrap_or(0).min(12))
}

/// A mass in the job's unit: `12.5 kg`, `27.6 lb`.
#[must_use]
pub fn mass(kg: f64, unit: Unit) -> String {
    const KG_PER_POUND: f64 = 0.453_592_37;
    match unit {
        Unit::Mm => format!("{} kg", number(kg, 3)),
        Unit::Inch => format!("{} lb", number(kg / KG_PER_POUND, 3)),
    }
}

/// A computed amount with the currency's digits, half away from zero, as prices are rounded.
#[must_use]
pub fn money(amount: f64, minor_digits: u32) -> String {
    if let Some(amount) = rounded_money(amount, minor_digits) {
        return money_exact(amount, minor_digits);
    }
    let digits = usize::try_from(minor_digits).unwrap_or(0);
    fixed(amount, digits, digits)
}

/// A decimal amount with the currency's digits, half away from zero.
#[must_use]
pub fn money_exact(amount: Decimal, minor_digits: u32) -> String {
    grouped(&money_plain(amount, minor_digits))
}

/// The same without marks between the thousands, for other programs to read.
#[must_use]
pub fn money_plain(amount: Decimal, minor_digits: u32) -> String {
    let rounded =
        amount.round_dp_with_strategy(minor_digits, RoundingStrategy::MidpointAwayFromZero);
    let digits = usize::try_from(minor_digits).unwrap_or(0);
    format!("{rounded:.digits$}")
}

/// As many decimals as keep about three digits: fewer the larger the number is.
fn graded(value: f64, most: usize) -> String {
    let decimals = graded_decimals(value, most);
    fixed(value, decimals, decimals)
}

fn graded_decimals(value: f64, most: usize) -> usize {
    // By what is shown: 9.96 hours have no decimal once they are 10, and 9.94 have one.
    let whole_digits = |decimals: usize| {
        let shown = format!("{:.decimals$}", value.abs());
        shown.find('.').unwrap_or(shown.len())
    };
    let mut fits = (1..=most).rev();
    fits.find(|decimals| whole_digits(*decimals) + decimals <= most + 1)
        .unwrap_or(0)
}

/// Decimals between two bounds, without zeros at the end beyond the least.
fn fixed(value: f64, least: usize, most: usize) -> String {
    if !value.is_finite() {
        return UNKNOWN.to_owned();
    }
    let mut text = format!("{value:.most$}");
    if let Some(point) = text.find('.') {
        let zeros = text.len() - text.trim_end_matches('0').len();
        let decimals = (text.len() - point - 1).saturating_sub(zeros).max(least);
        text.truncate(if decimals == 0 {
            point
        } else {
            point + 1 + decimals
        });
    }
    grouped(&text)
}

/// A plain number with thin spaces between groups of three and a real minus sign; no `-0`.
fn grouped(text: &str) -> String {
    let digits = text.trim_start_matches('-');
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    let negative = text.starts_with('-') && digits.chars().any(|c| c.is_ascii_digit() && c != '0');
    let mut shown = String::with_capacity(text.len() + 8);
    if negative {
        shown.push(MINUS);
    }
    for (index, digit) in whole.chars().enumerate() {
        if index > 0 && (whole.len() - index).is_multiple_of(3) {
            shown.push(THIN_SPACE);
        }
        shown.push(digit);
    }
    if !part.is_empty() {
        shown.push('.');
        shown.push_str(part);
    }
    shown
}
