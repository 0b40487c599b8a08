//! What tells one shelf from another.

/// What tells one shelf from another, wherever it is reached: 32 hexadecimal digits.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Mark(String);

impl Mark {
    /// A mark out of random bytes.
    #[must_use]
    pub fn of(random: [u8; 16]) -> Self {
        Self(random.iter().map(|byte| format!("{byte:02x}")).collect())
    }

    /// A mark as it was written down.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let digits = |text: &str| text.len() == 32 && text.bytes().all(|b| b.is_ascii_hexdigit());
        let text = text.trim();
        digits(text).then(|| Self(text.to_ascii_lowercase()))
    }

    /// Its digits.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}
