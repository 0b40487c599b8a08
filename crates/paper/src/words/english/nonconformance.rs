//! Words of non-conformances.

use quillbore_job::Line;

use crate::words::counted::typed_count;
use crate::words::customer::Nonconformance;

/// What papers say of them in English.
pub(super) const WORDS: Nonconformance = Nonconformance {
    no_decision: "no decision yet",
    not_closed: "not closed",
    of_line,
};

fn of_line(line: Line, text: &str) -> String {
    match line {
        Line::Serials => format!("pieces {text}"),
        Line::Count => {
            typed_count(text, "part", "parts").unwrap_or_else(|| format!("parts: {text}"))
        }
        Line::Decision => format!("decision: {text}"),
        Line::DecidedBy => format!("decided by {text}"),
        Line::Redo => format!("to be redone: {text}"),
        Line::NotSent => format!("not delivered: {text}"),
        Line::SendBecause => format!("delivered open: {text}"),
        Line::GoOn => format!("work goes on because: {text}"),
        Line::Closed => format!("closed on {text}"),
        _ => text.to_owned(),
    }
}
