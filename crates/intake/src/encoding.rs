//! From a file's bytes to text.

use std::borrow::Cow;

use encoding_rs::{UTF_8, UTF_16BE, UTF_16LE, WINDOWS_1252};

/// Text read from bytes, and the name of the encoding that was taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Decoded<'a> {
    /// The text.
    pub text: Cow<'a, str>,
    /// The encoding, by its usual name.
    pub encoding: &'static str,
    /// True where the encoding was guessed: the bytes are no UTF-8 and carry no mark.
    pub guessed: bool,
}

/// Reads bytes as UTF-8 or by their byte order mark, else as the Western European code page that
/// spreadsheets write; `None` where there are zero bytes, so it is no text at all.
#[must_use]
pub fn decode(bytes: &[u8]) -> Option<Decoded<'_>> {
    let marked = encoding_rs::Encoding::for_bom(bytes).map(|(encoding, _)| encoding);
    let (encoding, guessed) = match marked {
        Some(encoding) if encoding == UTF_16LE || encoding == UTF_16BE => (encoding, false),
        _ if std::str::from_utf8(bytes).is_ok() => (UTF_8, false),
        _ => (WINDOWS_1252, true),
    };
    let (text, encoding, _) = encoding.decode(bytes);
    (!text.contains('\0')).then_some(Decoded {
        text,
        encoding: encoding.name(),
        guessed,
    })
}

#[cfg(test)]
mod tests {
    use super::decode;

    #[test]
    fn marks_and_code_pages_are_recognised() {
        let cases: [(&[u8], &str, bool); 4] = [
            ("Ø0,8".as_bytes(), "Ø0,8", false),
            (b"\xEF\xBB\xBFA,1", "A,1", false),
            (b"\xFF\xFEA\0,\x001\0", "A,1", false),
            (b"\xD80.8 \xB10.02", "Ø0.8 ±0.02", true),
        ];
        for (bytes, text, guessed) in cases {
            let decoded = decode(bytes).expect("is text");
            assert_eq!((decoded.text.as_ref(), decoded.guessed), (text, guessed));
        }
    }

    #[test]
    fn bytes_that_are_no_text_are_refused() {
        assert_eq!(decode(b"PK\x03\x04\0\0\x08\0"), None);
    }
}
