//! What papers say of an order that differs from what was offered or planned.

use quillbore_job::Form;
use quillbore_job::order::{Difference, FieldChange, HoleChange, Revised};

use super::sheet;
use crate::words::counted::count;
use crate::words::customer::Order;

/// What customers read of it in German.
pub(super) const WORDS: Order = Order {
    not_accepted: "Noch nicht angenommen.",
    accepted: |by| format!("Angenommen: {}.", by.trim_end_matches('.')),
    difference,
};

fn difference(form: Form, difference: &Difference) -> String {
    let number = |number: u32| form.count(f64::from(number));
    let parts = |number: u32| count(form, number, "Teil", "Teile");
    match difference {
        Difference::NoQuotation => {
            "Die Bestellung bezieht sich auf kein gültiges Angebot von uns.".to_owned()
        }
        Difference::OtherPaper { named } => format!(
            "Die Bestellung nennt \u{201e}{named}\u{201c}, und ein gültiges Angebot dieser Nummer \
             gibt es nicht."
        ),
        Difference::Replaced { named, by } => {
            format!("Die Bestellung nennt {named}; dieses Angebot wurde durch {by} ersetzt.")
        }
        Difference::NotTrusted { named } => format!(
            "Die Bestellung wurde nicht mit dem Angebot {named} verglichen: Der Eintrag passt nicht \
             zu seinem Siegel."
        ),
        Difference::TooLate { until } => format!(
            "Das Angebot galt bis {}; die Bestellung kam später.",
            form.day(*until)
        ),
        Difference::NotPriced { ordered, nearest } => format!(
            "Bestellt: {}; diese Stückzahl wurde nicht angeboten, die nächste ist {}.",
            parts(*ordered),
            number(*nearest)
        ),
        Difference::Quantity { ordered, on_sheet } => match on_sheet {
            Some(planned) => format!(
                "Bestellt: {}; vorgesehen: {}.",
                parts(*ordered),
                number(*planned)
            ),
            None => format!(
                "Bestellt: {}; eine Stückzahl war nicht vorgesehen.",
                parts(*ordered)
            ),
        },
        Difference::Price { ordered, quoted } => format!(
            "Bestellt zum Einzelpreis {}; angeboten: {}.",
            form.amount(*ordered),
            form.amount(*quoted)
        ),
        Difference::Currency { ordered, quoted } => {
            format!("Die Bestellung lautet auf {ordered}; angeboten: {quoted}.")
        }
        Difference::Revision {
            of,
            ordered,
            quoted,
            on_sheet,
        } => revision(*of, ordered, quoted.as_deref(), on_sheet.as_deref()),
        Difference::RevisedSince {
            of,
            quoted,
            on_sheet,
        } => format!(
            "Die Bestellung nennt keine Revision {}; angeboten: {}, vorgesehen: {}.",
            of_what(*of),
            or_none(quoted),
            or_none(on_sheet)
        ),
        Difference::Due { ordered, on_sheet } => format!(
            "Bestellt zum {}; vorgesehen: {}.",
            form.day(*ordered),
            form.day(*on_sheet)
        ),
        Difference::DueEarly {
            ordered,
            lead_days,
            earliest,
        } => format!(
            "Bestellt zum {}; die angebotene Lieferzeit ({}) endet frühestens am {}.",
            form.day(*ordered),
            count(form, *lead_days, "Arbeitstag", "Arbeitstage"),
            form.day(*earliest)
        ),
        Difference::Holes { changed } => {
            let changed: Vec<String> = changed.iter().map(hole_change).collect();
            format!(
                "Die Bohrungen sind andere, als angeboten wurden: {}.",
                changed.join("; ")
            )
        }
        Difference::Scope { changed } => {
            let changed: Vec<String> = changed.iter().map(field_change).collect();
            format!("Anders, als angeboten wurde: {}.", changed.join("; "))
        }
        Difference::Terms { named } => format!(
            "Die Bestellung hat eigene Bedingungen: {}.",
            named.trim_end_matches('.')
        ),
    }
}

fn revision(of: Revised, ordered: &str, quoted: Option<&str>, on_sheet: Option<&str>) -> String {
    let there = [("angeboten", quoted), ("vorgesehen", on_sheet)];
    let there = there
        .into_iter()
        .filter_map(|(how, there)| Some(format!("{how}: {}", or_none(there?))));
    let there: Vec<String> = there.collect();
    format!(
        "Bestellt ist die Revision {ordered} {}; {}.",
        of_what(of),
        there.join(", ")
    )
}

fn hole_change(change: &HoleChange) -> String {
    match change {
        HoleChange::Said {
            mark,
            column,
            was,
            is,
        } => format!(
            "{}, {}: {}",
            in_one_line(mark),
            sheet::column(column),
            from_to(was, is)
        ),
        HoleChange::New(mark) => format!("{} wurde nicht angeboten", in_one_line(mark)),
        HoleChange::Gone(mark) => format!("{} wurde angeboten und entfällt", in_one_line(mark)),
    }
}

fn field_change(change: &FieldChange) -> String {
    format!(
        "{}: {}",
        sheet::field(&change.field),
        from_to(
            &change.was.replace('\n', "; "),
            &change.is.replace('\n', "; ")
        )
    )
}

fn from_to(was: &str, is: &str) -> String {
    format!("angeboten {}, jetzt {}", or_none(was), or_none(is))
}

/// A mark as a part of a line, however it was typed.
fn in_one_line(mark: &str) -> String {
    mark.split_whitespace().collect::<Vec<_>>().join(" ")
}

const fn or_none(text: &str) -> &str {
    if text.is_empty() {
        "keine Angabe"
    } else {
        text
    }
}

const fn of_what(of: Revised) -> &'static str {
    match of {
        Revised::Part => "des Teils",
        Revised::Drawing => "der Zeichnung",
    }
}
