//! Currencies.

use iso_currency::Currency;

use super::misread::{Misread, What};

/// Reads the code of a currency (ISO 4217) in any letters: `EUR`, `usd`.
pub fn currency(text: &str) -> Result<String, Misread> {
    let code = text.trim().to_uppercase();
    let known = Currency::from_code(&code).ok_or_else(|| Misread::Not {
        what: What::Currency,
        found: text.trim().to_owned(),
    })?;
    Ok(known.code().to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_currency_is_a_code_of_the_standard() {
        assert_eq!(currency(" eur ").as_deref(), Ok("EUR"));
        for text in ["$", "ABC", "euro", ""] {
            assert!(currency(text).is_err(), "{text}");
        }
    }
}
