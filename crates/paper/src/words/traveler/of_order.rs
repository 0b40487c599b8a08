//! Words about orders and call-offs inside a line.

use quillbore_job::Line;

use crate::words::phrases::typed_count;

/// An order that is called off in parts.
pub const BLANKET: &str = "blanket order, called off in parts";

/// A line of an order or call-off, with the word it needs.
pub fn line(line: Line, text: &str) -> String {
    match line {
        Line::Number => format!("no. {text}"),
        Line::Date => format!("of {text}"),
        Line::Quantity => {
            typed_count(text, "part", "parts").unwrap_or_else(|| format!("quantity {text}"))
        }
        Line::Due => format!("due {text}"),
        _ => text.to_owned(),
    }
}

/// A call-off, told by what its lines say.
pub fn call_off(said: &str) -> String {
    format!("call-off {said}")
}
