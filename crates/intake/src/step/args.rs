//! What an instance says: its parameters, one after the other.

use super::scan::{blank, number, run, word};

/// Parameters of an instance or of a list in it, read from left to right.
#[derive(Clone, Copy)]
pub(super) struct Args<'a> {
    rest: &'a [u8],
}

/// A sign, name or value as it stands there; commas are blanks.
enum Token<'a> {
    Reference(u64),
    Number(f64),
    Text(&'a [u8]),
    Word(&'a [u8]),
    Typed,
    Open,
    Close,
    /// `$`, `*`, or what this program has no use for.
    Other,
    End,
}

impl<'a> Args<'a> {
    /// What stands in the parentheses that bytes begin with.
    pub(super) fn after(bytes: &'a [u8]) -> Option<Self> {
        let rest = &bytes[blank(bytes, 0)..];
        let rest = rest.strip_prefix(b"(")?;
        Some(Self { rest })
    }

    /// The parameters of one part of an instance that is put together from several.
    pub(super) fn part(mut self, kind: &str) -> Option<Self> {
        loop {
            self.rest = &self.rest[blank(self.rest, 0)..];
            let name = word(self.rest);
            if name.is_empty() {
                return None;
            }
            let inside = Self::after(&self.rest[name.len()..])?;
            if name == kind.as_bytes() {
                return Some(inside);
            }
            self.rest = inside.close()?;
        }
    }

    /// What stands behind the parenthesis that closes these.
    fn close(mut self) -> Option<&'a [u8]> {
        let mut depth = 0_usize;
        loop {
            match self.token() {
                Token::Open => depth += 1,
                Token::Close if depth == 0 => return Some(self.rest),
                Token::Close => depth -= 1,
                Token::End => return None,
                _ => {}
            }
        }
    }

    /// Passes over so many parameters.
    pub(super) fn skip(mut self, count: usize) -> Self {
        for _ in 0..count {
            self.pass();
        }
        self
    }

    fn pass(&mut self) {
        let mut depth = 0_usize;
        loop {
            let before = self.rest;
            match self.token() {
                Token::Open => depth += 1,
                Token::Close if depth == 0 => {
                    self.rest = before;
                    return;
                }
                Token::Close => depth -= 1,
                Token::End => return,
                Token::Typed => continue,
                _ => {}
            }
            if depth == 0 {
                return;
            }
        }
    }

    /// The next parameter, an instance's number.
    pub(super) fn reference(&mut self) -> Option<u64> {
        let before = *self;
        match self.token() {
            Token::Reference(number) => Some(number),
            _ => before.passed(self),
        }
    }

    /// The next parameter, a finite number, alone or as a measure of some type.
    pub(super) fn real(&mut self) -> Option<f64> {
        let before = *self;
        match self.token() {
            Token::Number(value) => Some(value).filter(|value| value.is_finite()),
            Token::Typed => {
                let inside = Self::after(self.rest).and_then(|mut inside| inside.real());
                before.passed::<()>(self);
                inside
            }
            _ => before.passed(self),
        }
    }

    /// The next parameter, a whole number that is not below 0.
    pub(super) fn whole(&mut self) -> Option<usize> {
        let value = self.real()?;
        // Nothing that is counted in a file is as many as this.
        let fits = value.fract() == 0.0 && (0.0..1e9).contains(&value);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "it is whole and within the bounds above"
        )]
        fits.then_some(value as usize)
    }

    /// The next parameter, `.T.` or `.F.`.
    pub(super) fn flag(&mut self) -> Option<bool> {
        match self.word()? {
            b"T" => Some(true),
            b"F" => Some(false),
            _ => None,
        }
    }

    /// The next parameter, one of some words.
    pub(super) fn word(&mut self) -> Option<&'a [u8]> {
        let before = *self;
        match self.token() {
            Token::Word(word) => Some(word),
            _ => before.passed(self),
        }
    }

    /// The next parameter, a text.
    pub(super) fn text(&mut self) -> Option<String> {
        let before = *self;
        match self.token() {
            Token::Text(text) => Some(super::text::decoded(text)),
            _ => before.passed(self),
        }
    }

    /// The next parameter, a list, to be read in its turn.
    pub(super) fn list(&mut self) -> Option<Args<'a>> {
        let before = *self;
        match self.token() {
            Token::Open => {
                let inside = *self;
                before.passed::<()>(self);
                Some(inside)
            }
            _ => before.passed(self),
        }
    }

    /// Passes over all but so many of the parameters.
    pub(super) fn last(self, wanted: usize) -> Self {
        let (mut rest, mut count) = (self, 0_usize);
        while !rest.is_over() {
            rest.pass();
            count += 1;
        }
        self.skip(count.saturating_sub(wanted))
    }

    /// True where there is nothing more.
    pub(super) fn is_over(mut self) -> bool {
        matches!(self.token(), Token::Close | Token::End)
    }

    /// The next parameter, a list of instances' numbers; whatever is none is left out.
    pub(super) fn references(&mut self) -> Vec<u64> {
        let mut found = Vec::new();
        if let Some(mut list) = self.list() {
            while !list.is_over() {
                found.extend(list.reference());
            }
        }
        found
    }

    /// The next parameter, a list of numbers, every one of them finite.
    pub(super) fn reals(&mut self) -> Option<Vec<f64>> {
        let mut list = self.list()?;
        let mut found = Vec::new();
        while !list.is_over() {
            found.push(list.real()?);
        }
        Some(found)
    }

    /// Passes over the parameter that `self` stands before; it was not what was asked for.
    fn passed<T>(mut self, now: &mut Self) -> Option<T> {
        self.pass();
        *now = self;
        None
    }

    fn token(&mut self) -> Token<'a> {
        loop {
            self.rest = &self.rest[blank(self.rest, 0)..];
            match self.rest.strip_prefix(b",") {
                Some(rest) => self.rest = rest,
                None => break,
            }
        }
        let Some((first, behind)) = self.rest.split_first() else {
            return Token::End;
        };
        let (token, used) = match first {
            b'(' => (Token::Open, 1),
            b')' => (Token::Close, 1),
            b';' => return Token::End,
            b'#' | b'@' => {
                let digits = run(behind, u8::is_ascii_digit);
                let token = number(&behind[..digits]).map_or(Token::Other, Token::Reference);
                (token, 1 + digits)
            }
            b'\'' => {
                let length = text_length(behind);
                (Token::Text(&behind[..length]), length + 2)
            }
            b'"' => (Token::Other, 2 + run(behind, |byte| *byte != b'"')),
            b'.' => {
                let length = run(behind, |byte| byte.is_ascii_alphanumeric() || *byte == b'_');
                (Token::Word(&behind[..length]), length + 2)
            }
            b'+' | b'-' | b'0'..=b'9' => {
                let sign =
                    |byte: &u8| matches!(byte, b'0'..=b'9' | b'.' | b'+' | b'-' | b'E' | b'e');
                let length = run(self.rest, sign);
                (
                    real(&self.rest[..length]).map_or(Token::Other, Token::Number),
                    length,
                )
            }
            _ => match word(self.rest).len() {
                0 => (Token::Other, 1),
                length => (Token::Typed, length),
            },
        };
        self.rest = self.rest.get(used..).unwrap_or_default();
        token
    }
}

/// How long a text is that stands before an apostrophe; two of them are one in the text.
fn text_length(bytes: &[u8]) -> usize {
    let mut at = 0;
    loop {
        at += run(&bytes[at..], |byte| *byte != b'\'');
        if bytes.get(at + 1) != Some(&b'\'') || at >= bytes.len() {
            return at.min(bytes.len());
        }
        at += 2;
    }
}

fn real(digits: &[u8]) -> Option<f64> {
    let text = std::str::from_utf8(digits).ok()?;
    text.strip_suffix('.').unwrap_or(text).parse().ok()
}
