//! Whole numbers: holes, parts, days, quantities to be priced.

use super::misread::{Misread, What};
use super::number::{decimal, number};
use super::scan::{Scan, THIN_SPACE};

/// Largest count that is taken.
const MOST: i128 = 1_000_000;

/// Most quantities in one list.
const MOST_QUANTITIES: usize = 50;

/// Reads a count of holes: `36`, `36x`, `36 places`, `(36)`; `2x18` and `3 x 2 x 6` are multiplied.
pub fn holes(text: &str) -> Result<u32, Misread> {
    const WORDS: [&str; 13] = [
        "x", "place", "places", "pl", "plc", "plcs", "hole", "holes", "off", "pcs", "pc", "ea",
        "equally",
    ];
    let mut scan = Scan::new(text)?.without_brackets();
    scan.eat_word(&["qty", "x"]);
    let mut count = counted(&mut scan, What::Holes, 1)?;
    loop {
        let before = scan.mark();
        let times = scan.eat_word(&["x"]) || scan.eat('*') || scan.eat('\u{d7}');
        if !times || !scan.peek().is_some_and(|sign| sign.is_ascii_digit()) {
            scan.back_to(before);
            break;
        }
        let more = counted(&mut scan, What::Holes, 1)?;
        let product = count.checked_mul(more);
        let product = product.filter(|product| i128::from(*product) <= MOST);
        count = product.ok_or(Misread::TooLarge {
            what: What::Holes,
            most: "a million",
        })?;
    }
    while scan.eat_word(&WORDS) || scan.eat_word(&["spaced"]) {}
    at_end(&mut scan, What::Holes, count)
}

/// Reads how many holes lie between two dressings of the tip, 0 for none: `3`, `every 3 holes`,
/// `every hole`, `none`.
pub fn dress_every(text: &str) -> Result<u32, Misread> {
    let what = What::DressEvery;
    let mut scan = Scan::new(text)?;
    if scan.eat_word(&["none", "never", "no"]) || scan.rest() == "-" {
        scan.eat('-');
        return at_end(&mut scan, what, 0);
    }
    scan.eat_word(&["dress"]);
    let every = scan.eat_word(&["every", "each"]);
    if every && scan.eat_word(&["hole"]) {
        return at_end(&mut scan, what, 1);
    }
    let count = counted(&mut scan, what, 0)?;
    scan.eat_word(&["hole", "holes"]);
    at_end(&mut scan, what, count)
}

/// Reads a whole number of at least `least` things: `25`, `25 pcs`.
pub fn whole(text: &str, least: u32) -> Result<u32, Misread> {
    let mut scan = Scan::new(text)?.grouped_by_spaces();
    let count = counted(&mut scan, What::Whole, least)?;
    scan.eat_word(&["pcs", "pc", "pieces", "parts", "ea", "off"]);
    at_end(&mut scan, What::Whole, count)
}

/// Reads a number of days of at least `least`: `10`, `10 days`, `10 working days`.
pub fn days(text: &str, least: u32) -> Result<u32, Misread> {
    let mut scan = Scan::new(text)?;
    let count = counted(&mut scan, What::Days, least)?;
    scan.eat_word(&["working", "calendar", "business"]);
    scan.eat_word(&["day", "days", "d"]);
    at_end(&mut scan, What::Days, count)
}

/// Reads quantities to be priced, rising and each once: `10, 25, 50`, `10/25/50`, `10 25 50`,
/// `1 000; 2 500`, `1'000, 2'500`, `50,100,200`; `2 500` and `10,250` may be one or two, and are asked
/// about.
pub fn quantities(text: &str) -> Result<Vec<u32>, Misread> {
    let what = What::Quantities;
    Scan::new(text)?;
    let mut found = Vec::new();
    // Where semicolons part the quantities, spaces group their digits.
    let is_parted = text.contains(';');
    for piece in text.split(';') {
        let mut scan = Scan::new(&without_apostrophes(piece))?;
        if !scan.has_parting_spaces() {
            // Where each space could group digits, so may they all.
            scan = scan.grouped_by_spaces();
        }
        if is_parted {
            scan = scan.ungrouped();
        }
        one_by_one(scan, what, &mut found)?;
    }
    if found.is_empty() {
        return Err(Misread::Not {
            what,
            found: text.trim().to_owned(),
        });
    }
    found.sort_unstable();
    found.dedup();
    if found.len() > MOST_QUANTITIES {
        return Err(Misread::TooMany {
            most: MOST_QUANTITIES,
        });
    }
    Ok(found)
}

/// The same text without apostrophes that group digits by three: they part nothing.
fn without_apostrophes(text: &str) -> String {
    let all: Vec<char> = text.chars().collect();
    let is_digit = |at: usize| all.get(at).is_some_and(char::is_ascii_digit);
    let groups = |at: usize| {
        let after = (1..=4).take_while(|ahead| is_digit(at + ahead)).count();
        matches!(all[at], '\'' | '\u{2018}' | '\u{2019}' | '\u{2032}')
            && at.checked_sub(1).is_some_and(is_digit)
            && after == 3
    };
    let kept = (0..all.len()).filter(|at| !groups(*at));
    kept.map(|at| all[at]).collect()
}

