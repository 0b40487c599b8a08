//! Figures, with only as many digits as are worth reading.

use quillbore_calc::price::money as rounded_money;
use quillbore_calc::quantity::MM_PER_INCH;
use quillbore_calc::{Angle, Band, Length, Limits};
use rust_decimal::{Decimal, RoundingStrategy};

use super::Form;
use crate::typed::entry::Unit;
use crate::typed::quantity::{LimitsGiven, Size};

const PLUS_MINUS: char = '\u{b1}';

/// What stands for a number that is none.
const UNKNOWN: &str = "?";

/// Lengths.
impl Form {
    /// A length in the unit, without it: `0.80`, `12.345`, `0.0315`.
    #[must_use]
    pub fn length(self, length: Length, unit: Unit) -> String {
        self.between(in_unit(length, unit), 2, most_decimals(unit))
    }

    /// A number of millimeters in the unit, without it.
    #[must_use]
    pub fn length_mm(self, mm: f64, unit: Unit) -> String {
        Length::from_mm(mm).map_or_else(|| UNKNOWN.to_owned(), |mm| self.length(mm, unit))
    }

    /// A number of millimeters in the unit, as one reads it off a rule: `343`, `13.50`.
    #[must_use]
    pub fn length_by_rule(self, mm: f64, unit: Unit) -> String {
        match unit {
            Unit::Mm => self.fixed(mm, 0),
            Unit::Inch => self.fixed(mm / MM_PER_INCH, 2),
        }
    }

    /// A number of millimeters with the unit: `0.80 mm`, `0.0315 in`.
    #[must_use]
    pub fn length_with_unit(self, mm: f64, unit: Unit) -> String {
        format!("{} {}", self.length_mm(mm, unit), unit.symbol())
    }

    /// A size as a drawing would give it, each number with the same decimals: `0.80 \u{b1}0.02`,
    /// `0.031 +0.003/0.000`, `0.78\u{2013}0.82`, `0.82 max`, `3.00 H7`.
    #[must_use]
    pub fn size(self, size: &Size, unit: Unit) -> String {
        let nominal = size.nominal.unwrap_or(size.upper);
        let both = || self.limits(Limits::new(size.lower.mm(), size.upper.mm()), unit);
        match &size.given {
            LimitsGiven::PlusMinus => {
                let [nominal, upper] = self.same_decimals([nominal, size.upper - nominal], unit);
                format!("{nominal} {PLUS_MINUS}{upper}")
            }
            LimitsGiven::Unequal => {
                let deviations = [size.upper - nominal, size.lower - nominal];
                let sign = deviations.map(|one| if one.mm() > 0.0 { "+" } else { "" });
                let [nominal, upper, lower] =
                    self.same_decimals([nominal, deviations[0], deviations[1]], unit);
                format!("{nominal} {}{upper}/{}{lower}", sign[0], sign[1])
            }
            LimitsGiven::Pair => both(),
            // A class belongs to a metric size; in inches its limits say more.
            LimitsGiven::FitClass(_) if unit == Unit::Inch => both(),
            LimitsGiven::Max => format!("{} max", self.length(nominal, unit)),
            LimitsGiven::FitClass(class) => format!("{} {class}", self.length(nominal, unit)),
            LimitsGiven::None => self.length(nominal, unit),
        }
    }

    /// Two limits in millimeters, in the unit, without it, with the same decimals:
    /// `0.78\u{2013}0.82`.
    #[must_use]
    pub fn limits(self, limits_mm: Limits, unit: Unit) -> String {
        let Limits { lower, upper } = limits_mm.map(Length::from_mm);
        match (lower, upper) {
            (Some(lower), Some(upper)) => self.same_decimals([lower, upper], unit).join("\u{2013}"),
            _ => format!(
                "{}\u{2013}{}",
                self.length_mm(limits_mm.lower, unit),
                self.length_mm(limits_mm.upper, unit)
            ),
        }
    }

    /// Millimeters that are named in one breath, in the unit, without it, with the same decimals.
    #[must_use]
    pub fn lengths_mm(self, lengths_mm: &[f64], unit: Unit) -> Vec<String> {
        let lengths = lengths_mm.iter().copied();
        let values = lengths.map(|mm| Length::from_mm(mm).map_or(f64::NAN, |mm| in_unit(mm, unit)));
        let values: Vec<f64> = values.collect();
        let decimals = most_decimals_of(&values, unit);
        let shown = values.iter().map(|value| self.fixed(*value, decimals));
        shown.collect()
    }

