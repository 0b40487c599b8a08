//! Words of non-conformances.

use quillbore_job::Line;

use crate::words::counted::typed_count;
use crate::words::customer::Nonconformance;

/// What customers read of them in German.
pub(super) const WORDS: Nonconformance = Nonconformance {
    no_decision: "noch nicht entschieden",
    not_closed: "nicht abgeschlossen",
    of_line,
};

fn of_line(line: Line, text: &str) -> String {
    match line {
        Line::Serials => format!("Teile {text}"),
        Line::Count => {
            typed_count(text, "Teil", "Teile").unwrap_or_else(|| format!("Teile: {text}"))
        }
        Line::Decision => format!("Entscheidung: {text}"),
        Line::DecidedBy => format!("entschieden von {text}"),
        Line::Redo => format!("Nacharbeit: {text}"),
        Line::NotSent => format!("wird nicht geliefert: {text}"),
        Line::SendBecause => format!("offen geliefert: {text}"),
        Line::GoOn => format!("weitergearbeitet, weil: {text}"),
        Line::Closed => format!("abgeschlossen am {text}"),
        _ => text.to_owned(),
    }
}
