//! Why a PDF can't be written.

use crate::page::MOST_PAGES;
use crate::words::pdf as words;

/// Why a PDF can't be written.
#[derive(Debug, thiserror::Error)]
pub enum PdfError {
    /// A paper without a page.
    #[error("The paper has no page")]
    NoPages,
    /// A paper with more pages than one may have.
    #[error("The paper would have more than {MOST_PAGES} pages")]
    TooLong,
    /// A text that went past the page model's check of its characters.
    #[error("The face {face} has no glyph for '{ch}' (U+{:04X}) on page {page}", u32::from(*ch))]
    MissingGlyph {
        /// The face asked for.
        face: &'static str,
        /// The character.
        ch: char,
        /// The page, from 1.
        page: usize,
    },
    /// A font that the engine can't read.
    #[error("The font {face} can't be read")]
    Font {
        /// The face.
        face: &'static str,
    },
    /// The engine refused.
    #[error("The PDF engine refused: {0}")]
    Engine(String),
}

impl PdfError {
    /// What to do about it.
    pub fn hint(&self) -> &'static str {
        match self {
            Self::NoPages => words::EMPTY,
            Self::TooLong => words::SHORTEN,
            Self::MissingGlyph { .. } => words::REPLACE,
            Self::Font { .. } | Self::Engine(_) => words::REPORT,
        }
    }
}
