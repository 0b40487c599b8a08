//! A list out of a mail that was answered: each of its lines begins with a mark of quoting.

use std::borrow::Cow;

/// A text without the marks that quote it, where every line has one; its lines stay.
pub(crate) fn without_quote_marks(text: Cow<'_, str>) -> Cow<'_, str> {
    if !text.trim_start().starts_with('>') {
        return text;
    }
    let quoted = |line: &str| line.trim().is_empty() || line.starts_with('>');
    if !text.lines().all(quoted) {
        return text;
    }
    let mut plain = String::with_capacity(text.len());
    for line in text.lines() {
        let line = line.trim_start_matches('>');
        plain.push_str(line.strip_prefix(' ').unwrap_or(line));
        plain.push('\n');
    }
    plain.into()
}

#[cfg(test)]
mod tests {
    use super::without_quote_marks;

    #[test]
    fn only_a_text_that_is_quoted_as_a_whole_loses_its_marks() {
        let plain = without_quote_marks("> Hole  Dia\n>\n>> A  0.8\n\n".into());
        assert_eq!(plain, "Hole  Dia\n\nA  0.8\n\n");
        let other = "> Hole  Dia\nA  0.8\n";
        assert_eq!(without_quote_marks(other.into()), other);
    }
}