    /// Lengths that stand beside each other, each with as many decimals as the one that has most.
    fn same_decimals<const N: usize>(self, lengths: [Length; N], unit: Unit) -> [String; N] {
        let values = lengths.map(|length| in_unit(length, unit));
        let decimals = most_decimals_of(&values, unit);
        values.map(|value| self.fixed(value, decimals))
    }
}

/// Angles, times, shares, masses, bare numbers.
impl Form {
    /// An angle without its sign, at most two decimals: `60`, `12.25`.
    #[must_use]
    pub fn angle(self, angle: Angle) -> String {
        self.between(angle.deg(), 0, 2)
    }

    /// A number of degrees with its sign: `60\u{b0}`.
    #[must_use]
    pub fn angle_with_unit(self, deg: f64) -> String {
        format!("{}\u{b0}", self.between(deg, 0, 2))
    }

    /// Minutes, with two decimals below ten, one below a hundred, none above.
    #[must_use]
    pub fn minutes(self, minutes: f64) -> String {
        self.graded(minutes, 2)
    }

    /// Minutes with their unit: `4.33 min`.
    #[must_use]
    pub fn minutes_with_unit(self, value: f64) -> String {
        format!("{} min", self.minutes(value))
    }

    /// Hours, with one decimal below ten, none above.
    #[must_use]
    pub fn hours(self, hours: f64) -> String {
        self.fixed(hours, hours_decimals(hours))
    }

    /// Hours with their spread, low, likely and high: all with as many decimals as the likely ones.
    #[must_use]
    pub fn hours_band(self, band: Band) -> [String; 3] {
        let decimals = hours_decimals(band.p50);
        [band.p10, band.p50, band.p90].map(|hours| self.fixed(hours, decimals))
    }

    /// Hours with their unit: `41 h`.
    #[must_use]
    pub fn hours_with_unit(self, value: f64) -> String {
        format!("{} h", self.hours(value))
    }

    /// A share as whole percent: what is known no better.
    #[must_use]
    pub fn percent_rough(self, share: f64) -> String {
        format!("{} %", self.fixed(share * 100.0, 0))
    }

    /// A share as percent, at most one decimal: `12.5 %`.
    #[must_use]
    pub fn percent(self, share: f64) -> String {
        format!("{} %", self.between(share * 100.0, 0, 1))
    }

    /// A force in the job's unit, to two digits: `38 N`, `8.5 lbf`.
    #[must_use]
    pub fn force(self, newtons: f64, unit: Unit) -> String {
        format!("{} {}", self.bare_force(newtons, unit), unit.force_symbol())
    }

    /// A force in the job's unit, without it: `38`, `8.5`.
    #[must_use]
    pub fn bare_force(self, newtons: f64, unit: Unit) -> String {
        /// Newtons in a pound of force (standard gravity, pound of 1959).
        const NEWTONS_PER_POUND: f64 = 4.448_221_615;
        match unit {
            Unit::Mm => self.number(newtons, 2),
            Unit::Inch => self.number(newtons / NEWTONS_PER_POUND, 2),
        }
    }

    /// A pressure in the job's unit: `70 bar`, `1015 psi`.
    #[must_use]
    pub fn pressure(self, bar: f64, unit: Unit) -> String {
        match unit {
            Unit::Mm => format!("{} bar", self.number(bar, 3)),
            Unit::Inch => format!("{} psi", self.fixed(Unit::psi(bar), 0)),
        }
    }

    /// A flow, to two digits: `87 ml/min`.
    #[must_use]
    pub fn flow(self, ml_min: f64) -> String {
        format!("{} ml/min", self.number(ml_min, 2))
    }

    /// A flow in the open and at the bottom: `87 \u{2192} 51 ml/min`.
    #[must_use]
    pub fn flow_down(self, free_ml_min: f64, bottom_ml_min: f64) -> String {
        format!(
            "{} \u{2192} {}",
            self.number(free_ml_min, 2),
            self.flow(bottom_ml_min)
        )
    }

    /// A mass in the job's unit: `12.5 kg`, `27.6 lb`.
    #[must_use]
    pub fn mass(self, kg: f64, unit: Unit) -> String {
        const KG_PER_POUND: f64 = 0.453_592_37;
        match unit {
            Unit::Mm => format!("{} kg", self.number(kg, 3)),
            Unit::Inch => format!("{} lb", self.number(kg / KG_PER_POUND, 3)),
        }
    }

