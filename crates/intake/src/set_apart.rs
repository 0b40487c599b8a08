//! What callouts have beside the parts of a hole: a mark before the count, the circle that the holes lie on, a count
//! behind the size.
//!
//! Forms as shops write them; common practice, no source.

use std::borrow::Cow;

use crate::dxf::DIAMETER;

/// A callout as its parts are read: without the circle that holes lie on and the mark before their count, and with a
/// count of `⌀0.60-4X THRU` before its size.
pub(crate) fn set_apart(text: &str) -> Cow<'_, str> {
    let words: Vec<&str> = text.split_whitespace().collect();
    if words.len() > MOST_WORDS {
        return Cow::Borrowed(text);
    }
    let mut kept = words.clone();
    if let Some(circle) = circle(&kept) {
        kept.drain(circle);
    }
    drop_spacing(&mut kept);
    if let [mark, count, size, ..] = kept.as_slice()
        && is_mark(mark)
        && is_times(count)
        && size.starts_with(DIAMETER)
    {
        kept.remove(0);
    }
    let is_angle = |at: usize| {
        let is_at = kept
            .get(at)
            .is_some_and(|word| word.eq_ignore_ascii_case("at"));
        is_at && kept.get(at + 1).is_some_and(|next| is_degrees(next))
    };
    if let Some(at) = (1..kept.len()).find(|at| is_angle(*at)) {
        kept[at] = "@";
    }
    let counted = kept.first().and_then(|first| {
        let (size, count) = first.split_once('-')?;
        let is_size =
            size.starts_with(DIAMETER) && size.ends_with(|sign: char| sign.is_ascii_digit());
        (is_size && is_times(count)).then(|| format!("{count} {size}"))
    });
    if let (Some(counted), Some(first)) = (&counted, kept.first_mut()) {
        *first = counted;
    }
    if kept == words {
        Cow::Borrowed(text)
    } else {
        Cow::Owned(kept.join(" "))
    }
}

/// Whether a text says how many holes lie on a circle or evenly apart, and nothing of their size: the count.
pub(crate) fn count_of_circle(text: &str) -> Option<String> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let mut kept = words.clone();
    if let Some(circle) = circle(&kept) {
        kept.drain(circle);
    }
    drop_spacing(&mut kept);
    (kept != words && !kept.is_empty()).then(|| kept.join(" "))
}

/// Whether a text says on what circle holes lie, or that they are evenly apart, and nothing else.
pub(crate) fn is_circle_alone(text: &str) -> bool {
    let mut words: Vec<&str> = text.split_whitespace().collect();
    let Some(circle) = circle(&words) else {
        return false;
    };
    words.drain(circle);
    words.iter().all(|word| is_of_spacing(word))
}

/// No callout has more words.
const MOST_WORDS: usize = 40;

/// Where `ON Ø40 B.C.` stands among the words.
fn circle(words: &[&str]) -> Option<std::ops::Range<usize>> {
    let bare = |at: usize| -> String {
        let word = words.get(at).copied().unwrap_or_default();
        let letters = word.chars().filter(char::is_ascii_alphabetic);
        letters.collect::<String>().to_uppercase()
    };
    let ends = |at: usize| match bare(at).as_str() {
        "BC" | "PCD" | "BCD" | "BHC" | "BOLTCIRCLE" => Some(at + 1),
        "BOLT" | "PITCH" if bare(at + 1) == "CIRCLE" => {
            Some(at + 2 + usize::from(bare(at + 2).starts_with("DIA")))
        }
        _ => None,
    };
    let (at, ends) = (1..words.len()).find_map(|at| Some((at, ends(at)?)))?;
    let mut begins = at - 1;
    // A unit or a diameter's word behind the number.
    if matches!(bare(begins).as_str(), "MM" | "IN" | "DIA") && !has_digit(words.get(begins)?) {
        begins = begins.checked_sub(1)?;
    }
    has_digit(words.get(begins)?).then_some(())?;
    let goes_before = |begins: usize| {
        let before = begins.checked_sub(1)?;
        let word = words.get(before)?;
        let is_sign = word.chars().all(|sign| DIAMETER.contains(&sign));
        let is_small = matches!(bare(before).as_str(), "ON" | "A" | "AN" | "DIA" | "AUF");
        (is_sign || (is_small && !has_digit(word))).then_some(before)
    };
    let mut said_on = words.get(begins)?.starts_with(DIAMETER);
    while let Some(before) = goes_before(begins) {
        said_on = true;
        begins = before;
    }
    said_on.then_some(begins..ends.min(words.len()))
}

