//! Changing bytes: what is cut, doubled, put together from two, or replaced by something that means
//! something.

use quillbore_tests::attack::TEXTS;

use crate::packed;
use crate::seeds::Seeds;

/// No case is longer.
const LONGEST: usize = 40_000;

/// Signs that the formats are made of.
const SIGNS: &[&str] = &[
    "(", ")", "[", "]", "{", "}", ":", ",", "\"", "\"\"", "\n", "\r\n", "\r", "\t", ";", "\\",
    "//", "/*", "*/", "Some(", "None", "()", "r#\"", "\"#", "true", "-", ".", "e", "0x", "_",
    "inf", "NaN", "\u{feff}", "\0",
];

/// A seed, changed in one to some places; a packed one mostly inside.
pub(crate) fn changed(random: &mut fastrand::Rng, seeds: &Seeds) -> Vec<u8> {
    let bytes = seeds.one(random).to_vec();
    if random.u8(..8) > 0
        && let Some(mut parts) = packed::parts(&bytes)
    {
        packed::change(random, seeds, &mut parts);
        return packed::packed(&parts);
    }
    changed_bytes(random, seeds, bytes)
}

/// Bytes, changed in one to some places.
pub(crate) fn changed_bytes(
    random: &mut fastrand::Rng,
    seeds: &Seeds,
    mut bytes: Vec<u8>,
) -> Vec<u8> {
    let changes = 1 + random.usize(..6) * usize::from(random.bool());
    for _ in 0..changes {
        change(random, seeds, &mut bytes);
    }
    bytes.truncate(LONGEST);
    bytes
}

fn change(random: &mut fastrand::Rng, seeds: &Seeds, bytes: &mut Vec<u8>) {
    let at = random.usize(..=bytes.len());
    let span = at..(at + 1 + random.usize(..24)).min(bytes.len()).max(at);
    match random.u8(..12) {
        0 => {
            if let Some(byte) = bytes.get_mut(at) {
                *byte ^= 1 << random.u8(..8);
            }
        }
        1 => {
            if let Some(byte) = bytes.get_mut(at) {
                *byte = random.u8(..);
            }
        }
        2 => drop(bytes.drain(span)),
        3 => {
            let piece = bytes[span].to_vec();
            put(bytes, at, &piece);
        }
        4 => put(bytes, at, sign(random).as_bytes()),
        5 => put(bytes, at, text(random).as_bytes()),
        6 => replace_number(random, bytes, at),
        7 => replace_text(random, bytes, at),
        8 => {
            let other = seeds.one(random);
            let from = random.usize(..=other.len());
            let to = (from + random.usize(..400)).min(other.len());
            let piece = other[from..to].to_vec();
            put(bytes, at, &piece);
        }
        9 => {
            let line = line_at(bytes, at);
            let piece = bytes[line.clone()].to_vec();
            let times = [1, 1, 2, 30][random.usize(..4)];
            put(bytes, line.end, &piece.repeat(times));
        }
        10 => {
            let line = line_at(bytes, at);
            bytes.drain(line);
        }
        _ => {
            let byte = random.u8(..);
            put(bytes, at, &vec![byte; 1 + random.usize(..40)]);
        }
    }
    bytes.truncate(LONGEST);
}

fn sign(random: &mut fastrand::Rng) -> &'static str {
    SIGNS[random.usize(..SIGNS.len())]
}

fn text(random: &mut fastrand::Rng) -> &'static str {
    TEXTS[random.usize(..TEXTS.len())]
}

fn put(bytes: &mut Vec<u8>, at: usize, piece: &[u8]) {
    let at = at.min(bytes.len());
    bytes.splice(at..at, piece.iter().copied());
}

/// Puts another number in the place of the next one.
fn replace_number(random: &mut fastrand::Rng, bytes: &mut Vec<u8>, from: usize) {
    let Some(first) = bytes[from..].iter().position(u8::is_ascii_digit) else {
        return;
    };
    let first = from + first;
    let rest = &bytes[first..];
    let length = rest.iter().position(|byte| !byte.is_ascii_digit());
    let end = first + length.unwrap_or(rest.len());
    let number = match random.u8(..4) {
        0 => random.u32(..).to_string(),
        1 => random.u8(..).to_string(),
        2 => (random.f64() * 10_f64.powi(random.i32(-12..12))).to_string(),
        _ => text(random).to_owned(),
    };
    bytes.splice(first..end, number.into_bytes());
}

/// Puts another text between the next two quotes.
fn replace_text(random: &mut fastrand::Rng, bytes: &mut Vec<u8>, from: usize) {
    let quote = |bytes: &[u8], from: usize| {
        let at = bytes[from..].iter().position(|byte| *byte == b'"');
        at.map(|at| from + at)
    };
    let first = quote(bytes, from);
    if let Some(first) = first
        && let Some(last) = quote(bytes, first + 1)
    {
        let text = text(random).replace('\\', "\\\\").replace('"', "\\\"");
        bytes.splice(first + 1..last, text.into_bytes());
    }
}

fn line_at(bytes: &[u8], at: usize) -> std::ops::Range<usize> {
    let begins = bytes[..at].iter().rposition(|byte| *byte == b'\n');
    let ends = bytes[at..].iter().position(|byte| *byte == b'\n');
    let begins = begins.map_or(0, |end| end + 1);
    begins..ends.map_or(bytes.len(), |end| at + end + 1)
}
