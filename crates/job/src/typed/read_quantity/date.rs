//! Days: the ISO form, and others where they can only mean one day.

use chrono::NaiveDate;

use super::misread::{Misread, What};
use super::scan::Scan;

const MONTHS: [&str; 12] = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
];

/// Reads a day: `2027-01-12`, `12 Jan 2027`, `January 12, 2027`, `12.1.2027`.
///
/// `12/01/2027` could be a day in January or in December, and is refused with both.
pub fn date(text: &str) -> Result<NaiveDate, Misread> {
    let mut scan = Scan::new(text)?;
    let not = || Misread::Not {
        what: What::Date,
        found: text.trim().to_owned(),
    };
    let parts = parts(&mut scan).ok_or_else(not)?;
    match parts.as_slice() {
        [Part::Number(year), Part::Number(month), Part::Number(day)] if year.len() == 4 => {
            day_of(year, number(month), number(day))
        }
        [
            Part::Number(first),
            Part::Number(second),
            Part::Number(year),
        ] => numbers_only(text, first, second, year),
        [Part::Number(year), Part::Month(month), Part::Number(day)] if year.len() == 4 => {
            day_of(year, Some(*month), number(day))
        }
        [Part::Number(day), Part::Month(month), Part::Number(year)]
        | [Part::Month(month), Part::Number(day), Part::Number(year)] => {
            day_of(year, Some(*month), number(day))
        }
        _ => Err(not()),
    }
}

enum Part {
    Number(String),
    Month(u32),
}

/// Numbers and names of months with one sign or space between them.
fn parts(scan: &mut Scan) -> Option<Vec<Part>> {
    let mut parts = Vec::new();
    while !scan.at_end() {
        if let Some(digits) = scan.digits() {
            parts.push(Part::Number(digits));
            scan.eat_word(&["st", "nd", "rd", "th"]);
        } else {
            let word = scan.word()?.to_lowercase();
            let named = |name: &&str| word.len() >= 3 && name.starts_with(&word);
            let month = MONTHS.iter().position(named)?;
            parts.push(Part::Month(u32::try_from(month).ok()? + 1));
        }
        if parts.len() > 3 {
            return None;
        }
        let _ = ['-', '/', '.', ','].into_iter().any(|sign| scan.eat(sign));
    }
    Some(parts)
}

fn number(digits: &str) -> Option<u32> {
    digits.parse().ok()
}

fn day_of(year: &str, month: Option<u32>, day: Option<u32>) -> Result<NaiveDate, Misread> {
    if year.len() != 4 {
        return Err(Misread::ShortYear);
    }
    let year = year.parse::<i32>().ok();
    year.zip(month)
        .zip(day)
        .and_then(|((year, month), day)| NaiveDate::from_ymd_opt(year, month, day))
        .ok_or(Misread::NoSuchDay)
}

/// Two numbers and a year: only a point says that the day comes first.
fn numbers_only(text: &str, first: &str, second: &str, year: &str) -> Result<NaiveDate, Misread> {
    let day_first = day_of(year, number(second), number(first));
    if text.contains('.') {
        return day_first;
    }
    let month_first = day_of(year, number(first), number(second));
    match (day_first, month_first) {
        (Ok(one), Ok(other)) if one != other => Err(Misread::TwoReadings {
            text: text.trim().to_owned(),
            one: one.to_string(),
            other: other.to_string(),
        }),
        (Ok(day), _) | (Err(_), Ok(day)) => Ok(day),
        (Err(why), Err(_)) => Err(why),
    }
}
