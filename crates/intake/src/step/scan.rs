//! The outer shape of an exchange structure (ISO 10303-21): statements, sections, where each instance is.

use std::collections::BTreeMap;

use memchr::{memchr, memmem};

use super::args::Args;
use super::error::StepError;
use crate::watch::{Watch, share};

/// No name of a kind is longer.
const LONGEST_NAME: usize = 128;
/// No text is longer: the standard has 32,767 signs.
const LONGEST_TEXT: usize = 1 << 17;

/// Kinds of instances that reading begins with, or that are counted.
const ROOTS: &[&str] = &[
    "CONTEXT_DEPENDENT_SHAPE_REPRESENTATION",
    "SHAPE_DEFINITION_REPRESENTATION",
    "NEXT_ASSEMBLY_USAGE_OCCURRENCE",
    "SHAPE_REPRESENTATION_RELATIONSHIP",
    "REPRESENTATION_RELATIONSHIP",
    "MANIFOLD_SOLID_BREP",
    "BREP_WITH_VOIDS",
    "FACETED_BREP",
    "SHELL_BASED_SURFACE_MODEL",
    "FACE_BASED_SURFACE_MODEL",
    "TESSELLATED_SOLID",
    "TESSELLATED_SHELL",
    "PLUS_MINUS_TOLERANCE",
];

/// A file's instances: where each of them stands. What an instance says is read when it is asked for.
pub(super) struct Exchange<'a> {
    bytes: &'a [u8],
    /// Number and place of each, by number.
    instances: Vec<(u64, usize)>,
    roots: BTreeMap<&'static str, Vec<u64>>,
    /// Shape representations of any kind.
    pub(super) representations: Vec<u64>,
}

impl<'a> Exchange<'a> {
    /// Finds every instance of a file.
    pub(super) fn scan(bytes: &'a [u8], watch: Watch<'_>) -> Result<Exchange<'a>, StepError> {
        let bytes = bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes);
        let mut found = Exchange {
            bytes,
            instances: Vec::new(),
            roots: BTreeMap::new(),
            representations: Vec::new(),
        };
        let mut at = blank(bytes, 0);
        if !rest(bytes, at).starts_with(b"ISO-10303-21") {
            return Err(StepError::NotStep);
        }
        let (mut in_data, mut any_data) = (false, false);
        loop {
            at = blank(bytes, at);
            let statement = rest(bytes, at);
            if statement.is_empty() {
                return Err(if in_data || any_data {
                    StepError::Cut(last_line(bytes))
                } else {
                    StepError::NoData
                });
            }
            if statement.starts_with(b"END-ISO-10303-21") {
                break;
            }
            let end = statement_end(bytes, at)?;
            match word(statement) {
                b"DATA" => (in_data, any_data) = (true, true),
                b"ENDSEC" => in_data = false,
                _ if in_data => found.instance(at)?,
                _ => {}
            }
            if found.instances.len().is_multiple_of(4_096) && watch(share(at, bytes.len())) {
                return Err(StepError::Stopped);
            }
            at = end;
        }
        if !any_data {
            return Err(StepError::NoData);
        }
        found.sort()?;
        Ok(found)
    }

    /// Takes up the instance that begins at a place.
    fn instance(&mut self, at: usize) -> Result<(), StepError> {
        let wrong = || StepError::Unreadable(line_at(self.bytes, at));
        let statement = rest(self.bytes, at);
        let digits = statement.get(1..).unwrap_or_default();
        let digits = &digits[..run(digits, u8::is_ascii_digit)];
        let number = (statement.first() == Some(&b'#')).then(|| number(digits));
        let number = number.flatten().ok_or_else(wrong)?;
        let equals = blank(self.bytes, at + 1 + digits.len());
        if self.bytes.get(equals) != Some(&b'=') {
            return Err(wrong());
        }
        let place = blank(self.bytes, equals + 1);
        self.instances.push((number, place));
        let name = word(rest(self.bytes, place));
        if let Some(root) = ROOTS.iter().find(|root| root.as_bytes() == name) {
            self.roots.entry(root).or_default().push(number);
        } else if name.ends_with(b"SHAPE_REPRESENTATION") {
            self.representations.push(number);
        }
        Ok(())
    }

    fn sort(&mut self) -> Result<(), StepError> {
        // By place where the numbers are the same, so that the second is the one that is told.
        self.instances.sort_unstable();
        let mut pairs = self.instances.windows(2);
        let twice = pairs.find(|pair| pair[0].0 == pair[1].0);
        twice.map_or(Ok(()), |pair| {
            Err(StepError::Twice {
                number: pair[1].0,
                line: line_at(self.bytes, pair[1].1),
            })
        })
    }

    /// The instances of a kind that reading begins with, in the file's order.
    pub(super) fn of_kind(&self, kind: &str) -> &[u64] {
        self.roots.get(kind).map_or(&[], Vec::as_slice)
    }

    /// How many bytes the file has.
    pub(super) const fn len(&self) -> usize {
        self.bytes.len()
    }

    /// True where the file has an instance of this number.
    pub(super) fn has(&self, number: u64) -> bool {
        self.place(number).is_some()
    }

    /// The name of an instance; empty where it is put together from several, or isn't there.
    pub(super) fn name(&self, number: u64) -> &'a str {
        let place = self.place(number);
        let name = place.map_or(&[][..], |place| word(rest(self.bytes, place)));
        std::str::from_utf8(name).unwrap_or_default()
    }

    /// What an instance says as one of a kind, alone or as a part of several.
    pub(super) fn args(&self, number: u64, kind: &str) -> Option<Args<'a>> {
        let body = rest(self.bytes, self.place(number)?);
        let name = word(body);
        if !name.is_empty() {
            return (name == kind.as_bytes()).then(|| Args::after(&body[name.len()..]))?;
        }
        Args::after(body)?.part(kind)
    }

    /// How many things an instance may name, by its length.
    pub(super) fn count_of(&self, number: u64) -> usize {
        let body = self
            .place(number)
            .map_or(&[][..], |place| rest(self.bytes, place));
        memchr(b';', body).unwrap_or(body.len()) / 4
    }

    fn place(&self, number: u64) -> Option<usize> {
        // Most files number from 1 without a gap.
        let guess = usize::try_from(number).ok()?.checked_sub(1)?;
        if let Some((there, place)) = self.instances.get(guess)
            && *there == number
        {
            return Some(*place);
        }
        let found = self
            .instances
            .binary_search_by_key(&number, |(number, _)| *number);
        found.ok().map(|at| self.instances[at].1)
    }
}

