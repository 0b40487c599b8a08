//! Mass, money, shares, resistivity.

use rust_decimal::Decimal;

use super::exact::Ratio;
use super::misread::{Misread, What};
use super::number::number;
use super::scan::Scan;
use super::whole::grouped_or_not;
use crate::typed::entry::Unit;

/// Largest amount of money that is taken.
const MOST_MONEY: Ratio = Ratio::whole(1_000_000_000_000);

/// Reads a mass in kilograms; a bare number is kilograms in a metric job, pounds in an inch one.
pub fn mass_kg(text: &str, unit: Unit) -> Result<f64, Misread> {
    // Pound and ounce, exact by definition (international yard and pound agreement, 1959).
    const POUND: (i128, i128) = (45_359_237, 100_000_000);
    const OUNCE: (i128, i128) = (45_359_237, 1_600_000_000);
    let what = What::Mass;
    let mut scan = Scan::new(text)?;
    let (value, typed) = unsigned(&mut scan, what)?;
    let (above, below) = if scan.eat_word(&["kg", "kgs", "kilo", "kilos"]) {
        (1, 1)
    } else if scan.eat_word(&["g", "gr", "gram", "grams"]) {
        (1, 1000)
    } else if scan.eat_word(&["lb", "lbs", "pound", "pounds"]) || scan.eat('#') {
        POUND
    } else if scan.eat_word(&["oz", "ounce", "ounces"]) {
        OUNCE
    } else if unit == Unit::Inch {
        POUND
    } else {
        (1, 1)
    };
    at_end(&mut scan, what)?;
    if value.is_zero() {
        return Err(Misread::Zero { what });
    }
    let kilograms = Ratio::new(above, below)
        .and_then(|factor| value.mul(factor))
        .ok_or(Misread::TooManyDigits { number: typed })?;
    if kilograms.at_least(Ratio::whole(1_000_000)) {
        return Err(Misread::TooLarge {
            what,
            most: "1000 t",
        });
    }
    Ok(kilograms.to_f64())
}

/// Reads an amount of the rate card's currency: `1250`, `1,250.50`, `1.250,50`, `1 250.50`.
pub fn money(text: &str) -> Result<Decimal, Misread> {
    let what = What::Money;
    let mut scan = Scan::new(text)?.grouped_by_spaces();
    if let Some(mark) = currency(&mut scan) {
        // Before a number it is meant for a currency; a word alone, such as "same", is no amount.
        let next = scan.rest().chars().find(|sign| sign.is_alphanumeric());
        let is_before_number = next.is_some_and(|sign| sign.is_ascii_digit());
        let found = text.trim().to_owned();
        return Err(if is_before_number {
            Misread::CurrencyMark { mark }
        } else {
            Misread::Not { what, found }
        });
    }
    let (value, typed) = unsigned(&mut scan, what)?;
    if let Some(mark) = currency(&mut scan) {
        return Err(Misread::CurrencyMark { mark });
    }
    at_end(&mut scan, what)?;
    if let Some(readings) = grouped_or_not(&typed) {
        return Err(readings);
    }
    if value.at_least(MOST_MONEY) {
        return Err(Misread::MoneyTooLarge { what });
    }
    to_decimal(value).ok_or(Misread::Not { what, found: typed })
}

/// Reads a share below one, from percent: `30`, `12.5 %`.
pub fn share(text: &str) -> Result<f64, Misread> {
    let what = What::Percent;
    let mut scan = Scan::new(text)?;
    let (value, typed) = unsigned(&mut scan, what)?;
    let marked = scan.eat('%') || scan.eat_word(&["percent", "pct"]);
    at_end(&mut scan, what)?;
    if !marked && !value.is_zero() && !value.at_least(Ratio::whole(1)) {
        let hundredfold = value.mul(Ratio::whole(100)).map_or(0.0, Ratio::to_f64);
        return Err(Misread::TwoReadings {
            text: typed.clone(),
            one: format!("{typed} %"),
            other: format!("{hundredfold} %"),
        });
    }
    if value.at_least(Ratio::whole(100)) {
        return Err(Misread::ShareRange);
    }
    Ratio::new(1, 100)
        .and_then(|hundredth| value.mul(hundredth))
        .map(Ratio::to_f64)
        .ok_or(Misread::TooManyDigits { number: typed })
}