fn has_digit(word: &str) -> bool {
    word.contains(|sign: char| sign.is_ascii_digit())
}

/// Drops `EQ SP` right behind a count.
fn drop_spacing(words: &mut Vec<&str>) {
    let bare = |word: &str| {
        word.trim_matches(|sign: char| !sign.is_alphabetic())
            .to_lowercase()
    };
    let is_count = |at: usize, words: &[&str]| {
        let word = words.get(at).copied().unwrap_or_default();
        let counts = matches!(
            bare(word).as_str(),
            "holes" | "places" | "plcs" | "pl" | "x"
        );
        counts
            && (has_digit(word)
                || at
                    .checked_sub(1)
                    .and_then(|at| words.get(at))
                    .is_some_and(|word| has_digit(word)))
    };
    let Some(at) = (0..words.len()).find(|at| is_count(*at, words)) else {
        return;
    };
    let said = words
        .iter()
        .skip(at + 1)
        .take_while(|word| is_of_spacing(word))
        .count();
    words.drain(at + 1..at + 1 + said);
}

fn is_of_spacing(word: &str) -> bool {
    const WORDS: [&str; 6] = ["eq", "equal", "equally", "sp", "spaced", "spacing"];
    let bare = word.trim_matches(|sign: char| !sign.is_alphabetic());
    WORDS.iter().any(|of| bare.eq_ignore_ascii_case(of))
}

fn is_mark(word: &str) -> bool {
    let letters = word.chars().take_while(char::is_ascii_uppercase).count();
    let digits = word.get(letters..).unwrap_or_default();
    (1..=2).contains(&letters)
        && digits.len() <= 3
        && digits.chars().all(|sign| sign.is_ascii_digit())
        && word != "X"
}

/// `4X`.
fn is_times(word: &str) -> bool {
    let count = word.strip_suffix(['x', 'X', '\u{d7}']);
    count.is_some_and(|count| !count.is_empty() && count.chars().all(|sign| sign.is_ascii_digit()))
}

fn is_degrees(word: &str) -> bool {
    let number = word.strip_suffix('\u{b0}');
    number.is_some_and(|number| {
        !number.is_empty()
            && number
                .chars()
                .all(|sign| sign.is_ascii_digit() || ".,".contains(sign))
    })
}

#[cfg(test)]
mod tests {
    use super::{count_of_circle, is_circle_alone, set_apart};

    #[test]
    fn what_stands_beside_the_parts_of_a_hole() {
        for (text, parts) in [
            ("8X \u{d8}0.6 THRU ON \u{d8}40 B.C.", "8X \u{d8}0.6 THRU"),
            (
                "8 HOLES EQ SP ON \u{d8}40 B.C. \u{d8}0.6",
                "8 HOLES \u{d8}0.6",
            ),
            (
                "8X EQ SP ON A 1.500 DIA BOLT CIRCLE \u{d8}.02",
                "8X \u{d8}.02",
            ),
            ("H1 3X \u{d8}0.60 THRU", "3X \u{d8}0.60 THRU"),
            ("\u{d8}0.60-4X THRU", "4X \u{d8}0.60 THRU"),
            (
                "3X \u{d8}0.6 THRU AT 30\u{b0} TO SURFACE",
                "3X \u{d8}0.6 THRU @ 30\u{b0} TO SURFACE",
            ),
            (
                "\u{d8}0.60 THRU,  16 EQ SPACED",
                "\u{d8}0.60 THRU,  16 EQ SPACED",
            ),
            ("\u{d8}0.60-0.65 THRU", "\u{d8}0.60-0.65 THRU"),
            ("M6 3X \u{d8}", "3X \u{d8}"),
        ] {
            assert_eq!(set_apart(text), parts, "{text}");
        }
    }

    #[test]
    fn counts_of_circles() {
        assert_eq!(
            count_of_circle("8 HOLES EQ SP ON \u{d8}40 B.C.").as_deref(),
            Some("8 HOLES")
        );
        assert_eq!(count_of_circle("6X EQ SP").as_deref(), Some("6X"));
        assert_eq!(count_of_circle("\u{d8}40 SHAFT"), None);
        assert_eq!(count_of_circle("8 HOLES"), None);
        assert!(is_circle_alone("EQ SP ON \u{d8}40 B.C."));
        assert!(!is_circle_alone("8X ON \u{d8}40 B.C.") && !is_circle_alone("EQ SP"));
    }
}
