//! Names of materials without what people write in several ways.

/// A name without what people write in several ways: case, blanks, signs, "UNS" and "W.-Nr.".
pub(super) fn plain(name: &str) -> String {
    let letters: Vec<char> = name.chars().flat_map(char::to_lowercase).collect();
    let is_digit = |at: Option<usize>| {
        at.and_then(|at| letters.get(at))
            .is_some_and(char::is_ascii_digit)
    };
    let kept = letters.iter().enumerate().filter(|(at, letter)| {
        let point = **letter == '.' && is_digit(at.checked_sub(1)) && is_digit(Some(at + 1));
        letter.is_alphanumeric() || point
    });
    let plain: String = kept.map(|(_, letter)| *letter).collect();
    let plain = plain
        .replace("aluminium", "aluminum")
        .replace("stainlesssteel", "stainless");
    // A number of EN 10027-2 such as 1.4301, and a number of the unified system such as S30400.
    const BEFORE_A_NUMBER: [&str; 7] = [
        "werkstoffnummer",
        "werkstoffnr",
        "wnr",
        "matnr",
        "din",
        "en",
        "uns",
    ];
    let number = BEFORE_A_NUMBER.into_iter().find_map(|word| {
        let rest = plain.strip_prefix(word)?;
        let is_en = rest.get(1..2) == Some(".") && rest.starts_with(|c: char| c.is_ascii_digit());
        let is_uns = rest.len() == 6 && rest.get(1..)?.bytes().all(|c| c.is_ascii_digit());
        (is_en || is_uns).then(|| rest.to_owned())
    });
    number.unwrap_or(plain)
}
