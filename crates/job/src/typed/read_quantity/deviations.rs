//! Tolerances: `+-0.02`, `+.003/-0`, `+0.05 -0.02`, `0/-0.02`.

use quillbore_calc::{Length, Limits};

use super::exact::Ratio;
use super::measure::{Bare, Measure, bare_unit, measure, to_length};
use super::misread::{Misread, What};
use super::number::decimal;
use super::scan::Scan;
use crate::typed::entry::Unit;

/// One signed deviation.
#[derive(Clone, Debug)]
pub(crate) struct Deviation {
    negative: bool,
    size: Measure,
}

impl Deviation {
    fn mm(&self, bare: Bare) -> Result<Ratio, Misread> {
        let mm = self.size.mm(bare, What::Tolerance)?;
        let negated = mm.negated().ok_or_else(|| Misread::TooManyDigits {
            number: self.size.typed().to_owned(),
        })?;
        Ok(if self.negative { negated } else { mm })
    }

    fn typed(&self) -> String {
        let sign = if self.negative { '-' } else { '+' };
        format!("{sign}{}", self.size.typed())
    }
}

/// The deviations from a nominal size.
#[derive(Clone, Debug)]
pub(crate) enum Deviations {
    /// As much above as below.
    Symmetric(Measure),
    /// Two, in either order.
    Two(Deviation, Deviation),
}

impl Deviations {
    pub(crate) const fn symmetric(&self) -> bool {
        matches!(self, Self::Symmetric(_))
    }

    pub(crate) fn measures(&self) -> Vec<&Measure> {
        match self {
            Self::Symmetric(size) => vec![size],
            Self::Two(one, two) => vec![&one.size, &two.size],
        }
    }

    /// Lower and upper deviation in millimeters.
    pub(crate) fn mm(&self, bare: Bare) -> Result<(Ratio, Ratio), Misread> {
        match self {
            Self::Symmetric(size) => {
                let size = Deviation {
                    negative: true,
                    size: size.clone(),
                };
                let lower = size.mm(bare)?;
                let upper = Deviation {
                    negative: false,
                    ..size
                };
                Ok((lower, upper.mm(bare)?))
            }
            Self::Two(one, two) => {
                let (one, two) = (one.mm(bare)?, two.mm(bare)?);
                Ok(if one.at_least(two) {
                    (two, one)
                } else {
                    (one, two)
                })
            }
        }
    }
}

/// Reads deviations, where they start here; a lone `-0.82` is left for a pair of limits.
pub(crate) fn deviations(scan: &mut Scan) -> Result<Option<Deviations>, Misread> {
    let start = scan.mark();
    if scan.eat_plus_minus() {
        return match measure(scan)? {
            Some(size) => Ok(Some(Deviations::Symmetric(size))),
            None => Err(Misread::Not {
                what: What::Tolerance,
                found: scan.rest(),
            }),
        };
    }
    let Some((sign, first)) = signed(scan)? else {
        return Ok(None);
    };
    if sign == Sign::None && !zero(&first.size) {
        scan.back_to(start);
        return Ok(None);
    }
    let joined = scan.eat('/') || scan.eat(',') || scan.eat(';');
    match signed(scan)? {
        Some((Sign::None, second)) if !zero(&second.size) => Err(Misread::DeviationWithoutSign {
            typed: second.size.typed().to_owned(),
        }),
        Some((_, second)) => Ok(Some(Deviations::Two(first, second))),
        None if sign == Sign::Plus || joined => Err(Misread::OneDeviation {
            typed: first.typed(),
        }),
        None => {
            scan.back_to(start);
            Ok(None)
        }
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Sign {
    Plus,
    Minus,
    None,
}

/// A signed number, or a bare zero, which needs no sign.
fn signed(scan: &mut Scan) -> Result<Option<(Sign, Deviation)>, Misread> {
    let mark = scan.mark();
    let sign = if scan.eat('+') {
        Sign::Plus
    } else if scan.eat('-') {
        Sign::Minus
    } else {
        Sign::None
    };
    let whole = match sign {
        Sign::Plus | Sign::Minus => whole_before_zero(scan)?,
        Sign::None => None,
    };
    let size = match whole {
        Some(whole) => Some(whole),
        None => measure(scan)?,
    };
    let Some(size) = size else {
        scan.back_to(mark);
        return Ok(None);
    };
    let deviation = Deviation {
        negative: sign == Sign::Minus,
        size,
    };
    Ok(Some((sign, deviation)))
}

/// The 20 of `+20/0`, which is no fraction.
fn whole_before_zero(scan: &mut Scan) -> Result<Option<Measure>, Misread> {
    let mark = scan.mark();
    if let Some(typed) = scan.digits() {
        let behind = scan.mark();
        let is_zero = scan.eat('/')
            && scan
                .digits()
                .is_some_and(|below| below.chars().all(|c| c == '0'));
        if is_zero {
            scan.back_to(behind);
            return Ok(Some(Measure::Number {
                value: decimal(&typed)?,
                fraction: false,
                unit: None,
                typed,
            }));
        }
    }
    scan.back_to(mark);
    Ok(None)
}

fn zero(size: &Measure) -> bool {
    matches!(size, Measure::Number { value, .. } if value.is_zero())
}

/// Reads a tolerance without a size, as a title block gives it: lower and upper deviation.
pub fn tolerance(text: &str, unit: Unit) -> Result<Limits<Length>, Misread> {
    let what = What::Tolerance;
    let mut scan = Scan::new(text)?.without_brackets();
    let found = match deviations(&mut scan)? {
        Some(found) => found,
        None if scan.peek() == Some('-') => {
            return Err(Misread::OneDeviation { typed: scan.rest() });
        }
        None => Deviations::Symmetric(measure(&mut scan)?.ok_or_else(|| Misread::Not {
            what,
            found: scan.rest(),
        })?),
    };
    if !scan.at_end() {
        return Err(Misread::LeftOver {
            what,
            rest: scan.rest(),
        });
    }
    let bare = bare_unit(&found.measures(), unit)?;
    let (lower, upper) = found.mm(bare)?;
    if lower == upper {
        return Err(Misread::Zero { what });
    }
    Ok(Limits::new(
        to_length(lower, what)?,
        to_length(upper, what)?,
    ))
}
