//! Words of the certificate of conformance, which ISO/IEC 17050-1 calls a supplier's declaration.

use quillbore_job::Form;

use crate::words::counted::count;
use crate::words::customer::Certificate;

/// What it says in German.
pub(super) const WORDS: Certificate = Certificate {
    title: "Konformitätserklärung",
    process: "Die Bohrungen dieser Bestellung wurden mit rotierender Rohrelektrode \
              funkenerosiv gebohrt und mit Dielektrikum gespült. In den Bohrungen bleiben eine Umschmelzschicht \
              und darunter eine wärmebeeinflusste Zone, soweit hier nichts anderes erklärt ist.",
    not_stated: "Werkstoff, Wärmebehandlung und alle Merkmale, die wir nicht gefertigt haben, sind wie \
                 vom Kunden beigestellt und nicht Gegenstand dieser Erklärung.",
    no_deviations: "Es ist keine Abweichung verzeichnet.",
    no_record: "nicht ausgestellt",
    statement: "Erklärung",
    made_how: "Verfahren",
    revision: "Revision",
    checked: "Geprüft",
    deviations: "Abweichung",
    stated: "Erklärt",
    material: "Werkstoff, beigestellt",
    heat: "Charge, beigestellt",
    record: "Prüfprotokoll",
    place: "Ort",
    declared: "Konformitätserklärung des Anbieters mit den Elementen der ISO/IEC 17050-1: Aussteller und \
               Anschrift oben, Gegenstand, Anforderungen, Ort, Datum und Unterschrift.",
    requirements: "Konform mit",
    position: "Funktion",
    parts: "Teile",
    delivered: "Geliefert",
    checked_of,
    conforms_to,
    asked: |text| format!("Von der Prüfung verlangt: {text}"),
    states,
};

fn checked_of(form: Form, mark: &str, [parts, of]: [u32; 2], not_good: u32) -> String {
    let mut said = if parts == 0 {
        format!("{mark}: Eine Prüfung aller Bohrungen ist nicht verzeichnet")
    } else {
        let [parts, of] = [parts, of].map(|parts| form.count(f64::from(parts)));
        format!("{mark}: Maß jeder Bohrung geprüft an {parts} von {of} Teilen")
    };
    if not_good > 0 {
        let holes = count(form, not_good, "Bohrung", "Bohrungen");
        said += &format!(", {holes} nicht in Ordnung");
    }
    said
}

fn conforms_to(drawing: &str, order: &str) -> String {
    match (drawing, order) {
        ("", "") => "Es sind weder Zeichnung noch Bestellnummer verzeichnet.".to_owned(),
        (drawing, "") => format!("Zeichnung {drawing}"),
        ("", order) => format!("Bestellung {order}"),
        (drawing, order) => format!("Zeichnung {drawing}; Bestellung {order}"),
    }
}

fn states(all_checked: bool, record: Option<&str>) -> String {
    let record = record.map_or_else(String::new, |number| {
        format!(" Was gemessen wurde, steht im Prüfprotokoll {number}.")
    });
    let checked = if all_checked {
        " Jede Bohrung dieser Teile wurde geprüft."
    } else {
        " Die Bohrungen wurden geprüft, soweit oben angegeben, nicht darüber hinaus."
    };
    format!(
        "Wir erklären, dass die Bohrungen der oben genannten Teile nach der genannten Zeichnung und \
         Revision gefertigt wurden, soweit die Bestellung sie umfasst, und dass uns keine anderen als \
         die genannten Abweichungen bekannt sind.{checked}{record}"
    )
}
