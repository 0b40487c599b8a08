//! A paper as PDF bytes: the same bytes for the same document, its fonts embedded as tagged subsets.

mod draw;
mod fonts;
mod seal;

use chrono::NaiveDate;
use printpdf::{Mm, PdfDocument, PdfPage, PdfSaveOptions, Pt};

use crate::page::{Document, Item};
use draw::Draw;

/// What a PDF says about itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Meta {
    /// The title a viewer shows.
    pub title: String,
    /// Who issued it.
    pub author: String,
    /// The date it was made.
    pub date: NaiveDate,
}

/// Why a PDF can't be written.
#[derive(Debug, thiserror::Error)]
pub enum PdfError {
    /// A paper without a page.
    #[error("The paper has no page")]
    NoPages,
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
    /// A font that can't be cut down to the glyphs in use.
    #[error("The font {face} can't be cut down to the letters in use: {why}")]
    Subset {
        /// The face.
        face: &'static str,
        /// What the subsetter said.
        why: String,
    },
    /// The engine refused.
    #[error("The PDF engine refused: {0}")]
    Engine(String),
}

impl PdfError {
    /// What to do about it.
    pub fn hint(&self) -> &'static str {
        match self {
            Self::NoPages => "Print a paper that has something to say",
            Self::MissingGlyph { .. } => "Replace the character in the job's text",
            Self::Subset { .. } | Self::Engine(_) => {
                "This is a fault of the program; keep the job file and report it"
            }
        }
    }
}

/// Writes the document as PDF.
pub fn write(document: &Document, meta: &Meta) -> Result<Vec<u8>, PdfError> {
    if document.pages.is_empty() {
        return Err(PdfError::NoPages);
    }
    check_glyphs(document)?;
    let mut engine = PdfDocument::new(&meta.title);
    fonts::embed(document, &mut engine)?;
    let (width, height) = document.sheet.size();
    let mut draw = Draw::new(height);
    document.play(&mut draw);
    for ops in draw.finish() {
        engine.pages.push(PdfPage::new(
            Mm::from(point(width)),
            Mm::from(point(height)),
            ops,
        ));
    }
    let mut warnings = Vec::new();
    let raw = engine.to_lopdf_document(&PdfSaveOptions::default(), &mut warnings);
    if let Some(warning) = warnings.first() {
        return Err(PdfError::Engine(warning.msg.clone()));
    }
    seal::seal(raw, meta)
}

fn check_glyphs(document: &Document) -> Result<(), PdfError> {
    for (index, page) in document.pages.iter().enumerate() {
        for item in &page.items {
            let Item::Text(run) = item else { continue };
            let face = run.style.face;
            if let Some(ch) = run.text.chars().find(|ch| !face.covers(*ch)) {
                return Err(PdfError::MissingGlyph {
                    face: face.name(),
                    ch,
                    page: index + 1,
                });
            }
        }
    }
    Ok(())
}

/// Points as the engine takes them, rounded to a hundredth so that numbers stay short.
#[expect(clippy::cast_possible_truncation, reason = "the engine stores f32")]
fn point(points: f64) -> Pt {
    Pt(((points * 100.0).round() / 100.0) as f32)
}
