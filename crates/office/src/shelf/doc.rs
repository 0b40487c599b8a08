//! A document of the shelf, its content, and what that is known by.

use std::fmt;

use quillbore_job::file::{Hash, hash};

use crate::names::JobKey;

/// A document of the shelf.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Doc {
    /// A job.
    Job(JobKey),
    /// The shop's own data.
    Shop,
}

/// What a content is known by: its hash.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Version(pub Hash);

impl Version {
    /// The version of a content.
    #[must_use]
    pub fn of(bytes: &[u8]) -> Self {
        Self(hash(bytes))
    }

    /// A version as a server keeps it.
    #[cfg(feature = "server")]
    pub(super) fn from_bytes(bytes: &[u8]) -> Option<Self> {
        bytes.try_into().ok().map(Hash::from_bytes).map(Self)
    }
}

/// A document's content.
#[derive(Clone, PartialEq, Eq)]
pub struct Stored {
    /// The content.
    pub bytes: Vec<u8>,
    /// What it is known by.
    pub version: Version,
}

impl Stored {
    /// A content with its version.
    #[must_use]
    pub fn new(bytes: Vec<u8>) -> Self {
        Self {
            version: Version::of(&bytes),
            bytes,
        }
    }
}

impl fmt::Debug for Stored {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Stored({} bytes, {})", self.bytes.len(), self.version.0)
    }
}
