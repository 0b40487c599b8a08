//! Paper and ink as data: every colour of the window, for light and for dark paper.

use egui::{Color32, Ui};

/// The colours of one kind of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tokens {
    /// The desk the sheet lies on: shelf, head and foot.
    pub desk: Color32,
    /// The sheet.
    pub paper: Color32,
    /// The ground of a word that the pointer is on.
    pub hover: Color32,
    /// What is written in ink: figures, words, heads.
    pub ink: Color32,
    /// What is pencilled: labels, units, notes.
    pub pencil: Color32,
    /// A word that can't be pressed now; it stands on desk, paper and hover ground only.
    pub disabled: Color32,
    /// The one accent ink: the place one is at, and words that do something.
    pub accent: Color32,
    /// A word that is on, or being pressed.
    pub pressed: Color32,
    /// A faint wash of the accent: the row one is at.
    pub wash: Color32,
    /// A stronger wash of the accent: what is selected or on.
    pub wash_strong: Color32,
    /// The lines under fields, over totals and under heads.
    pub rule: Color32,
    /// Lines that carry no meaning.
    pub hairline: Color32,
}

/// Light paper.
pub const LIGHT: Tokens = Tokens {
    desk: rgb(0xEAE6DC),
    paper: rgb(0xFCFAF4),
    hover: rgb(0xF1EEE4),
    ink: rgb(0x22201B),
    pencil: rgb(0x5F5A50),
    disabled: rgb(0x6A6559),
    accent: rgb(0x1D4F86),
    pressed: rgb(0x123A66),
    wash: rgb(0xE3EAF0),
    wash_strong: rgb(0xCBDCEA),
    rule: rgb(0x847D6E),
    hairline: rgb(0xDDD7C9),
};

/// Dark paper.
pub const DARK: Tokens = Tokens {
    desk: rgb(0x171614),
    paper: rgb(0x21201D),
    hover: rgb(0x2A2925),
    ink: rgb(0xE6E1D4),
    pencil: rgb(0xB4AD9E),
    disabled: rgb(0x9A9384),
    accent: rgb(0x93BCE6),
    pressed: rgb(0xBBD6F2),
    wash: rgb(0x2A323A),
    wash_strong: rgb(0x2F4356),
    rule: rgb(0x858073),
    hairline: rgb(0x3A3832),
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

    /// How far one colour stands out from another, by WCAG 2.2.
    fn contrast(one: Color32, other: Color32) -> f64 {
        let (a, b) = (luminance(one), luminance(other));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn contrast_is_that_of_the_standard() {
        // WCAG 2.2: black on white is 21 to 1; #767676 is the lightest gray of 4.5 to 1 on white, a
        // value from memory.
        assert!((contrast(Color32::BLACK, Color32::WHITE) - 21.0).abs() < 1e-9);
        assert!((contrast(rgb(0x76_76_76), Color32::WHITE) - 4.54).abs() < 0.005);
        assert!(contrast(rgb(0x77_77_77), Color32::WHITE) < 4.5);
    }

    #[test]
    fn every_text_can_be_read_on_every_ground_it_can_stand_on() {
        // WCAG 2.2, success criterion 1.4.3: 4.5 to 1 for text.
        for t in [LIGHT, DARK] {
            let grounds = [t.paper, t.desk, t.hover, t.wash, t.wash_strong];
            let inks = [t.ink, t.pencil, t.accent, t.pressed];
            let everywhere = inks
                .into_iter()
                .flat_map(|ink| grounds.map(|ground| (ink, ground)));
            let disabled = [t.paper, t.desk, t.hover].map(|ground| (t.disabled, ground));
            // The word of a stop is paper on ink.
            for (ink, ground) in everywhere.chain(disabled).chain([(t.paper, t.ink)]) {
                let contrast = contrast(ink, ground);
                assert!(contrast >= 4.5, "{ink:?} on {ground:?}: {contrast:.2}");
            }
        }
    }

    #[test]
    fn every_line_that_means_something_is_seen() {
        // WCAG 2.2, success criterion 1.4.11: 3 to 1 for what isn't text.
        for t in [LIGHT, DARK] {
            let grounds = [t.paper, t.desk, t.hover, t.wash];
            for line in [t.rule, t.accent, t.ink] {
                for ground in grounds {
                    let contrast = contrast(line, ground);
                    assert!(contrast >= 3.0, "{line:?} on {ground:?}: {contrast:.2}");
                }
            }
            for line in [t.accent, t.ink] {
                assert!(contrast(line, t.wash_strong) >= 3.0);
            }
        }
    }
}
