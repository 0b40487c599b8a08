//! The type: DejaVu Sans Condensed and its bold, the same as on the papers.

use std::sync::Arc;

use egui::{FontData, FontDefinitions, FontFamily, FontId};

const CONDENSED: &str = "DejaVu Sans Condensed";
const CONDENSED_BOLD: &str = "DejaVu Sans Condensed Bold";
const SANS: &str = "DejaVu Sans";
const SANS_BOLD: &str = "DejaVu Sans Bold";

/// The fonts of the window: carried in the program, so that every machine shows the same.
#[must_use]
pub fn definitions() -> FontDefinitions {
    let mut fonts = FontDefinitions::empty();
    for (name, bytes) in [
        (CONDENSED, dejavu::sans_condensed::regular()),
        (CONDENSED_BOLD, dejavu::sans_condensed::bold()),
        (SANS, dejavu::sans::regular()),
        (SANS_BOLD, dejavu::sans::bold()),
    ] {
        let data = Arc::new(FontData::from_static(bytes));
        fonts.font_data.insert(name.to_owned(), data);
    }
    let plain = vec![CONDENSED.to_owned(), SANS.to_owned()];
    let strong = vec![CONDENSED_BOLD.to_owned(), CONDENSED.to_owned()];
    let wide = vec![SANS.to_owned()];
    fonts.families.insert(FontFamily::Proportional, plain);
    fonts.families.insert(FontFamily::Monospace, wide.clone());
    fonts.families.insert(bold_family(), strong);
    fonts.families.insert(FontFamily::Name(SANS.into()), wide);
    fonts.families.insert(
        FontFamily::Name(SANS_BOLD.into()),
        vec![SANS_BOLD.to_owned()],
    );
    fonts
}

/// The families that show the faces of the papers: wide, wide bold, condensed, condensed bold.
#[must_use]
pub fn paper_families() -> [FontFamily; 4] {
    [
        FontFamily::Name(SANS.into()),
        FontFamily::Name(SANS_BOLD.into()),
        FontFamily::Proportional,
        bold_family(),
    ]
}

/// Running text and table cells.
#[must_use]
pub fn body() -> FontId {
    FontId::new(13.5, FontFamily::Proportional)
}

/// Labels, side notes and column heads; nothing is smaller.
#[must_use]
pub fn small() -> FontId {
    FontId::new(12.0, FontFamily::Proportional)
}

/// The sentence in the foot.
#[must_use]
pub fn foot() -> FontId {
    FontId::new(15.0, FontFamily::Proportional)
}

/// A figure in the foot.
#[must_use]
pub fn foot_bold() -> FontId {
    FontId::new(15.0, bold_family())
}

/// The weighty word of a side note.
#[must_use]
pub fn small_bold() -> FontId {
    FontId::new(12.0, bold_family())
}

/// A figure or a word that must stand out on its line.
#[must_use]
pub fn bold() -> FontId {
    FontId::new(13.5, bold_family())
}

/// The job's name at the head of its sheet.
#[must_use]
pub fn heading() -> FontId {
    FontId::new(19.0, bold_family())
}

fn bold_family() -> FontFamily {
    FontFamily::Name(CONDENSED_BOLD.into())
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::epaint::text::{Fonts, TextOptions};

    fn fonts() -> Fonts {
        let mut fonts = Fonts::new(TextOptions::default(), definitions());
        fonts.begin_pass(TextOptions::default(), Default::default());
        fonts
    }

    #[test]
    fn every_sign_of_the_trade_is_in_the_fonts() {
        let mut fonts = fonts();
        for sign in "⌀±°′″×·–—…→↓↧½¼⅛σµΩ≤≥≈√∅☐☒".chars()
        {
            for id in [body(), bold()] {
                assert!(fonts.has_glyph(&id, sign), "{sign} is missing in {id:?}");
            }
        }
    }

    #[test]
    fn digits_are_as_wide_as_each_other() {
        let mut fonts = fonts();
        let mut view = fonts.with_pixels_per_point(1.0);
        for id in [foot(), small(), body(), bold(), heading()] {
            let zero = view.glyph_width(&id, '0');
            for digit in '1'..='9' {
                assert_eq!(view.glyph_width(&id, digit), zero, "{digit} in {id:?}");
            }
        }
    }
}
