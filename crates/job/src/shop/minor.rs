//! Digits of money after the point (ISO 4217).

use iso_currency::Currency;
use quillbore_calc::price::money;

/// Digits after the point in a currency, by its ISO 4217 code; 2 where the standard gives none, as for
/// metals, or doesn't know it.
#[must_use]
pub fn minor_digits(code: &str) -> u32 {
    let known = Currency::from_code(code);
    let digits = known.and_then(Currency::exponent);
    digits.map_or(2, u32::from)
}

/// Whether prices can be rounded to a step: some whole number of the currency's smallest units.
pub(super) fn is_step(step: f64, minor_digits: u32) -> bool {
    let rounded = money(step, minor_digits).and_then(|rounded| f64::try_from(rounded).ok());
    step > 0.0 && rounded == Some(step)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 4217, list one: the minor units of dollar, yen, dinar of Kuwait and peso of Chile.
    #[test]
    fn digits_are_those_of_the_standard() {
        let codes = ["USD", "JPY", "KWD", "CLP"].map(minor_digits);
        assert_eq!(codes, [2, 0, 3, 0]);
    }
}
