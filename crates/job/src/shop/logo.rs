//! The shop's logo: the bytes of the picture that somebody chose, before anything draws them.

use crate::ground::hash::{Hash, hash};

/// Largest size of a logo's file [KiB].
pub const LARGEST_LOGO_KIB: usize = 512;

/// The shop's logo, byte by byte as it was chosen.
#[derive(Clone, PartialEq, Eq)]
pub struct Logo {
    bytes: Vec<u8>,
    kind: LogoKind,
    hash: Hash,
}

/// What kind of picture a logo is, by its content.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LogoKind {
    /// Pixels (PNG, ISO/IEC 15948).
    Png,
    /// Outlines (SVG, W3C).
    Svg,
}

/// Why a file can't be the shop's logo: message first, then [`LogoError::hint`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LogoError {
    /// Nothing in it.
    Empty,
    /// Larger than [`LARGEST_LOGO_KIB`].
    TooLarge {
        /// Its size in KiB, rounded up.
        kib: usize,
    },
    /// A photograph.
    Jpeg,
    /// An SVG that was packed, usually called svgz.
    Packed,
    /// Begins as XML does, but in other letters than UTF-8.
    NotUtf8,
    /// Neither PNG nor SVG.
    Neither,
}

impl Logo {
    /// A logo of a file's bytes. Whether it can be drawn is for those to say who draw it.
    ///
    /// # Errors
    /// Where the file is empty, too large, or neither PNG nor SVG.
    pub fn new(bytes: Vec<u8>) -> Result<Self, LogoError> {
        if bytes.is_empty() {
            return Err(LogoError::Empty);
        }
        if bytes.len() > LARGEST_LOGO_KIB * 1024 {
            let kib = bytes.len().div_ceil(1024);
            return Err(LogoError::TooLarge { kib });
        }
        let kind = kind(&bytes)?;
        let hash = hash(&bytes);
        Ok(Self { bytes, kind, hash })
    }

    /// Its bytes as they were chosen.
    #[must_use]
    pub fn bytes(&self) -> &[u8] {
        &self.bytes
    }

    /// What kind of picture it is.
    #[must_use]
    pub const fn kind(&self) -> LogoKind {
        self.kind
    }

    /// What its bytes are known by.
    #[must_use]
    pub const fn hash(&self) -> Hash {
        self.hash
    }
}

impl std::fmt::Debug for Logo {
    /// Kind and hash: the bytes tell nobody anything.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Logo({:?} {})", self.kind, self.hash)
    }
}

/// The kind of picture that bytes are, whatever their file is called.
fn kind(bytes: &[u8]) -> Result<LogoKind, LogoError> {
    if bytes.starts_with(b"\x89PNG\r\n\x1a\n") {
        return Ok(LogoKind::Png);
    }
    if bytes.starts_with(b"\xFF\xD8\xFF") {
        return Err(LogoError::Jpeg);
    }
    if bytes.starts_with(b"\x1F\x8B") {
        return Err(LogoError::Packed);
    }
    let wide = [b"\xFF\xFE".as_slice(), b"\xFE\xFF", b"<\0", b"\0<"];
    if wide.iter().any(|mark| bytes.starts_with(mark)) {
        return Err(LogoError::NotUtf8);
    }
    match std::str::from_utf8(bytes) {
        Ok(text) if root(text).is_some_and(is_svg) => Ok(LogoKind::Svg),
        Err(_) if bytes.trim_ascii_start().starts_with(b"<") => Err(LogoError::NotUtf8),
        _ => Err(LogoError::Neither),
    }
}

/// The text from the name of its first element on, past all that may stand before it (XML 1.0, 2.8).
fn root(text: &str) -> Option<&str> {
    let mut rest = text.strip_prefix('\u{FEFF}').unwrap_or(text);
    loop {
        rest = rest.trim_start().strip_prefix('<')?;
        rest = if let Some(comment) = rest.strip_prefix("!--") {
            comment.split_once("-->")?.1
        } else if let Some(instruction) = rest.strip_prefix('?') {
            instruction.split_once("?>")?.1
        } else if rest.starts_with('!') {
            past_doctype(rest)?
        } else {
            return Some(rest);
        };
    }
}

