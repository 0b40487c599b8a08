//! Words of blank forms.

use crate::words::counted::count;
use crate::words::customer::Blank;

/// What they say in German.
pub(super) const WORDS: Blank = Blank {
    inspection: "leeres Prüfprotokoll",
    goes_with: |travelers| match travelers {
        [one] => format!("weitere Seite, leer gedruckt; gehört zur Laufkarte {one}"),
        _ => "weitere Seite, leer gedruckt; gehört zur Laufkarte der Teile".to_owned(),
    },
    more_lines: |form, more| {
        let lines = count(
            form,
            more,
            "Zeile für Teil und Position hat",
            "Zeilen für Teile und Positionen haben",
        );
        format!("{lines} hier keinen Platz: Drucken Sie dafür weitere Seiten.")
    },
};
