//! Words of the order confirmation.

use quillbore_job::Form;

use crate::words::counted::count;
use crate::words::customer::Confirmation;

/// What it says in German.
pub(super) const WORDS: Confirmation = Confirmation {
    title: "Auftragsbestätigung",
    please_check: "Bitte prüfen Sie Stückzahl, Revision, Preis und Termine und sagen Sie uns innerhalb \
                   von zwei Arbeitstagen, was nicht Ihrer Bestellung entspricht.",
    starts: "Die Arbeit beginnt, wenn die Teile hier sind, gezählt und wie beschrieben, mit der \
             Zeichnung in der oben genannten Revision.",
    still_holds: "Annahmen, Ausschlüsse und Bedingungen unseres Angebots gelten, soweit hier nichts \
                  anderes genannt ist.",
    ordered: "Bestellt",
    no_order: "Es liegt noch keine Bestellung vor.",
    order: "Bestellung",
    of: "vom",
    part: "Teil und Revision",
    dates: "Termine",
    delivery: "Lieferung",
    call_off: "Abruf",
    due: "Liefertermin",
    differs: "Abweichung",
    orders_terms: "Bedingungen der Bestellung",
    please_send: "Bitte senden",
    to_send,
};

fn to_send(form: Form, missing: Option<u32>) -> String {
    match missing {
        Some(0) => "Nichts: Alle Teile sind hier.".to_owned(),
        Some(missing) => {
            let parts = count(form, missing, "Teil", "Teile");
            format!("{parts}, mit Zeichnung und Chargen- oder Seriennummern.")
        }
        None => "Die Teile, mit Zeichnung und Chargen- oder Seriennummern.".to_owned(),
    }
}
