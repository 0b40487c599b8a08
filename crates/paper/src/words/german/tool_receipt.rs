//! Words of the receipt for a broken tool.

use quillbore_calc::broken::Stuff;

use crate::words::customer::ToolReceipt;

/// What it says in German.
pub(super) const WORDS: ToolReceipt = ToolReceipt {
    title: "Annahmeschein",
    contact: "Name und Nummer",
    due: "benötigt bis",
    comes_in: "kommt",
    material: "Werkstoff des Teils",
    size: "Größe des Teils",
    mass: "Masse",
    value: "Wert des Teils",
    condition: "Zustand bei Annahme, frühere Schäden",
    received: "angenommen am, durch",
    broken: "Werkzeug",
    mark: "Pos.",
    tool: "Werkzeug",
    made_of: "aus",
    below: "unter der Fläche",
    left: "Restlänge",
    assumed: "angenommen",
    end: "Bohrung",
    tried: "schon versucht",
    agreed: "Vereinbart",
    from_to: |from, to| {
        format!("Preis von {from} bis etwa {to}. Bevor es mehr wird, fragen wir nach.")
    },
    price: |price| format!("Preis {price}. Bevor es mehr wird, fragen wir nach."),
    no_price: "Den Preis nennen wir, bevor die Arbeit beginnt.",
    for_the_try: |charge| format!("Lässt es sich nicht entfernen, {charge} für den Versuch."),
    no_guarantee: "Das Werkzeug wird in der Mitte ausgebrannt, der Rest herausgenommen. Wir gewährleisten \
                   weder Gewinde noch Bohrung: es muss vielleicht nachgeschnitten oder mit einem Einsatz \
                   versehen werden.",
    risk: |cap| match cap {
        Some(cap) => format!("Wird das Teil Ausschuss, haften wir bis {cap}."),
        None => "Am Teil wird auf Gefahr des Eigentümers gearbeitet.".to_owned(),
    },
    by_customer: "gelesen und einverstanden, die Arbeit darf beginnen: Name, Datum",
    by_shop: "wie beschrieben angenommen, für die Werkstatt: Name, Datum",
    stuff: |stuff| match stuff {
        Stuff::Hss => "Schnellarbeitsstahl",
        Stuff::Carbide => "Hartmetall",
        Stuff::Steel => "Stahl",
    },
    floor: "In der Werkstatt",
    machine: "Maschine",
    electrode: "Elektrode",
    burnt: "gebranntes Loch",
    plunges: "Eintauchungen",
    setting: "erste Eintauchung, ab Berührung des Rests",
    never: "Spitze nie tiefer, ab Berührung",
    minutes: "Minuten, etwa",
    before: "Die Achse an Bohrung oder Gewinde suchen, nicht am Rest, und als Null nehmen. Am Rest antasten; \
             kräftig spülen; den Rest bei abgeschaltetem Strom herausnehmen, die Stücke zählen, das Gewinde vor \
             dem Lehren reinigen.",
    record: [
        "Minuten Funken",
        "Elektrode vorher / nachher",
        "Werkzeug heraus, ganz oder in Stücken",
        "Gewindelehre Gut / Ausschuss",
        "gemacht von, am",
    ],
    on_circle: |plunges| format!("{plunges}, jede neben der letzten"),
    layered: "1, dann Kreise in Schichten",
    foot: "Bleibt beim Teil.",
};
