//! Cautions of the receipt that a customer signs; local rules and licensed people always stand above them.

use quillbore_calc::tables::Hazard;

use crate::words::customer::Cautions;

/// What they say in German.
pub(super) const WORDS: Cautions = Cautions {
    name: "Sicherheit",
    first: "Diese Hinweise erinnern unterwiesene Leute. Örtliche Vorschriften, die Anweisungen zur Maschine, \
            die Sicherheitsdatenblätter und das Wort befugter Leute stehen darüber; wo sie mehr verlangen, \
            gilt das.",
    in_this_shop: "In dieser Werkstatt",
    sludge: "Schlamm, Haut",
    materials: "Werkstoffe",
    of_materials: |shorts| {
        format!(
            "{shorts}. Absaugung an, Handschuhe; nicht trocken kehren, nicht abblasen; vor dem Essen waschen; \
             Schlamm und Flüssigkeit gehen, wohin das örtliche Abfallrecht sie schickt, nie in den Ausguss. \
             Die Sicherheitsdatenblätter lesen."
        )
    },
    always,
    of,
    short: |hazard| match hazard {
        Hazard::BurningFines => "Feinstes brennt und setzt Wasserstoff frei",
        Hazard::Nickel => "Nickel in Nebel und Schlamm",
        Hazard::Cobalt => "Kobalt in Nebel und Schlamm",
        Hazard::Chromium => "Chrom in Nebel und Schlamm",
        Hazard::Beryllium => "BERYLLIUM in Nebel und Staub",
        Hazard::CopperLead => "Kupfer und Blei in Nebel und Schlamm",
    },
};

fn always(pressure: Option<&str>) -> Vec<(&'static str, String)> {
    let jet = match pressure {
        Some(pressure) => format!("Pumpe und Schläuche stehen unter bis zu {pressure}."),
        None => "Pumpe und Schläuche stehen unter hohem Druck.".to_owned(),
    };
    vec![
        (
            "Flüssigkeit unter Druck",
            format!(
                "{jet} Ein haarfeiner Strahl geht durch Handschuh und Haut. Die Wunde sieht aus wie ein \
                 Nadelstich und schmerzt kaum: trotzdem sofort ins Krankenhaus, „Hochdruckinjektion“ sagen \
                 und das Sicherheitsdatenblatt der Flüssigkeit mitnehmen. Druck ablassen, bevor etwas \
                 geöffnet wird; nie mit der Hand nach einem Leck tasten."
            ),
        ),
        (
            "Stromschlag",
            "Elektrode, Spannfutter, Führung, Teil und Tisch stehen beim Funken unter Spannung. Generator aus \
             und geprüft aus, bevor eine Hand hineingreift; Türen und Verriegelungen bleiben, wie der Hersteller \
             sie gemacht hat. An die Verkabelung gehen nur Elektrofachkräfte."
                .to_owned(),
        ),
        (
            "Bewegter Kopf",
            "Kopf, Tisch und Drehachse laufen von selbst an, und die Elektrode dreht sich. Hände, Haare, Ärmel \
             und Lappen weg; Maschine sichern, bevor jemand hineingreift. Ein dünnes Rohr ohne Führung schlägt: \
             Haube zu, Brille auf."
                .to_owned(),
        ),
        (
            "Gas, Nebel, Feuer",
            "Funken in Wasser oder Öl setzen Wasserstoff, Rauch und Nebel frei. Absaugung an, kein Feuer und \
             kein Rauchen am Becken, die Funkenstelle gut bedeckt oder gespült. Der vorgeschriebene Löscher \
             hängt in Reichweite."
                .to_owned(),
        ),
        (
            WORDS.sludge,
            "Schlamm und gebrauchte Flüssigkeit enthalten Feinstes von Teil und Elektrode. Handschuhe und \
             Brille; nicht trocken kehren, nicht abblasen; vor dem Essen waschen. Beides wird gesammelt und nach \
             örtlichem Abfallrecht abgegeben, nie weggegossen."
                .to_owned(),
        ),
    ]
}

fn of(hazard: Hazard, material: &str) -> (&'static str, String) {
    match hazard {
        Hazard::Beryllium => (
            "Beryllium",
            format!(
                "{material}: Beryllium in Nebel oder Staub kann die Lunge für immer zerstören. Nicht beginnen \
                 ohne das Schutzkonzept, das das Gesetz verlangt: gekapselt, geprüfte Absaugung, gemessene \
                 Luft, unterwiesene Leute, Abfall getrennt."
            ),
        ),
        _ => (
            "Feinstes, das brennt",
            format!(
                "Feinstes von {material} brennt heftig und setzt nass Wasserstoff frei. Nass und wenig halten, \
                 nur in belüfteten Behältern; Becken, Filter und Sumpf vor und nach diesem Los reinigen. Auf \
                 brennendes Metall kein Wasser, kein Schaum, kein Kohlendioxid: nur, was die Feuerwehr für \
                 Metallbrände nennt. Den Ort freigeben lassen, bevor der erste Funke springt."
            ),
        ),
    }
}
