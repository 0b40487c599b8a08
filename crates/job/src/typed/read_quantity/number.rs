//! Unsigned numbers: decimals with point or comma, grouped thousands, fractions, mixed numbers.

use super::exact::Ratio;
use super::misread::Misread;
use super::scan::{Scan, THIN_SPACE};

/// Most digits before and after the point together.
const MOST_DIGITS: usize = 21;

/// An unsigned number as typed.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Number {
    pub(crate) value: Ratio,
    /// Written as a fraction or mixed number.
    pub(crate) fraction: bool,
    /// As it stands in the text, for sentences about it.
    pub(crate) typed: String,
}

/// Reads a number at the scan's place; `None` where none starts there.
pub(crate) fn number(scan: &mut Scan) -> Result<Option<Number>, Misread> {
    scan.skip_spaces();
    let start = scan.mark();
    let Some(run) = digits_and_separators(scan) else {
        return Ok(None);
    };
    let mut value = decimal(&run)?;
    let mut fraction = false;
    if run.chars().all(|c| c.is_ascii_digit()) {
        if let Some(below) = below_the_line(scan)? {
            value = divided(&run, &below)?;
            fraction = true;
        } else if let Some(part) = fraction_after(scan)? {
            value = value.add(part).ok_or_else(|| too_many(&run))?;
            fraction = true;
        }
    }
    // Without the point of `5.`, which would double the one at a sentence's end.
    let typed = scan.between(start, scan.mark());
    let typed = typed.trim().trim_end_matches('.').to_owned();
    Ok(Some(Number {
        value,
        fraction,
        typed,
    }))
}

/// Reads the digits of one number with the points and commas inside it.
fn digits_and_separators(scan: &mut Scan) -> Option<String> {
    let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
    let mut run = String::new();
    loop {
        match scan.here() {
            Some(c) if c.is_ascii_digit() => run.push(c),
            Some(c @ ('.' | ',' | THIN_SPACE)) if digit(scan.ahead(1)) => run.push(c),
            // `5.` as old drawings have it; `0.78..0.82` goes on.
            Some('.') if !run.is_empty() && !run.contains(['.', ',']) => {
                if scan.ahead(1) == Some('.') {
                    break;
                }
                scan.step();
                break;
            }
            _ => break,
        }
        scan.step();
    }
    (!run.is_empty()).then_some(run)
}

/// A run of digits, points, commas and thin spaces as an exact number.
pub(crate) fn decimal(run: &str) -> Result<Ratio, Misread> {
    let run: String = run.chars().filter(|c| *c != THIN_SPACE).collect();
    let separators: Vec<char> = run.chars().filter(|c| !c.is_ascii_digit()).collect();
    let one_kind = |kind: char| separators.iter().all(|c| *c == kind);
    match separators.as_slice() {
        [] => from_parts(&run, ""),
        // A lone comma is a decimal comma, a lone point a decimal point.
        [one] => match run.split_once(*one) {
            Some((whole, part)) => from_parts(whole, part),
            None => Err(Misread::Separators { number: run }),
        },
        [first, ..] if one_kind(*first) => match ungrouped(&run, *first) {
            Some(whole) => from_parts(&whole, ""),
            None => Err(Misread::Separators { number: run }),
        },
        [first, .., last] => {
            let grouped_and_part = run
                .split_once(*last)
                .filter(|(_, part)| first != last && part.chars().all(|c| c.is_ascii_digit()))
                .and_then(|(whole, part)| Some((ungrouped(whole, *first)?, part)));
            match grouped_and_part {
                Some((whole, part)) => from_parts(&whole, part),
                None => Err(Misread::Separators { number: run }),
            }
        }
    }
}

/// The digits without grouping marks, where they group by three.
fn ungrouped(digits: &str, mark: char) -> Option<String> {
    let mut groups = digits.split(mark);
    let first = groups.next()?;
    let digits_only = |group: &str| group.chars().all(|c| c.is_ascii_digit());
    let leads = (1..=3).contains(&first.len()) && !first.starts_with('0') && digits_only(first);
    let mut whole = first.to_owned();
    for group in groups {
        if group.len() != 3 || !digits_only(group) {
            return None;
        }
        whole.push_str(group);
    }
    leads.then_some(whole)
}

