//! Names that stand for text (XML 1.0, 4.2): a short file could become a very long one by them.

use crate::logo::fault::LogoFault;

/// Most bytes that a file has once its names are replaced, beside those it has itself.
const MOST_ADDED: usize = 4 << 20;

/// Refuses a file that would grow too far.
///
/// # Errors
/// Where it would.
pub(super) fn check(text: &str) -> Result<(), LogoFault> {
    let Some(first) = text.find("<!ENTITY") else {
        return Ok(());
    };
    let declared = declared(&text[first..]);
    // A name within a name multiplies; no drawing program writes one.
    let mut names = declared.split('&').skip(1);
    let nested = names.any(|name| !name.starts_with('#'));
    let used = text.matches('&').count();
    if nested || declared.len().saturating_mul(used) > MOST_ADDED {
        return Err(LogoFault::TooMuch);
    }
    Ok(())
}

/// What is declared: as far as the bracket that closes it, outside of all quotes.
fn declared(text: &str) -> &str {
    let mut quote = None;
    let end = text.find(|ch| match quote {
        Some(open) => {
            quote = quote.filter(|_| open != ch);
            false
        }
        None => {
            quote = Some(ch).filter(|ch| matches!(ch, '"' | '\''));
            ch == ']'
        }
    });
    text.get(..end.unwrap_or(text.len())).unwrap_or(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_few_short_names_are_taken_and_laughter_is_not() {
        let short = "<!DOCTYPE svg [<!ENTITY ns_svg \"http://www.w3.org/2000/svg\">]>\
                     <svg xmlns=\"&ns_svg;\"/>";
        assert_eq!(check(short), Ok(()));
        let sign = "<!DOCTYPE svg [<!ENTITY deg '&#176;'>]><svg id='a&deg;'/>";
        assert_eq!(check(sign), Ok(()));
        assert_eq!(check("<svg title=\"a &amp; b\"/>"), Ok(()));
        let nested = "<!DOCTYPE svg [<!ENTITY a 'ha'><!ENTITY b '&a;&a;']><svg id='&b;'/>";
        assert_eq!(check(nested), Err(LogoFault::TooMuch));
        let long = format!("<!ENTITY a '{}'>]><svg id='&a;'/>", "x".repeat(100_000));
        assert_eq!(check(&long), Ok(()));
        let often = format!("{long}{}", "&a;".repeat(100));
        assert_eq!(check(&often), Err(LogoFault::TooMuch));
        // A bracket in the value of the last name ends nothing.
        let bracket = format!(
            "<!ENTITY a ']{}'>]>{}",
            "x".repeat(100_000),
            "&a;".repeat(100)
        );
        assert_eq!(check(&bracket), Err(LogoFault::TooMuch));
    }
}
