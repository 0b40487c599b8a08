//! Paper and ink as data: every colour of the window, for light and for dark paper.

use egui::{Color32, Ui};

/// The colours of one kind of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tokens {
    /// The desk the sheet lies on.
    pub desk: Color32,
    /// The sheet.
    pub paper: Color32,
    /// What is written in ink: figures, words, heads.
    pub ink: Color32,
    /// What is pencilled: units, hints, side notes' explanations.
    pub pencil: Color32,
    /// Rules between lines.
    pub hairline: Color32,
    /// Stronger rules, over totals and under heads.
    pub rule: Color32,
    /// The one accent ink: the place one is at, and words that do something.
    pub accent: Color32,
    /// A faint wash of the accent: selected cells.
    pub wash: Color32,
    /// A stronger wash of the accent: selected text.
    pub wash_strong: Color32,
}

/// Light paper.
pub const LIGHT: Tokens = Tokens {
    desk: rgb(0xEAE6DC),
    paper: rgb(0xFCFAF4),
    ink: rgb(0x22201B),
    pencil: rgb(0x6B665B),
    hairline: rgb(0xDDD7C9),
    rule: rgb(0x9C9584),
    accent: rgb(0x1D4F86),
    wash: rgb(0xECF0F1),
    wash_strong: rgb(0xD0DEE8),
};

/// Dark paper.
pub const DARK: Tokens = Tokens {
    desk: rgb(0x171614),
    paper: rgb(0x21201D),
    ink: rgb(0xE6E1D4),
    pencil: rgb(0xA19A8A),
    hairline: rgb(0x3A3832),
    rule: rgb(0x6E695E),
    accent: rgb(0x93BCE6),
    wash: rgb(0x2A2E31),
    wash_strong: rgb(0x364350),
};

/// The tokens of the theme a `Ui` is drawn in.
#[must_use]
pub fn tokens(ui: &Ui) -> &'static Tokens {
    if ui.visuals().dark_mode {
        &DARK
    } else {
        &LIGHT
    }
}

#[expect(
    clippy::disallowed_methods,
    reason = "the one place where a colour is made from numbers"
)]
const fn rgb(hex: u32) -> Color32 {
    let [_, r, g, b] = hex.to_be_bytes();
    Color32::from_rgb(r, g, b)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance of WCAG 2.2, from an 8-bit sRGB colour.
    fn luminance(color: Color32) -> f64 {
        let part = |c: u8| {
            let c = f64::from(c) / 255.0;
            if c <= 0.04045 {
                c / 12.92
            } else {
                libm::pow((c + 0.055) / 1.055, 2.4)
            }
        };
        0.2126 * part(color.r()) + 0.7152 * part(color.g()) + 0.0722 * part(color.b())
    }

    #[test]
    fn every_ink_can_be_read_on_its_paper() {
        // WCAG 2.2, success criterion 1.4.3: 4.5 to 1 for text.
        for t in [LIGHT, DARK] {
            for (ink, paper) in [
                (t.ink, t.paper),
                (t.pencil, t.paper),
                (t.accent, t.paper),
                (t.ink, t.desk),
                (t.pencil, t.desk),
                (t.ink, t.wash_strong),
                (t.accent, t.wash),
            ] {
                let (a, b) = (luminance(ink), luminance(paper));
                let contrast = (a.max(b) + 0.05) / (a.min(b) + 0.05);
                assert!(contrast >= 4.5, "{ink:?} on {paper:?}: {contrast:.2}");
            }
        }
    }
}
