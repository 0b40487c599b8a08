//! Words of non-conformances.

use quillbore_job::Line;

use super::phrases::typed_count;

/// Words between holes and the pieces that have them, as they are typed.
pub const BETWEEN: [&str; 3] = [" of ", " on ", " in "];
/// Nobody decided on a non-conformance.
pub const NO_DECISION: &str = "no decision yet";
/// Nobody closed a non-conformance.
pub const NOT_CLOSED: &str = "not closed";

/// A line of a non-conformance as papers tell it.
pub fn of_line(line: Line, text: &str) -> String {
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