fn one_by_one(mut scan: Scan, what: What, found: &mut Vec<u32>) -> Result<(), Misread> {
    while !scan.at_end() {
        if let Some(rising) = rising_by_commas(&mut scan) {
            for digits in rising {
                found.push(in_range(&digits, what, 1)?);
            }
            continue;
        }
        let digits = scan.digits().ok_or_else(|| Misread::Not {
            what,
            found: scan.rest(),
        })?;
        if matches!(scan.here(), Some('.' | ',' | THIN_SPACE)) {
            not_grouped(&scan, &digits)?;
        }
        found.push(in_range(&digits, what, 1)?);
        scan.eat_word(&["pcs", "pc", "pieces", "parts", "ea", "off"]);
        let _ = [',', ';', '/', '+', '&']
            .into_iter()
            .any(|sign| scan.eat(sign))
            || scan.eat_word(&["and"]);
    }
    Ok(())
}

/// `50,100,200`: as one number it would be more than any count can be, so that it is a list. Only where it
/// rises and no part of it begins with a zero, as a list would; anything else is asked.
fn rising_by_commas(scan: &mut Scan) -> Option<Vec<String>> {
    let before = scan.mark();
    let mut parts = vec![scan.digits()?];
    while scan.here() == Some(',') && scan.ahead(1).is_some_and(|c| c.is_ascii_digit()) {
        scan.step();
        parts.push(scan.digits()?);
    }
    let could_group = parts.iter().skip(1).all(|part| part.len() == 3);
    let numbers = parts.iter().map(|part| part.parse::<u64>().ok());
    let rises = numbers
        .collect::<Vec<_>>()
        .is_sorted_by(|one, next| one < next);
    let is_list = parts.len() > 2
        && could_group
        && rises
        && parts.iter().all(|part| !part.starts_with('0'))
        && !matches!(scan.here(), Some('.' | THIN_SPACE));
    if !is_list {
        scan.back_to(before);
        return None;
    }
    scan.eat(',');
    Some(parts)
}

/// In a list `10,250` may be two quantities or one, and so may digits with a mark for thousands.
fn not_grouped(scan: &Scan, digits: &str) -> Result<(), Misread> {
    let three = (1..=3).all(|ahead| scan.ahead(ahead).is_some_and(|c| c.is_ascii_digit()));
    if three && digits.len() <= 3 && !scan.ahead(4).is_some_and(|c| c.is_ascii_digit()) {
        let group: String = (1..=3).filter_map(|ahead| scan.ahead(ahead)).collect();
        let mark = match scan.here() {
            Some(THIN_SPACE) | None => ' ',
            Some(mark) => mark,
        };
        return Err(Misread::TwoReadings {
            text: format!("{digits}{mark}{group}"),
            one: format!("{digits}; {group}"),
            other: format!("{digits}{group}"),
        });
    }
    Ok(())
}

/// Reads a whole number that stands here.
pub(crate) fn counted(scan: &mut Scan, what: What, least: u32) -> Result<u32, Misread> {
    if scan.peek() == Some('-') && scan.ahead(1).is_some_and(|c| c.is_ascii_digit()) {
        return Err(Misread::Negative { what });
    }
    let Some(number) = number(scan)? else {
        return Err(Misread::Not {
            what,
            found: scan.rest(),
        });
    };
    if let Some(readings) = grouped_or_not(&number.typed) {
        return Err(readings);
    }
    match number.value.as_whole() {
        Some(count) if !number.fraction => in_range(&count.to_string(), what, least),
        _ => Err(Misread::NotWhole {
            what,
            found: number.typed,
        }),
    }
}

/// `1,250` and `1.250` may be grouped or have a decimal part, where neither is the rule.
pub(crate) fn grouped_or_not(typed: &str) -> Option<Misread> {
    let (whole, part) = typed.split_once(['.', ','])?;
    let three = part.len() == 3 && part.chars().all(|c| c.is_ascii_digit());
    let leads = (1..=3).contains(&whole.len()) && !whole.starts_with('0');
    if !three || !leads {
        return None;
    }
    let decimal = decimal(&format!("{whole}.{part}")).ok()?;
    Some(Misread::TwoReadings {
        text: typed.to_owned(),
        one: format!("{whole}{part}"),
        other: decimal.to_f64().to_string(),
    })
}

fn in_range(digits: &str, what: What, least: u32) -> Result<u32, Misread> {
    let too_large = Misread::TooLarge {
        what,
        most: "a million",
    };
    let Ok(count) = digits.parse::<i128>() else {
        return Err(too_large);
    };
    if count > MOST {
        return Err(too_large);
    }
    let count = u32::try_from(count).map_err(|_| too_large)?;
    if count < least {
        return Err(Misread::Zero { what });
    }
    Ok(count)
}

fn at_end(scan: &mut Scan, what: What, count: u32) -> Result<u32, Misread> {
    if scan.at_end() {
        Ok(count)
    } else {
        Err(Misread::LeftOver {
            what,
            rest: scan.rest(),
        })
    }
}