    /// A number to this many significant digits; digits before the point are never lost.
    #[must_use]
    pub fn number(self, value: f64, significant: usize) -> String {
        if value == 0.0 || !value.is_finite() {
            return self.fixed(value, 0);
        }
        // The exponent as printed is exact where a logarithm could be off by one.
        let printed = format!("{value:.*e}", significant.saturating_sub(1));
        let exponent = printed
            .split_once('e')
            .and_then(|(_, exponent)| exponent.parse::<i64>().ok())
            .unwrap_or(0);
        let decimals = i64::try_from(significant).unwrap_or(0) - 1 - exponent;
        self.between(value, 0, usize::try_from(decimals).unwrap_or(0).min(12))
    }

    /// A number with all of its digits.
    #[must_use]
    pub fn exact(self, value: f64) -> String {
        if value.is_finite() {
            self.measured(&value.to_string())
        } else {
            UNKNOWN.to_owned()
        }
    }

    /// A number with fixed decimals.
    #[must_use]
    pub fn fixed(self, value: f64, decimals: usize) -> String {
        self.between(value, decimals, decimals)
    }

    /// A number with decimals between two bounds, without zeros at the end beyond the least.
    pub(crate) fn between(self, value: f64, least: usize, most: usize) -> String {
        plain(value, least, most).map_or_else(|| UNKNOWN.to_owned(), |plain| self.measured(&plain))
    }

    /// As many decimals as keep about three digits: fewer the larger the number is.
    fn graded(self, value: f64, most: usize) -> String {
        self.fixed(value, graded_decimals(value, most))
    }
}

/// Amounts and counts.
impl Form {
    /// A number of things, rounded to a whole one.
    #[must_use]
    pub fn count(self, count: f64) -> String {
        plain(count, 0, 0).map_or_else(|| UNKNOWN.to_owned(), |plain| self.counted(&plain))
    }

    /// A computed amount with the currency's digits, half away from zero, as prices are rounded.
    #[must_use]
    pub fn money(self, amount: f64, minor_digits: u32) -> String {
        if let Some(amount) = rounded_money(amount, minor_digits) {
            return self.money_exact(amount, minor_digits);
        }
        let digits = usize::try_from(minor_digits).unwrap_or(0);
        let plain = plain(amount, digits, digits);
        plain.map_or_else(|| UNKNOWN.to_owned(), |plain| self.counted(&plain))
    }

    /// A decimal amount with the currency's digits, half away from zero.
    #[must_use]
    pub fn money_exact(self, amount: Decimal, minor_digits: u32) -> String {
        self.counted(&money_plain(amount, minor_digits))
    }

    /// A decimal amount with the digits that it has.
    #[must_use]
    pub fn amount(self, amount: Decimal) -> String {
        self.counted(&amount.to_string())
    }
}

/// A decimal amount with the currency's digits, for other programs to read.
#[must_use]
pub fn money_plain(amount: Decimal, minor_digits: u32) -> String {
    let rounded =
        amount.round_dp_with_strategy(minor_digits, RoundingStrategy::MidpointAwayFromZero);
    let digits = usize::try_from(minor_digits).unwrap_or(0);
    format!("{rounded:.digits$}")
}

/// Figures one after another: with semicolons where a comma is a part of one of them.
#[must_use]
pub fn one_by_one(figures: &[String]) -> String {
    let has_comma = figures.iter().any(|figure| figure.contains(','));
    figures.join(if has_comma { "; " } else { ", " })
}

/// Decimals of a length: at most this many, and no fewer than two.
const fn most_decimals(unit: Unit) -> usize {
    match unit {
        Unit::Mm => 3,
        Unit::Inch => 4,
    }
}

/// As many decimals as that one of some values needs which needs most.
fn most_decimals_of(values: &[f64], unit: Unit) -> usize {
    let most = most_decimals(unit);
    let decimals = values.iter().map(|value| {
        let text = plain(*value, 2, most).unwrap_or_default();
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

/// Decimals that hours are shown with.
pub(crate) fn hours_decimals(hours: f64) -> usize {
    graded_decimals(hours, 1)
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

/// The digits of a number with decimals between two bounds, without zeros at the end beyond the least;
/// `None` where it is none.
fn plain(value: f64, least: usize, most: usize) -> Option<String> {
    if !value.is_finite() {
        return None;
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
    Some(text)
}