/// What follows a document type, in which brackets and quotes may hold further angle brackets.
fn past_doctype(text: &str) -> Option<&str> {
    let mut quote = None;
    let mut in_brackets = false;
    for (at, ch) in text.char_indices() {
        match ch {
            _ if quote == Some(ch) => quote = None,
            _ if quote.is_some() => {}
            '"' | '\'' => quote = Some(ch),
            '[' => in_brackets = true,
            ']' => in_brackets = false,
            '>' if !in_brackets => return text.get(at + 1..),
            _ => {}
        }
    }
    None
}

/// Whether an element is that of SVG, with or without a prefix of its namespace.
fn is_svg(element: &str) -> bool {
    let ends = |ch: char| ch.is_whitespace() || matches!(ch, '>' | '/');
    let name = element.split(ends).next().unwrap_or_default();
    name.rsplit(':').next() == Some("svg")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kind_of(text: &str) -> Result<LogoKind, LogoError> {
        Logo::new(text.as_bytes().to_vec()).map(|logo| logo.kind())
    }

    #[test]
    fn an_svg_is_known_by_its_first_element_whatever_stands_before_it() {
        for text in [
            "<svg/>",
            "<svg>",
            "  \n<svg width=\"1\">",
            "\u{FEFF}<?xml version=\"1.0\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\"/>",
            "<!-- made by <b>hand</b> --><svg\n/>",
            "<?xml version='1.0'?><!DOCTYPE svg PUBLIC \"-//W3C//DTD SVG 1.1//EN\" \"a>b\"><svg/>",
            "<!DOCTYPE svg [ <!ENTITY ns \"http://x>y\"> <!-- > --> ]>\n<svg:svg xmlns:svg=\"x\"/>",
        ] {
            assert_eq!(kind_of(text), Ok(LogoKind::Svg), "{text}");
        }
        for text in [
            "logo.svg",
            "svg",
            "<html><svg/></html>",
            "<svgx/>",
            "<!-- <svg/>",
            "<?xml version='1.0'?>",
            "<!DOCTYPE svg [",
            "%PDF-1.7",
        ] {
            assert_eq!(kind_of(text), Err(LogoError::Neither), "{text}");
        }
    }

    #[test]
    fn other_pictures_are_told_apart() {
        let of = |bytes: &[u8]| Logo::new(bytes.to_vec()).map(|logo| logo.kind());
        assert_eq!(of(b"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR"), Ok(LogoKind::Png));
        assert_eq!(of(b""), Err(LogoError::Empty));
        assert_eq!(of(b"\xFF\xD8\xFF\xE0\0\x10JFIF"), Err(LogoError::Jpeg));
        assert_eq!(of(b"\x1F\x8B\x08"), Err(LogoError::Packed));
        assert_eq!(of(b"\xFF\xFE<\0s\0v\0g\0"), Err(LogoError::NotUtf8));
        assert_eq!(of(b"<svg title='\xE9'/>"), Err(LogoError::NotUtf8));
        assert_eq!(of(b"GIF89a\xFF"), Err(LogoError::Neither));
        // The signature's carriage return is lost where a mail program took it for text.
        assert_eq!(of(b"\x89PNG\n\x1a\n"), Err(LogoError::Neither));
    }

    #[test]
    fn a_file_of_the_largest_size_is_taken_and_one_byte_more_is_told() {
        let mut bytes = b"<svg/>".to_vec();
        bytes.resize(LARGEST_LOGO_KIB * 1024, b' ');
        let logo = Logo::new(bytes.clone()).unwrap();
        assert_eq!(logo.bytes(), bytes);
        assert_eq!(logo.hash(), hash(&bytes));
        assert!(format!("{logo:?}").len() < 100);
        bytes.push(b' ');
        let why = Logo::new(bytes).unwrap_err();
        assert_eq!(why, LogoError::TooLarge { kib: 513 });
        assert_eq!(
            why.to_string(),
            "The logo's file has 513 KiB, and a logo has 512 KiB at most"
        );
        assert!(why.hint().ends_with('.'));
    }
}
