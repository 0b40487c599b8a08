//! What papers are called.

use quillbore_job::Paper;

use crate::words::customer::Papers;

/// What they are called in German.
pub(super) const WORDS: Papers = Papers { name };

const fn name(paper: Paper) -> &'static str {
    match paper {
        Paper::Quotation => "Angebot",
        Paper::Confirmation => "Auftragsbestätigung",
        Paper::Receiving => "Wareneingangsschein",
        Paper::ToolReceipt => "Annahmeschein für ein abgebrochenes Werkzeug",
        Paper::Traveler => "Laufkarte",
        Paper::Inspection => "Prüfprotokoll der Bohrungen",
        Paper::FirstArticle => "Erstmusterprüfbericht",
        Paper::Certificate => "Konformitätserklärung",
        Paper::Packing => "Lieferschein",
        Paper::Label => "Versandetikett",
    }
}
