//! A paper as PDF bytes: the same bytes for the same document, its fonts embedded as tagged subsets.

mod draw;
mod error;
mod fonts;
mod meta;
mod pictures;
mod point;
mod seal;

use printpdf::{Mm, PdfDocument, PdfPage, PdfSaveOptions};

pub use error::PdfError;
pub use meta::Meta;

use crate::page::{Document, Item};
use draw::OpSink;
use point::point;

/// Writes the document as PDF.
pub fn write(document: &Document, meta: &Meta) -> Result<Vec<u8>, PdfError> {
    if document.pages.is_empty() {
        return Err(PdfError::NoPages);
    }
    if document.is_cut {
        return Err(PdfError::TooLong);
    }
    check_glyphs(document)?;
    let mut engine = PdfDocument::new(&meta.title);
    fonts::embed(document, &mut engine)?;
    pictures::embed(document, &mut engine);
    let (width, height) = document.sheet.size();
    let mut draw = OpSink::new(height);
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
