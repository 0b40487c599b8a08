//! Words in head and foot of every page.

use quillbore_job::Paper;

use crate::words::customer::Frame;

const PREVIEW: &str = "VORSCHAU";

/// What customers read of them in German.
pub(super) const WORDS: Frame = Frame {
    preview: PREVIEW,
    printed: |issuer, day| format!("{issuer}, gedruckt am {day}"),
    page: |number, of| format!("Seite {number} von {of}"),
    not_issued: |paper, is_free| match paper {
        Paper::Traveler if is_free => "noch nicht für die Werkstatt freigegeben",
        Paper::Traveler => "nicht freigegeben",
        Paper::Quotation => "Entwurf, nicht ausgestellt",
        _ => "nicht ausgestellt",
    },
    preview_long: "noch nicht gültig: die Gründe stehen im Papier",
    preview_of: |why| format!("{PREVIEW}  {why}"),
};
