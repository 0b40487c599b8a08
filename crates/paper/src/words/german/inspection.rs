//! Words of the hole inspection record.

use quillbore_job::{Form, Unit};

use crate::words::counted::count;
use crate::words::customer::{Inspection, SampleState};
use crate::words::kinds::Kinds;

/// What it says in German.
pub(super) const WORDS: Inspection = Inspection {
    title: "Prüfprotokoll der Bohrungen",
    asked_for: "Gefordert: ",
    recast: "Zulässige Umschmelzschicht: ",
    no_holes: "Es sind keine Bohrungen genannt.",
    asked: "Anforderungen",
    characteristic: "Merkmal Nr.",
    zone: "Feld",
    proved_by: "Durchgang",
    drawing_says: "Maß laut Zeichnung",
    go: "Gutseite",
    no_go: "Ausschussseite",
    of_the_lot: "Über mehrere Teile gemessen",
    of_the_lot_remark: "kleinstes bis größtes Maß der genannten Teile, keines einzelnen Teils",
    hole_numbers: "Bohrung Nr.",
    sizes_found: "Istmaße",
    pieces: "Teile",
    no_piece_named: "kein Teil genannt",
    counted: "Anzahl",
    checked: "geprüft",
    not_good: "n. i. O.",
    date: "Datum",
    name: "Name",
    by_piece: "Teil für Teil",
    by_piece_remark: "nur was an diesem Teil gemessen wurde",
    piece: "Teil, Seriennr.",
    depth_found: "Isttiefe",
    accepted: "Befund",
    is_accepted: |yes| if yes { "i. O." } else { "n. i. O." },
    nonconformances: "Abweichungen",
    no_nonconformances: "Keine verzeichnet.",
    all_checked: "Jede Bohrung der oben genannten Teile wurde geprüft, wie oben angegeben.",
    as_noted: "Geprüft, soweit oben angegeben; was dort nicht steht, wurde nicht geprüft.",
    sampling: |level, limit| {
        format!("ISO 2859-1, Einfach-Stichprobe, normale Prüfung, Prüfniveau {level}, AQL {limit}")
    },
    sampled,
    all_sampled: |asked, letter| {
        format!(
            "Stichprobe nach {asked}: jedes Teil (Kennbuchstabe {letter}; die Anweisung verlangt \
             ebenso viele oder mehr)."
        )
    },
    no_plan: |asked| {
        format!(
            "{asked}: Nach der Tabelle gibt es dafür keine Anweisung; bitte in der Norm nachsehen."
        )
    },
    measured,
    gauge,
    without_serial: |number| format!("ohne Nr., {number}"),
    holes_numbered: |numbers| format!("Bohrungen {numbers}"),
    how_checked,
    uneven,
    not_measured: "nicht gemessen",
    not_by_piece: |form, pieces, many| {
        let many = count(form, many, "Teil", "Teile");
        format!("Nicht einzeln gemessen: {pieces} ({many}).")
    },
    sample_so_far: |form, marks, [parts, sample]| {
        let parts = count(form, parts, "Teil", "Teilen");
        format!("{marks}: alle Bohrungen geprüft an {parts}, Stichprobe {sample}")
    },
    sample_state,
    more_pieces: |form, more| {
        let pieces = count(form, more, "weiteres Teil hat", "weitere Teile haben");
        format!("{pieces} hier keine Zeile: Dafür ist ein weiteres Protokoll nötig.")
    },
    nonconformance: |number, what| match what.trim() {
        "" => format!("Abweichung {number}"),
        what => format!("Abweichung {number}: {what}"),
    },
    sizes_in: |unit| match unit {
        Unit::Mm => "Maße in Millimetern".to_owned(),
        Unit::Inch => "Maße in Zoll".to_owned(),
    },
};

fn sampled(
    asked: &str,
    [sample, lot, accept, reject]: [&str; 4],
    [letter, plan]: [char; 2],
) -> String {
    let arrow = if letter == plan {
        String::new()
    } else {
        format!(", Anweisung von {plan}")
    };
    format!(
        "Stichprobe nach {asked}: {sample} von {lot} Teilen (Kennbuchstabe {letter}{arrow}); das Los wird \
         angenommen, wenn höchstens {accept} davon nicht in Ordnung sind, und bei {reject} zurückgewiesen. \
         Was nicht in der Stichprobe ist, wurde nicht geprüft."
    )
}

const fn sample_state(state: SampleState) -> &'static str {
    match state {
        SampleState::Open => "Die Stichprobe ist nicht vollständig.",
        SampleState::Passed => {
            "Die Stichprobe ist vollständig und alles in Ordnung: Das Los wird angenommen."
        }
        SampleState::NotPassed => {
            "Bohrungen sind nicht in Ordnung, und keine darf es sein: Das Los wird zurückgewiesen."
        }
        SampleState::ToBeCounted => {
            "Die Stichprobe ist vollständig; Bohrungen sind nicht in Ordnung: Wer prüft, zählt deren Teile und \
             entscheidet."
        }
    }
}

fn measured([depth, position, angle, gauge]: [&str; 4]) -> Vec<String> {
    let all = [
        ("Tiefe", depth),
        ("Position", position),
        ("Winkel", angle),
        ("Prüfmittel", gauge),
    ];
    let all = all.into_iter().filter(|(_, text)| !text.is_empty());
    all.map(|(lead, text)| format!("{lead} {text}")).collect()
}

fn gauge(number: &str, until: &str, temperature: &str) -> String {
    let mut said = number.trim().to_owned();
    if !until.is_empty() {
        said += &format!(", bis {until}");
    }
    if !temperature.trim().is_empty() {
        said += &format!("; {}", degrees(temperature.trim()));
    }
    said.trim_start_matches([',', ';', ' ']).to_owned()
}

/// A bare number is one of degrees Celsius.
fn degrees(typed: &str) -> String {
    let is_bare = typed
        .chars()
        .all(|ch| ch.is_ascii_digit() || ".,".contains(ch));
    if is_bare {
        format!("{typed}\u{a0}\u{b0}C")
    } else {
        typed.to_owned()
    }
}

fn how_checked(kinds: Kinds) -> Vec<&'static str> {
    let mut said = Vec::new();
    if kinds.proved {
        said.push(
            "Bohrungen mit eigenem Nachweis: jede Bohrung damit, und mit Prüfstift, wo Grenzmaße angegeben sind.",
        );
    }
    if kinds.open && kinds.some_by_pin {
        said.push(
            "Offene Bohrungen: Die Gutseite (Mindestmaß) geht durch die ganze Tiefe, die Ausschussseite \
             (Höchstmaß) nicht hinein.",
        );
    }
    if kinds.blind {
        said.push(
            "Sacklöcher: Die Gutseite (Mindestmaß) geht bis zum Grund, die Ausschussseite (Höchstmaß) nicht \
             hinein; die Tiefe wird gemessen.",
        );
    }
    said.push(if kinds.some_by_pin {
        "Geprüft wird mit Prüfstiften; Istmaße stehen nur da, wo gemessen wurde."
    } else {
        "Istmaße stehen nur da, wo gemessen wurde."
    });
    said
}

fn uneven(form: Form, [parts, serials]: [u32; 2]) -> String {
    format!(
        "{} gezählt, {} genannt: vor dem Unterschreiben zu klären.",
        count(form, parts, "Teil", "Teile"),
        count(form, serials, "Seriennummer", "Seriennummern"),
    )
}