/// How many bytes at the beginning are such.
pub(super) fn run(bytes: &[u8], such: impl Fn(&u8) -> bool) -> usize {
    bytes
        .iter()
        .position(|byte| !such(byte))
        .unwrap_or(bytes.len())
}

/// A number of digits; `None` where it is too large or there are none.
pub(super) fn number(digits: &[u8]) -> Option<u64> {
    std::str::from_utf8(digits).ok()?.parse().ok()
}

/// The name that bytes begin with, as far as any name goes; empty where they don't.
pub(super) fn word(bytes: &[u8]) -> &[u8] {
    let bytes = bytes.get(..LONGEST_NAME).unwrap_or(bytes);
    &bytes[..run(bytes, |byte| {
        byte.is_ascii_alphanumeric() || matches!(byte, b'_' | b'-' | b'!')
    })]
}

/// Where the blanks and comments from a place on end.
pub(super) fn blank(bytes: &[u8], mut at: usize) -> usize {
    loop {
        at += run(rest(bytes, at), u8::is_ascii_whitespace);
        if !rest(bytes, at).starts_with(b"/*") {
            return at;
        }
        let inside = at + 2;
        let end = memmem::find(rest(bytes, inside), b"*/");
        at = end.map_or(bytes.len(), |end| inside + end + 2);
    }
}

fn rest(bytes: &[u8], at: usize) -> &[u8] {
    bytes.get(at..).unwrap_or_default()
}

/// Where the statement that begins at a place is over: behind its semicolon.
fn statement_end(bytes: &[u8], from: usize) -> Result<usize, StepError> {
    let cut = || StepError::Cut(last_line(bytes));
    let (mut at, mut depth) = (from, 0_usize);
    loop {
        let next = rest(bytes, at);
        let skipped = run(next, |byte| {
            !matches!(byte, b'\'' | b'"' | b'(' | b')' | b';' | b'/')
        });
        at += skipped;
        let sign = bytes.get(at).ok_or_else(cut)?;
        match sign {
            b'\'' | b'"' => {
                let inside = at + 1;
                let length = memchr(*sign, rest(bytes, inside)).ok_or_else(cut)?;
                if length > LONGEST_TEXT {
                    return Err(StepError::Unreadable(line_at(bytes, at)));
                }
                at = inside + length + 1;
            }
            b'/' if rest(bytes, at).starts_with(b"/*") => at = blank(bytes, at),
            b'(' => (depth, at) = (depth + 1, at + 1),
            b')' => {
                let less = depth.checked_sub(1);
                depth = less.ok_or_else(|| StepError::Unreadable(line_at(bytes, at)))?;
                at += 1;
            }
            b';' if depth == 0 => return Ok(at + 1),
            b';' => return Err(StepError::Unreadable(line_at(bytes, at))),
            _ => at += 1,
        }
    }
}

/// The line that a file ends in: a line break at its end begins no other.
fn last_line(bytes: &[u8]) -> usize {
    line_at(bytes, bytes.trim_ascii_end().len())
}

/// The line of a place, from 1.
fn line_at(bytes: &[u8], at: usize) -> usize {
    let before = &bytes[..at.min(bytes.len())];
    let count = |sign: u8| before.iter().filter(|byte| **byte == sign).count();
    // The oldest systems end their lines with the other sign alone.
    1 + count(b'\n').max(count(b'\r'))
}
