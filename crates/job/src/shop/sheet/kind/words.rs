//! Words and lists of words in the shop's sheet.

use chrono::Weekday;
use quillbore_calc::Length;
use quillbore_calc::tables::Hazard;

use super::MachineRates;
use crate::typed::entry::Unit;
use crate::typed::read_quantity as read;
use crate::typed::read_quantity::misread::{Misread, What};

/// Yes and no.
pub(in crate::shop::sheet) const YES_NO: &[&str] = &["yes", "no"];

/// What electrodes are made of.
pub(in crate::shop::sheet) const METALS: &[&str] = &["brass", "copper"];

/// What of a machine tilts.
pub(in crate::shop::sheet) const TILTS: &[&str] = &[HEAD, TABLE];

/// That the head tilts.
pub(in crate::shop::sheet) const HEAD: &str = "head";

/// That the table tilts with the part.
pub(in crate::shop::sheet) const TABLE: &str = "table";

/// Sizes of sheets.
pub(in crate::shop::sheet) const PAPER_SIZES: &[&str] = &["a4", LETTER];

/// The paper size that is not A4.
pub(in crate::shop::sheet) const LETTER: &str = "letter";

/// The sides of a sheet that are printed.
pub(in crate::shop::sheet) const SIDES: &[&str] = &["one side", BOTH_SIDES];

/// That the backs are printed, too.
pub(in crate::shop::sheet) const BOTH_SIDES: &str = "both sides";

/// Families of materials, in the order of [`FAMILY_ORDER`](super::super::families::FAMILY_ORDER).
pub(in crate::shop::sheet) const FAMILIES: &[&str] = &[
    "carbon and alloy steel",
    "tool steel",
    "stainless steel",
    "nickel alloys",
    "cobalt alloys",
    "titanium",
    "aluminum",
    "copper alloys",
    "magnesium",
    "refractory metals",
    "zirconium",
    "tungsten carbide",
    "special alloys",
    "graphite",
    "hard conductors",
    "precious metals",
];

/// Dangers by the words that are typed for them.
pub(in crate::shop::sheet) const HAZARDS: [(&str, Hazard); 6] = [
    ("burning fines", Hazard::BurningFines),
    ("nickel", Hazard::Nickel),
    ("cobalt", Hazard::Cobalt),
    ("chromium", Hazard::Chromium),
    ("beryllium", Hazard::Beryllium),
    ("copper or lead", Hazard::CopperLead),
];

/// The word for a material that endangers nothing of these.
pub(in crate::shop::sheet) const NO_HAZARD: &str = "none";

/// Days of the week by the words that are written for them.
pub(in crate::shop::sheet) const WEEK: [(&str, Weekday); 7] = [
    ("Mon", Weekday::Mon),
    ("Tue", Weekday::Tue),
    ("Wed", Weekday::Wed),
    ("Thu", Weekday::Thu),
    ("Fri", Weekday::Fri),
    ("Sat", Weekday::Sat),
    ("Sun", Weekday::Sun),
];

/// Most names, pieces or rates in one place.
const MOST: usize = 50;

/// Longest name in a list, in characters.
const LONGEST_NAME: usize = 120;

fn not(what: What, found: &str) -> Misread {
    Misread::Not {
        what,
        found: found.trim().to_owned(),
    }
}

/// Days of the week: `Mon Tue Wed`, `Mon-Fri`, `Mon to Sat`.
pub(super) fn days(text: &str) -> Result<Vec<Weekday>, Misread> {
    let bad = || not(What::WorkDays, text);
    let spaced = text
        .replace(['-', '\u{2013}'], " to ")
        .replace([',', ';', '.'], " ");
    let place = |word: &str| {
        let word = word.to_lowercase();
        let like = |(short, day): &(&str, Weekday)| {
            let short = short.to_lowercase();
            word.starts_with(&short) && full_name(*day).starts_with(&word)
        };
        WEEK.iter().position(like)
    };
    let mut worked = [false; WEEK.len()];
    let (mut last, mut up_to) = (None, false);
    for word in spaced.split_whitespace() {
        if matches!(word.to_lowercase().as_str(), "to" | "through" | "and") {
            up_to = !word.eq_ignore_ascii_case("and");
            continue;
        }
        let at = place(word).ok_or_else(bad)?;
        let from = if up_to { last.ok_or_else(bad)? } else { at };
        if from > at {
            return Err(bad());
        }
        worked[from..=at].fill(true);
        (last, up_to) = (Some(at), false);
    }
    if up_to || last.is_none() {
        return Err(bad());
    }
    let days = WEEK.iter().zip(worked).filter(|(_, worked)| *worked);
    Ok(days.map(|((_, day), _)| *day).collect())
}

