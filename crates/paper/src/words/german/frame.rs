//! Words in head and foot of every page.

use crate::words::customer::Frame;

const PREVIEW: &str = "VORSCHAU";

/// What customers read of them in German.
pub(super) const WORDS: Frame = Frame {
    preview: PREVIEW,
    printed: |issuer, day| format!("{issuer}, gedruckt am {day}"),
    page: |number, of| format!("Seite {number} von {of}"),
    preview_of: |why| format!("{PREVIEW}  {why}"),
};
