//! Serial numbers as people write them: `101-104, 110`, `A1 A2`.

use std::collections::BTreeSet;

/// Most serial numbers that are read out of one text; a longer range stays as it was written.
pub const MOST: usize = 10_000;
/// Most digits of a number that is counted up.
const LONGEST: usize = 9;

/// The serial numbers of a text, ranges counted out, each once and in its order.
///
/// A range has the same beginning and as many digits on both sides, or a shorter end that replaces
/// the last digits: `SN101-104`, `0098-0102`; pieces that are counted from one may end with more digits:
/// `1-30`. What is no range stays as it was written.
///
/// Beyond [`MOST`] nothing more is read: who prints them says so.
///
/// ```
/// use quillbore_job::serials;
/// assert_eq!(serials::read("101-103, A7"), ["101", "102", "103", "A7"]);
/// ```
#[must_use]
pub fn read(text: &str) -> Vec<String> {
    let mut serials: Vec<String> = Vec::new();
    let mut seen: BTreeSet<String> = BTreeSet::new();
    // A range may be typed with blanks around its dash, or with a word for it.
    let text = text
        .replace(" - ", "-")
        .replace(" \u{2013} ", "-")
        .replace(" to ", "-");
    for part in text.split([',', ';', ' ', '\n', '\t']) {
        let part = part.trim();
        if part.is_empty() {
            continue;
        }
        for serial in range(part).unwrap_or_else(|| vec![part.to_owned()]) {
            if serials.len() < MOST && seen.insert(serial.clone()) {
                serials.push(serial);
            }
        }
    }
    serials
}

fn range(part: &str) -> Option<Vec<String>> {
    let (from, to) = part.split_once(['-', '\u{2013}'])?;
    let start = from.trim_end_matches(|ch: char| ch.is_ascii_digit()).len();
    let (stem, first) = from.split_at(start);
    let last = to.strip_prefix(stem).unwrap_or(to);
    let digits = |text: &str| {
        !text.is_empty() && text.len() <= LONGEST && text.bytes().all(|b| b.is_ascii_digit())
    };
    if !digits(first) || !digits(last) {
        return None;
    }
    let whole = match first.len().checked_sub(last.len()) {
        Some(same) => format!("{}{last}", &first[..same]),
        // `4-118` is a part; pieces are counted from one.
        None if first == "1" && stem.is_empty() && !last.starts_with('0') => last.to_owned(),
        None => return None,
    };
    let (begin, end): (u32, u32) = (first.parse().ok()?, whole.parse().ok()?);
    let width = first.len();
    let many = usize::try_from(end.checked_sub(begin)?).ok()?;
    (many < MOST).then(|| {
        (begin..=end)
            .map(|number| format!("{stem}{number:0width$}"))
            .collect()
    })
}

#[cfg(test)]
mod tests {
    use super::read;

    #[test]
    fn pieces_that_are_counted_from_one_are_a_range() {
        assert_eq!(read("1-30").len(), 30);
        assert_eq!(read("1 to 12").last().map(String::as_str), Some("12"));
    }

    #[test]
    fn ranges_are_counted_out_and_all_else_stays_as_written() {
        for (text, serials) in [
            ("101-104, 110", &["101", "102", "103", "104", "110"][..]),
            ("SN098-SN101", &["SN098", "SN099", "SN100", "SN101"]),
            ("A17-19; A17", &["A17", "A18", "A19"]),
            ("4-118", &["4-118"]),
            ("1-012", &["1-012"]),
            ("A1-12", &["A1-12"]),
            ("B-7", &["B-7"]),
            ("104-101", &["104-101"]),
            ("1-999999", &["1-999999"]),
            ("S1 - S3", &["S1", "S2", "S3"]),
            ("101 to 103", &["101", "102", "103"]),
            ("", &[]),
        ] {
            assert_eq!(read(text), serials, "{text}");
        }
    }
}
