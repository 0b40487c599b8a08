//! Words of the quotation.

use quillbore_job::Field;
use quillbore_job::concern::Told;

use crate::words::counted::count;
use crate::words::customer::Quotation;

/// What it says in German.
pub(super) const WORDS: Quotation = Quotation {
    title: "Angebot",
    draft: "Entwurf",
    sample_rates: "Beispielsätze: Diese Preise beruhen auf Beispielen, nicht auf den eigenen Sätzen der \
                   Werkstatt.",
    minimum: "Mindestbetrag",
    per_hole: |price| format!("{price} je Startbohrung"),
    for_whom: "für",
    contact: "Kontakt",
    customers_reference: "Ihre Referenz",
    drawing_and_revision: "Zeichnung und Rev.",
    material: "Werkstoff und Zustand",
    size: "Maße und Gewicht",
    scope: "Leistungsumfang",
    size_drawn: "Maß laut Zeichnung",
    no_holes: "Es sind noch keine Bohrungen genannt.",
    inspection: "Prüfung: ",
    both_ends: "Von jeder Seite zur Hälfte gebohrt.",
    backed: "Beim Bohren hinter dem Austritt abgestützt.",
    hold_points: "Haltepunkte: ",
    outside: "Fremdleistung: ",
    recast: "Zulässige Umschmelzschicht: ",
    wall: "Wanddicke: ",
    tolerance: "Allgemeintoleranz (Schriftfeld): ",
    price: "Preis",
    price_remark: "je Teil und für das Los; jede Stückzahl ist eine Lieferung",
    not_priced: "Noch ohne Preis: Etwas, worauf der Preis beruht, ist nicht bekannt oder nicht lesbar.",
    charged_once: "Einmalige Kosten",
    charge: |field| match field {
        Field::FixtureCost => "Vorrichtung",
        Field::TestPieceCost => "Probestück",
        _ => "einmaliger Betrag",
    },
    conditions: "Konditionen",
    lead_time: "Lieferzeit",
    valid_name: "Gültig",
    please_confirm: "Bitte bestätigen",
    agreed: "Vereinbart",
    assumed: "Annahmen",
    not_included: "Nicht enthalten",
    terms: "Bedingungen",
    acceptance: "Bestellung",
    acceptance_remark: "unterschrieben zurücksenden oder mit dieser Nummer bestellen",
    we_order: "Wir bestellen die unten eingetragene Stückzahl zum oben genannten Preis und zu den oben \
               genannten Bedingungen und tragen das Risiko für unsere Teile wie angegeben.",
    tick: "Bitte kreuzen Sie an, was zutrifft, oder schreiben Sie daneben, was gilt; es ist Teil dessen, \
           was Sie unterschreiben.",
    thread: "Wird ein abgebrochenes Werkzeug aus einem Gewinde erodiert, übernehmen wir für das Gewinde \
             keine Gewähr.",
    assumptions: [
        "Das Erodieren hinterlässt in der Bohrung eine dünne Umschmelzschicht (weiße Schicht). Sie zu \
         entfernen ist ein eigener Arbeitsgang und nur enthalten, wo er oben genannt ist.",
        "Die Bohrung wird um den Funkenspalt größer als die Elektrode und zum Austritt hin etwas \
         enger. Maße sagen wir innerhalb der oben genannten Grenzen zu, nicht enger, und nicht dort, \
         wo wir Sie oben bitten, etwas anderes zu bestätigen.",
        "Die Teile bleiben Eigentum des Kunden und werden auf Risiko des Kunden bearbeitet, wenn nicht \
         vor der ersten Bohrung ein Betrag schriftlich vereinbart ist. Wir bitten um ein Reserveteil \
         oder ein Probestück aus demselben Werkstoff.",
        "Die Teile kommen sauber, entmagnetisiert und mit einer blanken Stelle für den \
         Masseanschluss; Werkstoff und Zustand sind wie oben genannt.",
    ],
    to_be_agreed: "nach Vereinbarung",
    net: "Nettopreise ohne Fracht und Steuern.",
    ends_assumed,
    for_the_customer,
    lower_assumed: |lower, upper| {
        format!(
            "Nur ein Höchstmaß von {upper} ist angegeben: Als Mindestmaß ist {lower} angenommen."
        )
    },
    replaces: |numbers| format!("Ersetzt {numbers}: nicht mehr gültig."),
    offered_tools: "Ausbrennen der unten genannten abgebrochenen Werkzeuge, so weit sie sich entfernen lassen; \
                    gemessen wird daran nichts, das Gewinde wird gelehrt, wo es geht.",
    tools_range: |from, to| {
        format!(
            "Wie es ausgeht, zeigt sich erst dabei: das Los kann auf {from} bis etwa {to} kommen. Bevor es \
             mehr wird, fragen wir nach."
        )
    },
    offered: |kinds| match (kinds.open, kinds.blind) {
        _ if !kinds.all_by_pin => {
            "Funkenerosives Bohren (Startlochbohren) der unten genannten Bohrungen; jede Bohrung so \
             geprüft, wie bei ihr angegeben, Teile gewaschen und verpackt wie erhalten."
        }
        (false, true) => {
            "Funkenerosives Bohren (Startlochbohren) der unten genannten Bohrungen; jede Bohrung mit \
             Prüfstift und auf ihre Tiefe geprüft, Teile gewaschen und verpackt wie erhalten."
        }
        (_, false) => {
            "Funkenerosives Bohren (Startlochbohren) der unten genannten Bohrungen; jede Bohrung auf \
             Durchgang und mit Prüfstift geprüft, Teile gewaschen und verpackt wie erhalten."
        }
        (true, true) => {
            "Funkenerosives Bohren (Startlochbohren) der unten genannten Bohrungen; jede Bohrung mit \
             Prüfstift geprüft, offene Bohrungen auf Durchgang, Grundbohrungen (Sacklöcher) auf ihre \
             Tiefe, Teile gewaschen und verpackt wie erhalten."
        }
    },
    lead: |form, days| {
        format!(
            "{} nach Eingang von Bestellung, Teilen und Zeichnung",
            count(form, days, "Arbeitstag", "Arbeitstage")
        )
    },
    valid: |form, days, until| format!("{}, bis {until}", count(form, days, "Tag", "Tage")),
    minimum_note: |amount| {
        format!("Unser Mindestbetrag für ein Los ist {amount}; er gilt, wo die Tabelle ihn nennt.")
    },
    liability: |amount| {
        format!("Für ein verdorbenes Teil ist unsere Haftung auf {amount} je Teil begrenzt.")
    },
    until: |day| format!("bis {day}"),
    drawing: |drawing, revision| format!("{drawing}, Rev. {revision}"),
};

