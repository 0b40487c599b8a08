//! Words of the packing list.

use crate::words::customer::Packing;

/// What it says in German.
pub(super) const WORDS: Packing = Packing {
    title: "Lieferschein",
    cautions: [
        "Bohrungskanten können scharf sein, und in Grundbohrungen können dünne Kerne stehen \
         bleiben: Tragen Sie Handschuhe und Augenschutz und beachten Sie die Regeln Ihres Betriebs.",
        "An den Teilen kann noch Wasser oder Rostschutz vom Bohren haften: Trocknen und schützen Sie \
         sie sofort, wo sie rosten können.",
        "Elektroden, Vorrichtungen und Probestücke bleiben in der Werkstatt, wenn sie hier nicht \
         genannt sind.",
        "Zählen Sie die Teile anhand dieses Lieferscheins, bevor sie die Verpackung verlassen, und \
         sagen Sie uns, was fehlt.",
    ],
    unpacking: "Auspacken",
    in_box: "Im Packstück",
    enclosed: "Beigelegt: ",
    mass_of_parts: |mass| format!("{mass} netto"),
    sent: "Versandt",
    carrier: "Spediteur, Sendungsnummer",
    packed_by: "Gepackt von",
    counted: "Gezählt",
    so_far: "bisher versandt",
    not_sent: "wird nicht geliefert",
    still_to_come: "folgt noch",
    spares: "Reserveteile zurück",
    packer: "gepackt von",
    boxes: "Packstücke",
    receiver: "angenommen von, Datum",
};
