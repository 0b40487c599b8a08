//! How text and names that others chose are shown, so that none of their signs steers a terminal or
//! turns a line around, and none is left out.

use std::borrow::Cow;
use std::ffi::OsStr;
use std::fmt::Write as _;
use std::io::{self, Write};

/// A name as text; of what is no text every byte is shown.
pub(crate) fn name(name: &OsStr) -> String {
    let mut text = String::new();
    for chunk in name.as_encoded_bytes().utf8_chunks() {
        text.push_str(chunk.valid());
        for byte in chunk.invalid() {
            let _ = write!(text, "\\x{byte:02x}");
        }
    }
    text
}

/// A line in which signs that would steer a terminal, end the line or turn it around are shown by
/// their codes.
pub(crate) fn harmless(line: &str) -> Cow<'_, str> {
    let steers = |sign: char| sign != '\t' && (sign.is_control() || turns_around(sign));
    if !line.contains(steers) {
        return Cow::Borrowed(line);
    }
    let mut text = String::with_capacity(line.len());
    for sign in line.chars() {
        if steers(sign) {
            text.extend(sign.escape_default());
        } else {
            text.push(sign);
        }
    }
    Cow::Owned(text)
}

/// Writes JSON in which the same signs stand as escapes, so that it says the same; those below a
/// blank, which JSON always escapes inside a text, lay it out.
pub(crate) struct HarmlessJson<W>(pub(crate) W);

impl<W: Write> Write for HarmlessJson<W> {
    fn write(&mut self, json: &[u8]) -> io::Result<usize> {
        let steers = |sign: char| sign >= ' ' && (sign.is_control() || turns_around(sign));
        // Whoever writes JSON writes whole signs.
        let text = std::str::from_utf8(json).map_err(io::Error::other)?;
        let mut rest = text;
        while let Some((at, sign)) = rest.char_indices().find(|(_, sign)| steers(*sign)) {
            self.0.write_all(&rest.as_bytes()[..at])?;
            write!(self.0, "\\u{:04x}", u32::from(sign))?;
            rest = &rest[at + sign.len_utf8()..];
        }
        self.0.write_all(rest.as_bytes())?;
        Ok(json.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        self.0.flush()
    }
}

/// Whether a sign changes the direction or the line of all that follows it.
const fn turns_around(sign: char) -> bool {
    matches!(sign, '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_steers_a_terminal_is_shown_and_all_else_stays() {
        let plain = "\u{d8} 0.80 \u{b1}0.05\ttool steel \u{5d0} \u{6771}";
        assert_eq!(harmless(plain), plain);
        assert_eq!(
            harmless("a\u{1b}[2J\u{7}\r\n\u{8}\u{7f}\u{9b}\u{202e}b\u{2066}\u{2028}"),
            "a\\u{1b}[2J\\u{7}\\r\\n\\u{8}\\u{7f}\\u{9b}\\u{202e}b\\u{2066}\\u{2028}"
        );
    }

    #[test]
    fn json_says_the_same() {
        let said = serde_json::json!({ "a\u{9b}": "\u{1b}[31m\u{7f}\u{202e}\n\u{5d0}" });
        let mut json = Vec::new();
        serde_json::to_writer_pretty(HarmlessJson(&mut json), &said).expect("JSON");
        let harmless = String::from_utf8(json).expect("text");
        let steers = |sign: char| sign != '\n' && (sign.is_control() || turns_around(sign));
        assert!(!harmless.chars().any(steers), "{harmless}");
        let read: serde_json::Value = serde_json::from_str(&harmless).expect("JSON");
        assert_eq!(read, said);
    }

    #[cfg(unix)]
    #[test]
    fn a_name_that_is_no_text_shows_its_bytes() {
        use std::os::unix::ffi::OsStrExt as _;
        assert_eq!(name(OsStr::from_bytes(b"a\xffb\xc3")), "a\\xffb\\xc3");
        assert_eq!(name(OsStr::new("\u{e4}\\b")), "\u{e4}\\b");
    }
}