fn ends_assumed(marks: &[String]) -> String {
    const SHOWN: usize = 12;
    let shown = marks.iter().take(SHOWN).map(String::as_str);
    let shown = shown.collect::<Vec<_>>().join(", ");
    let (holes, go) = if marks.len() == 1 {
        ("Bohrung", "geht")
    } else {
        ("Bohrungen", "gehen")
    };
    match marks.len().saturating_sub(SHOWN) {
        0 => format!("{holes} {shown} {go} durch: Ein anderes Ende wurde nicht genannt."),
        more => format!(
            "{holes} {shown} und {more} weitere {go} durch: Ein anderes Ende wurde nicht genannt."
        ),
    }
}

const fn for_the_customer(told: Told) -> Option<&'static str> {
    Some(match told {
        Told::LimitsTight => {
            "Die Grenzen sind so eng, wie dieses Verfahren sie hält; das erste Teil wird gemessen und \
             abgestimmt, bevor das Los weiterläuft."
        }
        Told::DepthBySteps => {
            "Die Tiefe schwankt mit dem Verschleiß der Elektrode; sie wird an der ersten Bohrung \
             gemessen und danach eingestellt. Bitte nennen Sie uns ihre Toleranz, wo die Zeichnung \
             keine angibt."
        }
        Told::DepthByStepsInLimits => {
            "Die Tiefe schwankt mit dem Verschleiß der Elektrode; sie wird an der ersten Bohrung \
             gemessen und danach eingestellt."
        }
        Told::ConductivityCheck => {
            "Der Werkstoff leitet schlecht; bitte senden Sie uns das Werkszeugnis der Sorte."
        }
        Told::ConductivityTestPiece => {
            "Der Werkstoff leitet vielleicht nicht gut genug; bitte senden Sie uns ein Probestück \
             derselben Sorte."
        }
        Told::DoesNotConduct => {
            "Soweit bekannt, leitet der Werkstoff nicht gut genug; bitte senden Sie uns einen Messwert \
             oder ein Zeugnis, wenn es anders ist."
        }
        Told::DeepTestPiece => {
            "Die Bohrung ist für ihren Durchmesser tiefer, als wir bisher gebohrt haben; bitte senden \
             Sie uns ein Probestück aus demselben Werkstoff."
        }
        Told::CoreTrapped => {
            "Ein loser Kern könnte im Teil bleiben; bitte sagen Sie uns, wie er herausgenommen werden \
             kann."
        }
        Told::NotGuaranteed => {
            "Wir gewährleisten weder, dass das Werkzeug ganz herauskommt, noch das Gewinde oder die \
             Bohrung, in der es sitzt."
        }
        Told::ExitMayBeTight => {
            "Der kleinste Austritt kann enger sein, als der Draht ihn braucht; bitte sagen Sie uns, ob \
             die Bohrung größer sein darf."
        }
        Told::ProfileInReach => {
            "Die Bohrung kann bis an die fertige Kontur verlaufen; bitte sagen Sie uns, ob sie weiter in \
             den Abfall gelegt oder kleiner werden kann."
        }
        Told::LowerAssumed => return None,
    })
}
