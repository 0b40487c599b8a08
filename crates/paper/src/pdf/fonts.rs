//! Cuts each face down to the letters in use and hands it to the engine with a subset tag.

use std::collections::{BTreeMap, BTreeSet};

use printpdf::{
    FontId, FontMetrics, FontType, ParsedFont, PdfDocument, PdfFont, PdfFontMetricsStub,
};
use sha2::{Digest, Sha256};
use subsetter::GlyphRemapper;

use super::error::PdfError;
use crate::page::{Document, Face, Item};

/// Embeds a subset of every face the document uses.
pub(super) fn embed(document: &Document, engine: &mut PdfDocument) -> Result<(), PdfError> {
    for (face, letters) in letters(document) {
        let font = cut(face, &letters)?;
        engine
            .resources
            .fonts
            .map
            .insert(resource(face), PdfFont::new(font));
    }
    Ok(())
}

fn letters(document: &Document) -> BTreeMap<Face, BTreeSet<char>> {
    let mut used: BTreeMap<Face, BTreeSet<char>> = BTreeMap::new();
    for item in document.pages.iter().flat_map(|page| &page.items) {
        if let Item::Text(run) = item {
            used.entry(run.style.face)
                .or_default()
                .extend(run.text.chars());
        }
    }
    used
}

fn cut(face: Face, letters: &BTreeSet<char>) -> Result<ParsedFont, PdfError> {
    let fault = |why: String| PdfError::Subset {
        face: face.name(),
        why,
    };
    let metrics = face.metrics();
    let parsed = metrics
        .parsed()
        .ok_or_else(|| fault("the font file can't be read".to_owned()))?;
    let mut remapper = GlyphRemapper::new();
    let mut codes = BTreeMap::new();
    let mut widths = BTreeMap::new();
    for &ch in letters {
        let Some(glyph) = metrics.glyph(ch) else {
            continue;
        };
        let code = remapper.remap(glyph);
        codes.insert(u32::from(ch), code);
        let advance = parsed.glyph_hor_advance(ttf_parser::GlyphId(glyph));
        widths.insert(code, advance.unwrap_or_default());
    }
    let subset =
        subsetter::subset(face.bytes(), 0, &remapper).map_err(|why| fault(why.to_string()))?;
    let bounds = parsed.global_bounding_box();
    Ok(ParsedFont {
        font_name: Some(format!("{}+{}", tag(&subset), face.name())),
        original_bytes: subset,
        font_index: 0,
        codepoint_to_glyph: codes,
        glyph_widths: widths,
        units_per_em: parsed.units_per_em(),
        font_metrics: FontMetrics {
            ascent: parsed.ascender(),
            descent: parsed.descender(),
        },
        font_type: FontType::TrueType,
        pdf_font_metrics: PdfFontMetricsStub {
            units_per_em: parsed.units_per_em(),
            x_min: bounds.x_min,
            y_min: bounds.y_min,
            x_max: bounds.x_max,
            y_max: bounds.y_max,
            us_weight_class: parsed.weight().to_number(),
            ..PdfFontMetricsStub::default()
        },
    })
}

/// Six capital letters that follow from the subset itself (ISO 32000-1, 9.6.4).
fn tag(subset: &[u8]) -> String {
    Sha256::digest(subset)
        .iter()
        .take(6)
        .map(|byte| char::from(b'A' + byte % 26))
        .collect()
}

/// The name a page calls a face by.
pub(super) fn resource(face: Face) -> FontId {
    FontId(
        match face {
            Face::Sans => "Sans",
            Face::SansBold => "SansBold",
            Face::Condensed => "Condensed",
            Face::CondensedBold => "CondensedBold",
        }
        .to_owned(),
    )
}
