//! What every failure is told by: message, hint and path as one sentence.

use std::path::Path;

use super::shown;

/// Message, hint and path as one sentence.
pub(crate) fn sentence(message: &str, hint: &str, path: Option<&Path>) -> String {
    let message = message.trim_end_matches('.');
    let hint = as_clause(hint);
    match path {
        Some(path) => format!("{message}; {hint}: {}", shown::name(path.as_os_str())),
        None => format!("{message}; {hint}."),
    }
}

/// A hint that may be a sentence of its own, as the second half of one.
fn as_clause(hint: &str) -> String {
    let hint = hint.trim_end_matches('.');
    let mut letters = hint.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_lowercase().chain(letters).collect()
    })
}