const fn full_name(day: Weekday) -> &'static str {
    match day {
        Weekday::Mon => "mondays",
        Weekday::Tue => "tuesdays",
        Weekday::Wed => "wednesdays",
        Weekday::Thu => "thursdays",
        Weekday::Fri => "fridays",
        Weekday::Sat => "saturdays",
        Weekday::Sun => "sundays",
    }
}

/// A rate for all machines, or for each by its name: `68`, `Barrow 70; Steeple 76`, `68; Steeple 76`.
pub(super) fn machine_rates(text: &str) -> Result<MachineRates, Misread> {
    let mut rates = MachineRates::default();
    for part in parts(text)? {
        let of_all = read::money(part);
        if let Ok(all) = of_all {
            if rates.all.replace(all).is_some() {
                return Err(not(What::MachineRates, part));
            }
            continue;
        }
        let split = part.rsplit_once([' ', ':', '=']);
        let (name, rate) = split.ok_or_else(|| not(What::MachineRates, part))?;
        let name = name.trim().trim_end_matches([':', '=']).trim_end();
        let rate = read::money(rate).map_err(|_| not(What::MachineRates, part))?;
        if name.is_empty() || rates.named.iter().any(|(there, _)| there == name) {
            return Err(not(What::MachineRates, part));
        }
        rates.named.push((name.to_owned(), rate));
    }
    Ok(rates)
}

/// Names with semicolons or line ends between them.
pub(super) fn names(text: &str) -> Result<Vec<String>, Misread> {
    let parts = parts(text)?.into_iter();
    parts.map(|part| read::line(part, LONGEST_NAME)).collect()
}

/// Dangers with semicolons or commas between them.
pub(super) fn hazards(text: &str) -> Result<Vec<Hazard>, Misread> {
    let mut all = Vec::new();
    if text.trim().eq_ignore_ascii_case(NO_HAZARD) {
        return Ok(all);
    }
    for part in text.split([';', ',', '\n']) {
        let word = part.trim().to_lowercase();
        let known = HAZARDS.iter().find(|(known, _)| *known == word);
        let (_, hazard) = known.ok_or_else(|| not(What::Hazards, part))?;
        if !all.contains(hazard) {
            all.push(*hazard);
        }
    }
    Ok(all)
}

/// Pieces by their length: `180`, `180; 2 x 95`.
pub(super) fn stubs(text: &str, unit: Unit) -> Result<Vec<(u32, Length)>, Misread> {
    let mut all = Vec::new();
    for part in parts(text)? {
        let times = part.split_once(['x', 'X', '\u{d7}', '*']);
        let (count, length) = match times {
            Some((count, length)) => (read::whole(count, 1)?, length),
            None => (1, part),
        };
        all.push((count, read::length(length, unit)?));
    }
    Ok(all)
}

/// What stands between semicolons and line ends; blank pieces count for nothing.
fn parts(text: &str) -> Result<Vec<&str>, Misread> {
    let parts = text.split([';', '\n']).map(str::trim);
    let parts: Vec<&str> = parts.filter(|part| !part.is_empty()).collect();
    if parts.len() > MOST {
        return Err(Misread::TooMany { most: MOST });
    }
    Ok(parts)
}

#[cfg(test)]
mod tests {
    use rust_decimal::Decimal;

    use super::*;

    #[test]
    fn days_come_one_by_one_or_as_a_stretch() {
        let five = &WEEK[..5].iter().map(|(_, day)| *day).collect::<Vec<_>>();
        for text in [
            "Mon-Fri",
            "mon to fri",
            "Monday, Tuesday, Wed Thu Fri",
            "Mon Tue-Thu and Fri",
        ] {
            assert_eq!(days(text).as_ref(), Ok(five), "{text}");
        }
        for text in ["", "Fri-Mon", "Mon-", "M", "Funday", "to Fri"] {
            assert!(days(text).is_err(), "{text:?}");
        }
    }

    #[test]
    fn rates_are_of_all_machines_or_of_some_by_name() {
        let rates = machine_rates("68; EDM 2 76.50; Wren: 64").expect("rates");
        assert_eq!(rates.all, Some(Decimal::from(68)));
        let named = [
            ("EDM 2".to_owned(), Decimal::new(7650, 2)),
            ("Wren".to_owned(), Decimal::from(64)),
        ];
        assert_eq!(rates.named, named);
        for text in ["68; 70", "Barrow", "Barrow x", "Barrow 70; Barrow 71"] {
            assert!(machine_rates(text).is_err(), "{text}");
        }
    }

    #[test]
    fn pieces_of_electrodes_are_counted_by_length() {
        let stubs = stubs("180; 2 x 95", Unit::Mm).expect("pieces");
        let plain: Vec<(u32, f64)> = stubs.iter().map(|(n, length)| (*n, length.mm())).collect();
        assert_eq!(plain, [(1, 180.0), (2, 95.0)]);
    }
}
