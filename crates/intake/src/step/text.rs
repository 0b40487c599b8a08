//! Texts as ISO 10303-21 writes them, with its escapes.

/// A text without its escapes: `\X\`, `\X2\`, `\X4\`, `\S\`, `\P.\` and doubled signs.
pub(super) fn decoded(bytes: &[u8]) -> String {
    let mut text = String::new();
    let mut rest = bytes;
    while let Some((first, behind)) = rest.split_first() {
        rest = match first {
            b'\'' => {
                text.push('\'');
                behind.strip_prefix(b"'").unwrap_or(behind)
            }
            b'\\' => escape(behind, &mut text),
            _ => plain(rest, &mut text),
        };
    }
    text
}

/// Letters as they are; those that are no UTF-8 by the Western European page.
fn plain<'a>(bytes: &'a [u8], text: &mut String) -> &'a [u8] {
    let end = bytes.iter().position(|byte| matches!(byte, b'\'' | b'\\'));
    let (letters, rest) = bytes.split_at(end.unwrap_or(bytes.len()));
    match std::str::from_utf8(letters) {
        Ok(letters) => text.push_str(letters),
        Err(_) => text.extend(letters.iter().map(|byte| char::from(*byte))),
    }
    rest
}

/// What stands behind a backslash; where it is no escape the backslash is meant.
fn escape<'a>(bytes: &'a [u8], text: &mut String) -> &'a [u8] {
    if let Some(rest) = bytes.strip_prefix(b"X\\")
        && let Some(letter) = rest.get(..2).and_then(hex)
    {
        text.extend(char::from_u32(letter));
        return &rest[2..];
    }
    for (mark, width) in [(b"X2\\", 4), (b"X4\\", 8)] {
        if let Some(rest) = bytes.strip_prefix(mark) {
            return wide(rest, width, text);
        }
    }
    if let Some([letter, rest @ ..]) = bytes.strip_prefix(b"S\\") {
        text.push(char::from(letter | 0x80));
        return rest;
    }
    if let [b'P', b'A'..=b'I', b'\\', rest @ ..] = bytes {
        return rest;
    }
    text.push('\\');
    bytes.strip_prefix(b"\\").unwrap_or(bytes)
}

/// Letters of so many digits each, up to `\X0\`.
fn wide<'a>(bytes: &'a [u8], width: usize, text: &mut String) -> &'a [u8] {
    let mut rest = bytes;
    let mut units = Vec::new();
    while let Some(value) = rest.get(..width).and_then(hex) {
        units.push(value);
        rest = &rest[width..];
    }
    if width == 4 {
        let halves = units
            .iter()
            .map(|unit| u16::try_from(*unit).unwrap_or(0xFFFD));
        let letters = char::decode_utf16(halves);
        text.extend(letters.map(|letter| letter.unwrap_or('\u{FFFD}')));
    } else {
        text.extend(
            units
                .iter()
                .map(|unit| char::from_u32(*unit).unwrap_or('\u{FFFD}')),
        );
    }
    rest.strip_prefix(b"\\X0\\").unwrap_or(rest)
}

fn hex(digits: &[u8]) -> Option<u32> {
    let text = std::str::from_utf8(digits).ok()?;
    let plain = text.bytes().all(|byte| byte.is_ascii_hexdigit());
    plain.then(|| u32::from_str_radix(text, 16).ok())?
}

#[cfg(test)]
mod tests {
    use super::decoded;

    #[test]
    fn escapes_are_letters() {
        let cases = [
            (r"plain", "plain"),
            (r"it''s", "it's"),
            (r"\X\D8 5", "\u{d8} 5"),
            (r"\X2\00D800B1\X0\x", "\u{d8}\u{b1}x"),
            (r"\X2\D83DDE00\X0\", "\u{1f600}"),
            (r"\X4\0001F600\X0\", "\u{1f600}"),
            (r"\S\X", "\u{d8}"),
            (r"\PA\a", "a"),
            (r"a\\b", r"a\b"),
            (r"\X2\00", "00"),
            (r"\X2\D800\X0\", "\u{fffd}"),
            ("\\", "\\"),
        ];
        for (written, meant) in cases {
            assert_eq!(decoded(written.as_bytes()), meant, "{written}");
        }
        assert_eq!(decoded(b"\xD8 5"), "\u{d8} 5");
    }
}
