//! A paper as PDF bytes for the archive (PDF/A-2a, ISO 19005-2): the same bytes for the same document, with
//! its structure, its contents and its fonts in it.

mod draw;
mod error;
mod fonts;
mod meta;
mod packed;
mod pictures;
mod tags;

use krilla::configure::{Archival, ConfigurationBuilder};
use krilla::metadata::{DateTime, Metadata};
use krilla::page::PageSettings;
use krilla::{Document as Engine, SerializeSettings};

use chrono::Datelike as _;
use quillbore_job::Language;

pub use error::PdfError;
pub use meta::Meta;

use crate::page::{Document, Item};
use draw::PageSink;
use fonts::Fonts;
use packed::packed;
use pictures::Pictures;
use tags::Tags;

/// Writes the document as PDF.
///
/// # Errors
/// Where it has no page or too many, where a face lacks a character, and where the standard is not met.
pub fn write(document: &Document, meta: &Meta) -> Result<Vec<u8>, PdfError> {
    if document.pages.is_empty() {
        return Err(PdfError::NoPages);
    }
    if document.is_cut {
        return Err(PdfError::TooLong);
    }
    check_glyphs(document)?;
    let mut engine = Engine::new_with(settings()?);
    let fonts = Fonts::load()?;
    let mut pictures = Pictures::default();
    let mut tags = Tags::default();
    let (width, height) = document.sheet.size();
    for (index, page) in document.pages.iter().enumerate() {
        let settings = PageSettings::from_wh(width as f32, height as f32);
        let settings = settings.ok_or_else(|| PdfError::Engine(format!("{width} x {height}")))?;
        let mut sheet = engine.start_page_with(settings);
        let mut surface = sheet.surface();
        tags.page(index);
        let mut sink = PageSink {
            surface: &mut surface,
            fonts: &fonts,
            pictures: &mut pictures,
            tags: &mut tags,
            last_end: None,
        };
        page.play(&mut sink);
        sink.finish();
        surface.finish();
        sheet.finish();
    }
    let (tree, contents) = tags.finish(document.language.tag());
    engine.set_tag_tree(tree);
    engine.set_outline(contents);
    engine.set_metadata(metadata(meta, document.language));
    let bytes = engine.finish();
    let bytes = bytes.map_err(|why| PdfError::Engine(format!("{why:?}")))?;
    // Larger, but as good.
    Ok(packed(&bytes).unwrap_or(bytes))
}

fn settings() -> Result<SerializeSettings, PdfError> {
    let configuration = ConfigurationBuilder::new()
        .with_archival_validator(Archival::A2_A)
        .finish()
        .map_err(|why| PdfError::Engine(format!("{why:?}")))?;
    Ok(SerializeSettings {
        configuration,
        enable_tagging: true,
        ..SerializeSettings::default()
    })
}

fn metadata(meta: &Meta, language: Language) -> Metadata {
    // Years before our era and after the year 9999 are no days of a paper.
    let year = u16::try_from(meta.date.year()).unwrap_or_default();
    let [month, day] = [meta.date.month(), meta.date.day()].map(|part| part as u8);
    Metadata::new()
        .title(meta.title.clone())
        .authors(vec![meta.author.clone()])
        .creator("Quillbore".to_owned())
        .producer("Quillbore".to_owned())
        .language(language.tag().to_owned())
        .creation_date(DateTime::new(year).month(month).day(day))
        .document_id(format!("{} {}", meta.title, meta.date))
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