fn from_parts(whole: &str, part: &str) -> Result<Ratio, Misread> {
    let part = part.trim_end_matches('0');
    let digits = format!("{}{part}", whole.trim_start_matches('0'));
    let typed = || too_many(&format!("{whole}.{part}"));
    if digits.len() > MOST_DIGITS {
        return Err(typed());
    }
    let numerator = if digits.is_empty() {
        0
    } else {
        digits.parse::<i128>().map_err(|_| typed())?
    };
    let places = u32::try_from(part.len()).map_err(|_| typed())?;
    let denominator = 10_i128.checked_pow(places).ok_or_else(typed)?;
    Ratio::new(numerator, denominator).ok_or_else(typed)
}

/// Takes `/32` after a whole number; leaves `/.031` and `/31.5`, which are no fractions.
fn below_the_line(scan: &mut Scan) -> Result<Option<String>, Misread> {
    let mark = scan.mark();
    if scan.eat('/')
        && let Some(below) = scan.digits()
    {
        let goes_on = matches!(scan.here(), Some('.' | ','))
            && scan.ahead(1).is_some_and(|c| c.is_ascii_digit());
        if !goes_on {
            return Ok(Some(below));
        }
    }
    scan.back_to(mark);
    Ok(None)
}

/// Takes ` 1/2` or `-1/2` after a whole number: only a proper fraction makes a mixed number.
fn fraction_after(scan: &mut Scan) -> Result<Option<Ratio>, Misread> {
    let mark = scan.mark();
    let joined = match scan.here() {
        Some('-') => {
            scan.step();
            scan.here().is_some_and(|c| c.is_ascii_digit())
        }
        Some(' ') => true,
        _ => false,
    };
    if joined
        && let Some(above) = scan.digits()
        && let Some(below) = below_the_line(scan)?
    {
        let part = divided(&above, &below)?;
        if !part.is_zero() && !part.at_least(Ratio::whole(1)) {
            return Ok(Some(part));
        }
    }
    scan.back_to(mark);
    Ok(None)
}

fn divided(above: &str, below: &str) -> Result<Ratio, Misread> {
    let fraction = || format!("{above}/{below}");
    let (top, _) = from_parts(above, "")?.parts();
    let (bottom, _) = from_parts(below, "")?.parts();
    if bottom == 0 {
        return Err(Misread::ZeroBelow {
            fraction: fraction(),
        });
    }
    Ratio::new(top, bottom).ok_or_else(|| too_many(&fraction()))
}

fn too_many(number: &str) -> Misread {
    Misread::TooManyDigits {
        number: number.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Option<(i128, i128)> {
        let mut scan = Scan::new(text).unwrap();
        let number = number(&mut scan).ok()??;
        scan.at_end().then(|| number.value.parts())
    }

    #[test]
    fn decimals_fractions_and_groups() {
        for (text, expect) in [
            ("0.8", (4, 5)),
            (".020", (1, 50)),
            ("0,5", (1, 2)),
            ("5.", (5, 1)),
            ("1,250", (5, 4)),
            ("1,250.5", (2501, 2)),
            ("1.250,5", (2501, 2)),
            ("1,250,000", (1_250_000, 1)),
            ("1.250.000", (1_250_000, 1)),
            ("1,250,000.25", (5_000_001, 4)),
            ("1\u{2009}250.5", (2501, 2)),
            ("1/32", (1, 32)),
            ("1 / 32", (1, 32)),
            ("1-1/2", (3, 2)),
            ("1 1/2", (3, 2)),
            ("1\u{bd}", (3, 2)),
            ("3/2", (3, 2)),
            ("007", (7, 1)),
            (
                "0.30000000000000004",
                (7_500_000_000_000_001, 25_000_000_000_000_000),
            ),
        ] {
            assert_eq!(read(text), Some(expect), "{text}");
        }
    }

    #[test]
    fn what_groups_nothing_is_no_number() {
        for text in [
            "1,25.5",
            "1,2,3",
            "1.2.3",
            "0,250,000",
            "1,250.5,5",
            "1.250,5.5",
            "12,50,000.5",
            "1,2505.5",
            "1/0",
            "1 1/0",
            "0.1234567890123456789012345",
        ] {
            assert_eq!(read(text), None, "{text}");
        }
    }

    #[test]
    fn no_number_starts_here() {
        for text in ["", "x", ".", ",", "-1", "/2"] {
            let mut scan = Scan::new(text).unwrap();
            assert_eq!(number(&mut scan), Ok(None), "{text}");
            assert_eq!(scan.mark(), 0);
        }
    }
}
