//! Cells with a few possible words: where a hole ends, yes or no, ends, axes.

use quillbore_calc::input::{Ends, HoleEnd, PartAxis, Proof};

use super::misread::{Misread, What};
use super::scan::Scan;

/// Reads where a hole ends: `through`, `thru`, `into`, `blind`.
pub fn hole_end(text: &str) -> Result<HoleEnd, Misread> {
    one_of(
        text,
        What::End,
        &[
            (
                &[
                    "through",
                    "thru",
                    "thro",
                    "t",
                    "through all",
                    "thru all",
                    "open",
                ],
                HoleEnd::Through,
            ),
            (
                &[
                    "into",
                    "i",
                    "into cavity",
                    "into bore",
                    "into hole",
                    "into core",
                    "cavity",
                    "bore",
                    "crossing",
                ],
                HoleEnd::Into,
            ),
            (&["blind", "b", "closed"], HoleEnd::Blind),
        ],
    )
}

/// Reads one of a line's own words; their beginning is enough where it is the beginning of one only.
pub fn one_of_words(text: &str, words: &'static [&'static str]) -> Result<&'static str, Misread> {
    let typed = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let typed = typed.to_lowercase();
    let lowered = |word: &&&str| word.to_lowercase();
    let mut begun = words
        .iter()
        .filter(|word| lowered(word).starts_with(&typed));
    match (
        words.iter().find(|word| lowered(word) == typed),
        begun.next(),
        begun.next(),
    ) {
        (Some(word), _, _) | (None, Some(word), None) => Ok(word),
        _ => Err(Misread::NotOneOf {
            found: typed,
            words,
        }),
    }
}

/// Reads yes or no.
pub fn yes_no(text: &str) -> Result<bool, Misread> {
    one_of(
        text,
        What::YesNo,
        &[
            (&["yes", "y", "true", "1", "x", "\u{2713}"], true),
            (&["no", "n", "false", "0", "-", "none"], false),
        ],
    )
}

/// Reads how a hole is proved open.
pub fn proof(text: &str) -> Result<Proof, Misread> {
    one_of(
        text,
        What::Proof,
        &[
            (&["pin", "pins", "pin gauge", "by pin"], Proof::Pin),
            (&["light", "light check", "by light"], Proof::Light),
            (&["wire", "wire check", "by wire"], Proof::Wire),
            (
                &["air", "airflow", "air flow", "air check", "flow", "by air"],
                Proof::Air,
            ),
            (
                &["pin-through", "pin through", "pin thru", "through pin"],
                Proof::PinThrough,
            ),
        ],
    )
}

/// Reads the ends that a hole is drilled from.
pub fn ends(text: &str) -> Result<Ends, Misread> {
    one_of(
        text,
        What::Ends,
        &[
            (&["one", "1", "one end", "single"], Ends::One),
            (&["both", "2", "two", "both ends", "two ends"], Ends::Both),
        ],
    )
}

/// Reads an axis of the part, or none.
pub fn part_axis(text: &str) -> Result<Option<PartAxis>, Misread> {
    one_of(
        text,
        What::PartAxis,
        &[
            (&["x", "x axis"], Some(PartAxis::X)),
            (&["y", "y axis"], Some(PartAxis::Y)),
            (&["z", "z axis"], Some(PartAxis::Z)),
            (&["none", "no", "-"], None),
        ],
    )
}

/// The choice whose words the text is, without regard to case, spaces and a point at the end.
fn one_of<T: Copy>(text: &str, what: What, choices: &[(&[&str], T)]) -> Result<T, Misread> {
    let typed = Scan::new(text)?.rest();
    let typed = typed.trim_end_matches('.');
    let plain = typed
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
        .to_lowercase();
    choices
        .iter()
        .find(|(words, _)| words.contains(&plain.as_str()))
        .map(|(_, choice)| *choice)
        .ok_or_else(|| Misread::Not {
            what,
            found: text.trim().to_owned(),
        })
}
