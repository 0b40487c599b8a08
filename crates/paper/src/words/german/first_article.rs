//! Words of the first article inspection report, which EN 9102 has by the same fields.

use crate::words::customer::{CharacteristicsForm, FirstArticle, MaterialsForm, PartForm};

/// What it says in German.
pub(super) const WORDS: FirstArticle = FirstArticle {
    title: "Erstmusterprüfbericht",
    what: "Erstmusterprüfung nach den Feldern der AS9102 Rev. C (EN 9102) für die Bohrungen, die wir gebohrt \
           haben; alles andere am Teil ist Sache des Kunden. Ein Feld, das niemand ausgefüllt hat, ist \
           leer.",
    part: PartForm {
        name: "1 Teil",
        remark: "die Zahlen vor den Feldern sind die des ersten Formblatts der Norm",
        part_number: "1 Teilenummer",
        part_name: "2 Bezeichnung",
        serial: "3 Seriennummer",
        report: "4 Berichtsnummer",
        part_revision: "5 Änderungsstand",
        part_revision_too: "Änderungsstand",
        drawing: "6 Zeichnungsnummer",
        drawing_revision: "7 Änderungsstand",
        changes: "8 weitere Änderungen",
        process: "9 Fertigung: Laufkarte, Programm",
        organization: "10 Organisation",
        supplier_code: "11 Lieferantennr.",
        order: "12 Bestellnummer",
        kinds: [
            [
                "13 Einzelteil oder Baugruppe: ",
                "Einzelteil; das Teil, wie der Kunde es gesandt hat, mit den hier gebohrten Bohrungen.",
            ],
            [
                "14 Vollständig oder teilweise: ",
                "teilweise; die hier gebohrten Bohrungen und sonst nichts am Teil.",
            ],
            [
                "15 bis 18 Baugruppe und Liste ihrer Teile: ",
                "keine; zu einem Einzelteil gehört keine Liste.",
            ],
        ],
        baseline: "14 Teilenummer und Stand der Basis",
        reason: "14 Grund für die teilweise Prüfung",
        only_here: "nur die Bohrungen dieser Bestellung werden hier gefertigt",
        comments: "26 Bemerkungen",
        nonconforming: "19 Dokumentierte Abweichungen: ",
        has_nonconformances: |some| {
            if some {
                "ja, wie folgt."
            } else {
                "keine verzeichnet."
            }
        },
        signed: [
            "20, 21 Geprüft; was der Bericht sagt, ist gemessen oder leer.",
            "22, 23 Durchgesehen und für die Werkstatt freigegeben.",
            "24, 25 Freigabe des Kunden, wo sie verlangt ist.",
        ],
    },
    materials: MaterialsForm {
        name: "2 Werkstoffe, spezielle Prozesse, Funktionsprüfungen",
        material: "Werkstoff oder Prozess",
        specification: "Spezifikation, Zustand",
        code: "Code",
        source: "Lieferant",
        approval: "Freigabe des Kunden",
        certificate: "Zeugnis Nr., Charge",
        heat: |heats| format!("Charge {heats}"),
        customer: "Kunde, beigestellt",
        drilling: "Funkenerosives Bohren mit rotierender Rohrelektrode",
        by_drawing: "laut Zeichnung",
        recast: |limit| format!("Umschmelzschicht: {limit}"),
        special: "Funkenerosives Bohren hinterlässt eine Umschmelzschicht: Es gilt als spezieller \
                  Prozess, wo Bestellung oder Spezifikation des Kunden es so nennen. Die Freigabe trägt \
                  der Kunde ein.",
        test: "Funktionsprüfung",
        procedure: "Prüfverfahren",
        acceptance: "Abnahmebericht",
        open_test: "Bohrungen offen",
        open_how: "jede offene Bohrung mit Stift, Draht oder Licht auf Durchgang prüfen, wie auf der \
                   Laufkarte",
        asked_test: "Von der Prüfung verlangt",
    },
    characteristics: CharacteristicsForm {
        name: "3 Merkmale",
        remark: "eine Zeile für jedes Merkmal der Bohrungen",
        number: "Merkmal Nr.",
        location: "Blatt, Feld",
        designator: "Kennung",
        requirement: "Anforderung",
        result: "Istwert",
        tooling: "Prüfmittel, kalibriert bis",
        trouble: "Abw. Nr.",
        no_holes: "Es sind keine Bohrungen genannt.",
        depth: |depth, unit| format!("Tiefe {depth}\u{a0}{unit}"),
        depth_general: |depth, unit, allowed| {
            format!("Tiefe {depth} \u{b1}{allowed}\u{a0}{unit}, Allgemeintoleranz")
        },
        angle: |angle| format!("Winkel {angle}\u{b0}"),
        position: "Lage am Eintritt: laut Zeichnung",
        only_measured: "Istwerte sind, was zu diesem Teil eingetragen wurde; leer heißt nicht gemessen. \
                        i.\u{a0}O. steht, wo jede Bohrung der Zeile geprüft und keine beanstandet wurde, bei \
                        Grundlöchern mit verzeichneter Tiefe.",
        measured: "Gemessen wie oben angegeben.",
    },
};
