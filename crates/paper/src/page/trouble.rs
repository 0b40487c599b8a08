//! Characters that can't be printed as they are read, and why.

use unicode_bidi::BidiClass;

use super::font::Face;
use super::sign;

/// Why a character can't be printed as it is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Trouble {
    /// The papers' font has no glyph for it: a substitute would stand in its place.
    NoGlyph,
    /// It belongs to a script that runs from right to left, which the papers don't set.
    RightToLeft,
}

/// Why a character can't be printed as it is read in a face, if it can't.
pub(super) fn trouble(ch: char, face: Face) -> Option<Trouble> {
    if runs_right_to_left(ch) {
        Some(Trouble::RightToLeft)
    } else if !face.covers(ch) && !sign::is_drawn(ch) {
        Some(Trouble::NoGlyph)
    } else {
        None
    }
}

/// Whether a character shows nothing and may be left out: zero-width spaces, joiners and
/// direction marks, soft hyphens, byte order marks, variation selectors.
pub(super) fn is_unseen(ch: char) -> bool {
    matches!(ch, '\u{200B}'..='\u{200F}' | '\u{2060}' | '\u{FEFF}' | '\u{AD}' | '\u{FE00}'..='\u{FE0F}')
}

/// Whether a character belongs to a script that runs from right to left, or turns text that way.
fn runs_right_to_left(ch: char) -> bool {
    // Unicode Standard Annex 9: strong right-to-left characters, Arabic digits, and the marks that
    // embed, override or isolate a direction. ASCII has none of them.
    !ch.is_ascii()
        && matches!(
            unicode_bidi::bidi_class(ch),
            BidiClass::R
                | BidiClass::AL
                | BidiClass::AN
                | BidiClass::RLE
                | BidiClass::RLO
                | BidiClass::RLI
        )
}