/// Reads a resistivity in ohm centimeters: `120 uohm cm`, `1.2e-4 ohm cm`, `1.2 uohm m`.
pub fn resistivity_ohm_cm(text: &str) -> Result<f64, Misread> {
    let what = What::Resistivity;
    let mut scan = Scan::new(text)?;
    let (mut value, typed) = unsigned(&mut scan, what)?;
    let too_many = || Misread::TooManyDigits {
        number: typed.clone(),
    };
    if let Some(power) = power_of_ten(&mut scan) {
        value = ten_to(power)
            .and_then(|factor| value.mul(factor))
            .ok_or_else(too_many)?;
    }
    let Some(unit) = resistivity_unit(&mut scan) else {
        return Err(if scan.at_end() {
            Misread::ResistivityWithoutUnit { number: typed }
        } else {
            Misread::LeftOver {
                what,
                rest: scan.rest(),
            }
        });
    };
    at_end(&mut scan, what)?;
    if value.is_zero() {
        return Err(Misread::Zero { what });
    }
    let value = ten_to(unit)
        .and_then(|factor| value.mul(factor))
        .ok_or_else(too_many)?;
    Ok(value.to_f64())
}

/// Takes `e-4`, `E-4` or `x10^-4`.
fn power_of_ten(scan: &mut Scan) -> Option<i32> {
    let mark = scan.mark();
    if scan.eat_all("x10^") || scan.eat_all("x 10^") || scan.eat_all("e") {
        let negative = scan.eat('-');
        if !negative {
            scan.eat('+');
        }
        if let Some(power) = scan.digits().and_then(|digits| digits.parse::<i32>().ok()) {
            return Some(if negative { -power } else { power });
        }
    }
    scan.back_to(mark);
    None
}

/// Takes a unit of resistivity; the power of ten that makes it ohm centimeters.
fn resistivity_unit(scan: &mut Scan) -> Option<i32> {
    let text: String = scan
        .rest()
        .chars()
        .filter(|c| !matches!(c, ' ' | '\u{b7}' | '-' | '*' | '.'))
        .collect();
    // `Mohm` is not `mohm`, so the prefix is looked at before case is dropped.
    let prefixes = [
        ("\u{b5}", -6),
        ("u", -6),
        ("micro", -6),
        ("m", -3),
        ("milli", -3),
        ("k", 3),
        ("M", 6),
        ("", 0),
    ];
    let lengths = [("cm", 0), ("m", 2), ("mm", -1)];
    for (prefix, power) in prefixes {
        let Some(rest) = text.strip_prefix(prefix) else {
            continue;
        };
        for (length, more) in lengths {
            let rest = rest.to_lowercase();
            if rest == format!("ohm{length}") || rest == format!("ohms{length}") {
                while !scan.at_end() {
                    scan.step();
                }
                return Some(power + more);
            }
        }
    }
    None
}

fn ten_to(power: i32) -> Option<Ratio> {
    let magnitude = 10_i128.checked_pow(power.unsigned_abs())?;
    if power < 0 {
        Ratio::new(1, magnitude)
    } else {
        Some(Ratio::whole(magnitude))
    }
}

/// An exact number as a decimal, where it has one: `1/3` has none.
fn to_decimal(value: Ratio) -> Option<Decimal> {
    let (above, below) = value.parts();
    (0..=20_u32).find_map(|scale| {
        let power = 10_i128.checked_pow(scale)?;
        let mantissa = (power % below == 0).then(|| above.checked_mul(power / below))??;
        Decimal::try_from_i128_with_scale(mantissa, scale).ok()
    })
}

/// Takes a sign or word that stands where a currency can.
fn currency(scan: &mut Scan) -> Option<String> {
    match scan.peek() {
        Some(sign @ ('$' | '\u{20ac}' | '\u{a3}' | '\u{a5}')) => {
            scan.step();
            Some(sign.to_string())
        }
        _ => scan.word(),
    }
}

/// Reads an unsigned number that stands here, with its text.
pub(crate) fn unsigned(scan: &mut Scan, what: What) -> Result<(Ratio, String), Misread> {
    if scan.peek() == Some('-')
        && scan
            .ahead(1)
            .is_some_and(|c| c.is_ascii_digit() || c == '.')
    {
        return Err(Misread::Negative { what });
    }
    match number(scan)? {
        Some(number) => Ok((number.value, number.typed)),
        None => Err(Misread::Not {
            what,
            found: scan.rest(),
        }),
    }
}

pub(crate) fn at_end(scan: &mut Scan, what: What) -> Result<(), Misread> {
    if scan.at_end() {
        Ok(())
    } else {
        Err(Misread::LeftOver {
            what,
            rest: scan.rest(),
        })
    }
}
