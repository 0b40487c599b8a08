//! Files that are no table, and would be read as one all the same: texts of other formats.

use crate::error::IntakeError;

/// Endings of the names of files with parts or drawings that are not read.
const PARTS: [&str; 19] = [
    "igs", "iges", "stl", "brep", "brp", "x_t", "x_b", "sat", "sab", "stpx", "stpz", "obj", "3mf",
    "jt", "dwg", "dwf", "prt", "vda", "wrl",
];

/// Endings of the names of files with text beside which a table is one part only, or packed ones.
const TEXTS: [&str; 9] = [
    "html", "htm", "xml", "rtf", "doc", "docx", "eml", "msg", "gz",
];

/// Refuses a file whose name or first letters say that it is no table.
pub(crate) fn refuse(bytes: &[u8], name: &str) -> Result<(), IntakeError> {
    let ending = name
        .rsplit_once('.')
        .map(|(_, ending)| ending.to_lowercase());
    let ending = ending.unwrap_or_default();
    if PARTS.contains(&ending.as_str()) {
        return Err(IntakeError::OtherPart(ending));
    }
    let first = bytes.iter().position(|byte| !byte.is_ascii_whitespace());
    let text = bytes.get(first.unwrap_or(0)..).unwrap_or_default();
    let begins = |with: &str| {
        let text = text.get(..with.len());
        text.is_some_and(|text| text.eq_ignore_ascii_case(with.as_bytes()))
    };
    if begins("solid ") && contains(text, b"facet") {
        return Err(IntakeError::OtherPart("stl".to_owned()));
    }
    if is_iges(bytes) {
        return Err(IntakeError::OtherPart("igs".to_owned()));
    }
    if TEXTS.contains(&ending.as_str())
        || begins("<?xml")
        || begins("<html")
        || begins("<!doctype")
        || begins("<table")
        || begins("{\\rtf")
    {
        return Err(IntakeError::NoTable);
    }
    Ok(())
}

fn contains(text: &[u8], word: &[u8]) -> bool {
    let near = text.get(..text.len().min(1_000)).unwrap_or_default();
    memchr::memmem::find(near, word).is_some()
}

/// Lines of 80 letters, the 73rd being `S` in the first of them (ANSI Y14.26M, section S).
fn is_iges(bytes: &[u8]) -> bool {
    bytes.get(72) == Some(&b'S')
        && bytes.get(73..80).is_some_and(|number| {
            number.ends_with(b"1") && number.iter().all(|byte| b" 01".contains(byte))
        })
}
