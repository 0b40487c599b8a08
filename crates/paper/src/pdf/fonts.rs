//! The faces as the engine takes them, and texts as glyphs of them.

use krilla::text::{Font, GlyphId, KrillaGlyph};

use super::error::PdfError;
use crate::page::{Face, SUBSTITUTE};

/// The faces as the engine takes them: it embeds what is used of each.
pub(super) struct Fonts([Font; 4]);

impl Fonts {
    pub(super) fn load() -> Result<Self, PdfError> {
        let [a, b, c, d] = Face::ALL.map(|face| {
            let font = Font::new(face.bytes().into(), 0);
            font.ok_or(PdfError::Font { face: face.name() })
        });
        Ok(Self([a?, b?, c?, d?]))
    }

    pub(super) fn of(&self, face: Face) -> Font {
        let at = Face::ALL.iter().position(|known| *known == face);
        self.0[at.unwrap_or(0)].clone()
    }
}

/// The characters of a text as glyphs, each as wide as its face has it: no two are moved together, since
/// the page was measured without that. What stands in for a character that no face has is read as a
/// question mark, as a reader would say it.
pub(super) fn glyphs(face: Face, text: &str) -> (Vec<KrillaGlyph>, String) {
    let metrics = face.metrics();
    let mut read = String::with_capacity(text.len());
    let mut glyphs = Vec::with_capacity(text.len());
    for ch in text.chars() {
        let from = read.len();
        read.push(if ch == SUBSTITUTE { '?' } else { ch });
        let glyph = metrics.glyph(ch).unwrap_or_default();
        glyphs.push(KrillaGlyph::new(
            GlyphId::new(u32::from(glyph)),
            metrics.exact_advance(glyph),
            0.0,
            0.0,
            0.0,
            from..read.len(),
            None,
        ));
    }
    (glyphs, read)
}
