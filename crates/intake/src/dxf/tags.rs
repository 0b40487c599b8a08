//! Group codes and their values, from the text or the binary form of a drawing.

use super::error::{DxfError, Spot};
use crate::watch::{Watch, share};

/// A group code and its value.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tag<'a> {
    /// The code.
    pub(super) code: u16,
    /// The value.
    pub(super) value: Value<'a>,
    /// The line or the byte that it begins in.
    pub(super) at: usize,
}

/// A value as it stands in the file.
#[derive(Clone, Copy, Debug)]
pub(super) enum Value<'a> {
    /// The bytes of a text; in the text form everything is.
    Text(&'a [u8]),
    /// A number of the binary form.
    Number(f64),
    /// A whole number of the binary form.
    Whole(i64),
}

impl<'a> Value<'a> {
    /// The text, without spaces around it.
    pub(super) fn text(self) -> &'a [u8] {
        match self {
            Self::Text(text) => text.trim_ascii(),
            Self::Number(_) | Self::Whole(_) => b"",
        }
    }

    /// The number, if it is one.
    pub(super) fn number(self) -> Option<f64> {
        match self {
            Self::Text(text) => str::from_utf8(text.trim_ascii())
                .ok()?
                .parse()
                .ok()
                .filter(|number: &f64| number.is_finite()),
            Self::Number(number) => Some(number).filter(|number| number.is_finite()),
            Self::Whole(whole) => Some(whole as f64),
        }
    }

    /// The whole number, if it is one.
    pub(super) fn whole(self) -> Option<i64> {
        match self {
            Self::Text(text) => str::from_utf8(text.trim_ascii()).ok()?.parse().ok(),
            Self::Number(_) => None,
            Self::Whole(whole) => Some(whole),
        }
    }
}

/// What the binary form begins with.
const BINARY: &[u8] = b"AutoCAD Binary DXF\r\n\x1a\0";

/// Reads one tag after another.
pub(super) struct Tags<'a> {
    bytes: &'a [u8],
    at: usize,
    line: usize,
    form: Form,
    ahead: Option<Tag<'a>>,
    read: usize,
    watch: Watch<'a>,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Form {
    Text,
    /// Binary with codes of two bytes.
    Binary,
    /// Binary with codes of one byte, or of two behind a 255: R12 and before.
    OldBinary,
}

impl<'a> Tags<'a> {
    /// Looks at how the file begins.
    pub(super) fn new(bytes: &'a [u8], watch: Watch<'a>) -> Result<Self, DxfError> {
        let is_dwg = bytes.starts_with(b"AC10") || bytes.starts_with(b"AC1.");
        if is_dwg && !bytes.iter().take(16).any(|byte| *byte == b'\n') {
            return Err(DxfError::Dwg);
        }
        let mut tags = Self {
            bytes,
            at: 0,
            line: 1,
            form: Form::Text,
            ahead: None,
            read: 0,
            watch,
        };
        if bytes.starts_with(BINARY) {
            tags.at = BINARY.len();
            let wide = bytes.get(tags.at..tags.at + 2) == Some(&[0, 0]);
            tags.form = if wide { Form::Binary } else { Form::OldBinary };
        } else if bytes.starts_with(b"\xef\xbb\xbf") {
            tags.at = 3;
        }
        Ok(tags)
    }

    /// Where it is by now.
    pub(super) fn spot(&self) -> Spot {
        self.spot_of(if self.form == Form::Text {
            self.line
        } else {
            self.at
        })
    }

    /// A tag's place as a spot.
    pub(super) fn spot_of(&self, at: usize) -> Spot {
        if self.form == Form::Text {
            Spot::Line(at)
        } else {
            Spot::Byte(at)
        }
    }

