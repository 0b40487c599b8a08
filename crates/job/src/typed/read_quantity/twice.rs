//! One length that is given in two units: `0.8 mm / .0315 in`, `0.80 [.0315]`.

use super::exact::Ratio;
use super::measure::{Bare, LengthUnit, Measure};
use super::misread::{Misread, What};

/// Two readings of one length differ by no more than this share of it.
const MOST_APART: f64 = 0.03;

/// The length that two numbers side by side both are, one metric and one of inches; `None` where they are
/// something else, such as two limits.
///
/// # Errors
/// Where each has its unit, one metric and one of inches, and they are not the same length.
pub(super) fn twice(
    first: &Measure,
    second: &Measure,
    what: What,
) -> Result<Option<Ratio>, Misread> {
    let metric = LengthUnit::is_metric;
    let other = |unit: LengthUnit| match metric(unit) {
        true => LengthUnit::Inch,
        false => LengthUnit::Millimeter,
    };
    if first.is_drill() || second.is_drill() {
        return Ok(None);
    }
    let both = match (first.unit(), second.unit()) {
        (Some(one), Some(two)) if metric(one) != metric(two) => {
            return match same(first, one, second, two, what) {
                None => Err(Misread::TwoUnits {
                    first: format!("{} {}", first.typed(), one.sign()),
                    second: format!("{} {}", second.typed(), two.sign()),
                }),
                found => Ok(found),
            };
        }
        (Some(_), Some(_)) => return Ok(None),
        (Some(one), None) => [(one, other(one)); 2],
        (None, Some(two)) => [(other(two), two); 2],
        (None, None) => [
            (LengthUnit::Millimeter, LengthUnit::Inch),
            (LengthUnit::Inch, LengthUnit::Millimeter),
        ],
    };
    let mut found = both.into_iter();
    Ok(found.find_map(|(one, two)| same(first, one, second, two, what)))
}

/// The first length in millimeters, where the second is the same but for rounding.
fn same(
    first: &Measure,
    one: LengthUnit,
    second: &Measure,
    two: LengthUnit,
    what: What,
) -> Option<Ratio> {
    let of = |unit| Bare { unit, said: true };
    let first_mm = first.mm(of(one), what).ok()?;
    let second_mm = second.mm(of(two), what).ok()?;
    let apart = libm::fabs(first_mm.to_f64() - second_mm.to_f64());
    let rounding = rounding_mm(first, one) + rounding_mm(second, two);
    let most = rounding.min(first_mm.to_f64() * MOST_APART);
    (apart <= most + 1e-9 && !first_mm.is_zero()).then_some(first_mm)
}

/// Half a step of the last digit that was written.
fn rounding_mm(measure: &Measure, unit: LengthUnit) -> f64 {
    let typed = measure.typed();
    let digits = typed.rsplit_once(['.', ',']).map_or("", |(_, part)| part);
    let places = i32::try_from(digits.len()).unwrap_or(0);
    let (above, below) = unit.mm();
    let mm = Ratio::new(above, below).map_or(1.0, Ratio::to_f64);
    0.5 * libm::pow(10.0, f64::from(-places)) * mm
}
