//! What a content is known by.

use sha2::{Digest as _, Sha256};

/// What a file's content is known by (SHA-256, FIPS 180-4).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Hash([u8; 32]);

/// The hash of bytes.
#[must_use]
pub fn hash(bytes: &[u8]) -> Hash {
    Hash(Sha256::digest(bytes).into())
}

impl Hash {
    /// From 64 hexadecimal digits.
    #[must_use]
    pub fn from_hex(text: &str) -> Option<Self> {
        let digits = text.as_bytes();
        let hex = |digit: u8| char::from(digit).to_digit(16);
        let mut bytes = [0; 32];
        if digits.len() != 2 * bytes.len() {
            return None;
        }
        for (byte, pair) in bytes.iter_mut().zip(digits.chunks_exact(2)) {
            *byte = u8::try_from(hex(pair[0])? * 16 + hex(pair[1])?).ok()?;
        }
        Some(Self(bytes))
    }

    /// From its 32 bytes.
    #[must_use]
    pub const fn from_bytes(bytes: [u8; 32]) -> Self {
        Self(bytes)
    }

    /// Its 32 bytes.
    #[must_use]
    pub const fn bytes(&self) -> &[u8; 32] {
        &self.0
    }
}

impl std::fmt::Display for Hash {
    /// 64 hexadecimal digits in small letters.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The one-block example message of SHA-256, published by NIST with FIPS 180-4.
    #[test]
    fn a_hash_is_the_standards_and_comes_back_from_its_digits() {
        let digits = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(hash(b"abc").to_string(), digits);
        assert_eq!(Hash::from_hex(digits), Some(hash(b"abc")));
        assert_eq!(Hash::from_hex(&digits.to_uppercase()), Some(hash(b"abc")));
        for none in ["", "ba78", &digits[1..], &digits.replace('b', "g")] {
            assert_eq!(Hash::from_hex(none), None, "{none}");
        }
    }
}