    /// The next tag without taking it.
    pub(super) fn peek(&mut self) -> Result<Option<Tag<'a>>, DxfError> {
        if self.ahead.is_none() {
            self.ahead = self.read_tag()?;
        }
        Ok(self.ahead)
    }

    /// The next tag; `None` where the file ends.
    pub(super) fn next(&mut self) -> Result<Option<Tag<'a>>, DxfError> {
        match self.ahead.take() {
            Some(tag) => Ok(Some(tag)),
            None => self.read_tag(),
        }
    }

    /// The next tag if it is none of code 0.
    pub(super) fn next_within(&mut self) -> Result<Option<Tag<'a>>, DxfError> {
        match self.peek()? {
            Some(tag) if tag.code != 0 => self.next(),
            Some(_) => Ok(None),
            None => Err(DxfError::Cut(self.spot())),
        }
    }

    fn read_tag(&mut self) -> Result<Option<Tag<'a>>, DxfError> {
        loop {
            self.read += 1;
            if self.read.is_multiple_of(4096) && (self.watch)(share(self.at, self.bytes.len())) {
                return Err(DxfError::Cancelled);
            }
            let tag = match self.form {
                Form::Text => self.text_tag()?,
                Form::Binary | Form::OldBinary => self.binary_tag()?,
            };
            // Remarks may stand anywhere.
            if tag.is_none_or(|tag| tag.code != 999) {
                return Ok(tag);
            }
        }
    }

    fn text_tag(&mut self) -> Result<Option<Tag<'a>>, DxfError> {
        let at = self.line;
        let Some(code_line) = self.text_line() else {
            return Ok(None);
        };
        let code_text = code_line.trim_ascii();
        let only_end = |byte: &u8| byte.is_ascii_whitespace() || *byte == 0x1a || *byte == 0;
        let rest = self.bytes.get(self.at..).unwrap_or_default();
        if code_text.iter().all(only_end) && rest.iter().all(only_end) {
            return Ok(None);
        }
        let code = str::from_utf8(code_text)
            .ok()
            .and_then(|text| text.parse::<u16>().ok())
            .filter(|code| *code <= MOST_CODE);
        let Some(code) = code else {
            return Err(self.no_code(at, code_text));
        };
        let Some(value) = self.text_line() else {
            return Err(DxfError::Cut(Spot::Line(at)));
        };
        Ok(Some(Tag {
            code,
            value: Value::Text(value),
            at,
        }))
    }

    /// A line without its end; `None` behind the last.
    fn text_line(&mut self) -> Option<&'a [u8]> {
        let rest = self.bytes.get(self.at..)?;
        if rest.is_empty() {
            return None;
        }
        let end = rest.iter().position(|byte| matches!(byte, b'\n' | b'\r'));
        let line = &rest[..end.unwrap_or(rest.len())];
        let ends = match end {
            Some(end) if rest[end..].starts_with(b"\r\n") => end + 2,
            Some(end) => end + 1,
            None => rest.len(),
        };
        self.at += ends;
        self.line += 1;
        Some(line)
    }

    fn binary_tag(&mut self) -> Result<Option<Tag<'a>>, DxfError> {
        let at = self.at;
        if at >= self.bytes.len() {
            return Ok(None);
        }
        let code = match self.form {
            Form::OldBinary => match self.take::<1>()? {
                [255] => u16::from_le_bytes(self.take::<2>()?),
                [code] => u16::from(code),
            },
            Form::Text | Form::Binary => u16::from_le_bytes(self.take::<2>()?),
        };
        let value = match code {
            10..=59 | 110..=149 | 210..=239 | 460..=469 | 1010..=1059 => {
                Value::Number(f64::from_le_bytes(self.take::<8>()?))
            }
            60..=79 | 170..=179 | 270..=289 | 370..=389 | 400..=409 | 1060..=1070 => {
                Value::Whole(i64::from(i16::from_le_bytes(self.take::<2>()?)))
            }
            90..=99 | 420..=429 | 440..=459 | 1071 => {
                Value::Whole(i64::from(i32::from_le_bytes(self.take::<4>()?)))
            }
            160..=169 => Value::Whole(i64::from_le_bytes(self.take::<8>()?)),
            290..=299 => Value::Whole(i64::from(self.take::<1>()?[0])),
            310..=319 | 1004 => {
                let length = usize::from(self.take::<1>()?[0]);
                Value::Text(self.some(length)?)
            }
            0..=9
            | 100..=109
            | 300..=309
            | 320..=369
            | 390..=399
            | 410..=419
            | 430..=439
            | 470..=481
            | 999..=1009 => Value::Text(self.zero_ended()?),
            _ => {
                let from = self.bytes.get(at..at + 2).unwrap_or_default();
                return Err(self.no_code(at, from));
            }
        };
        Ok(Some(Tag { code, value, at }))
    }

    fn zero_ended(&mut self) -> Result<&'a [u8], DxfError> {
        let rest = self.bytes.get(self.at..).unwrap_or_default();
        let Some(end) = rest.iter().position(|byte| *byte == 0) else {
            return Err(DxfError::Cut(self.spot()));
        };
        self.at += end + 1;
        Ok(&rest[..end])
    }

    fn take<const N: usize>(&mut self) -> Result<[u8; N], DxfError> {
        let bytes = self.some(N)?;
        bytes
            .try_into()
            .map_err(|_| DxfError::Cut(Spot::Byte(self.at)))
    }

    fn some(&mut self, length: usize) -> Result<&'a [u8], DxfError> {
        let bytes = self.bytes.get(self.at..self.at + length);
        self.at += length;
        bytes.ok_or(DxfError::Cut(Spot::Byte(self.bytes.len())))
    }

    fn no_code(&self, at: usize, found: &[u8]) -> DxfError {
        let found = String::from_utf8_lossy(&found[..found.len().min(MOST_SHOWN)]);
        DxfError::NoCode {
            spot: self.spot_of(at),
            found: found.chars().filter(|sign| !sign.is_control()).collect(),
        }
    }
}

/// The format has no code above.
const MOST_CODE: u16 = 1071;

/// How much of what is no code is shown, in bytes.
const MOST_SHOWN: usize = 40;
