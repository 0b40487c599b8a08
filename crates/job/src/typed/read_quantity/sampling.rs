//! The sampling plan within what is typed of an inspection.

use quillbore_calc::standards::sampling::InspectionLevel;

use super::misread::{Misread, What};

/// What comes before a level, in the languages in which papers go out.
const LEVEL: [&str; 2] = ["level", "pr\u{fc}fniveau"];

/// Reads the plan that a text asks for: `AQL 1.0`, `level S-3, AQL 0.65`. Without a number behind `AQL` it
/// asks for none; II is meant where no level is named.
pub fn sampling(text: &str) -> Result<Option<(InspectionLevel, f64)>, Misread> {
    let words = words(text);
    let after = |names: &[&str]| {
        let mut pairs = words.iter().zip(words.iter().skip(1));
        let found = pairs.find(|(name, _)| names.contains(&name.to_lowercase().as_str()));
        found.map(|(_, next)| next.as_str())
    };
    let begins = |found: &&str| found.starts_with(|ch: char| ch.is_ascii_digit());
    let Some(limit) = after(&["aql"]).filter(begins) else {
        return Ok(None);
    };
    let not = |what, found: &str| Misread::Not {
        what,
        found: found.to_owned(),
    };
    let percent = limit.trim_end_matches('%').parse();
    let percent = percent.map_err(|_| not(What::AcceptanceLimit, limit))?;
    let level = match after(&LEVEL) {
        None => InspectionLevel::General(2),
        Some(found) => level(found).ok_or_else(|| not(What::InspectionLevel, found))?,
    };
    Ok(Some((level, percent)))
}

fn level(found: &str) -> Option<InspectionLevel> {
    let plain = found
        .to_uppercase()
        .replace(['-', '\u{2010}', '\u{2011}', '\u{2013}'], "");
    Some(match plain.as_str() {
        "I" => InspectionLevel::General(1),
        "II" => InspectionLevel::General(2),
        "III" => InspectionLevel::General(3),
        "S1" => InspectionLevel::Special(1),
        "S2" => InspectionLevel::Special(2),
        "S3" => InspectionLevel::Special(3),
        "S4" => InspectionLevel::Special(4),
        _ => return None,
    })
}

/// The words of a text without what stands between them; a comma between two digits is a decimal one.
fn words(text: &str) -> Vec<String> {
    let signs: Vec<char> = text.chars().collect();
    let is_digit = |at: Option<usize>| {
        let sign = at.and_then(|at| signs.get(at));
        sign.is_some_and(char::is_ascii_digit)
    };
    let plain = signs.iter().enumerate().map(|(at, sign)| match sign {
        ',' if is_digit(at.checked_sub(1)) && is_digit(Some(at + 1)) => '.',
        ',' | ';' | ':' | '=' | '(' | ')' | '/' => ' ',
        other => *other,
    });
    let plain: String = plain.collect();
    let words = plain.split_whitespace();
    let words = words.map(|word| word.trim_matches(['.', '"']).to_owned());
    words.filter(|word| !word.is_empty()).collect()
}
