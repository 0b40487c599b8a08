//! Plain text: marks, names, notes.

use super::misread::Misread;

/// Reads one line: surrounding spaces gone, line breaks and runs of spaces made one space.
pub fn line(text: &str, most: usize) -> Result<String, Misread> {
    if text.contains(char::is_whitespace) {
        let line = text.split_whitespace().collect::<Vec<_>>().join(" ");
        return checked(line, most);
    }
    checked(text.to_owned(), most)
}

/// Reads several lines, each without spaces at its end.
pub fn lines(text: &str, most: usize) -> Result<String, Misread> {
    let lines: Vec<&str> = text.lines().map(str::trim_end).collect();
    checked(lines.join("\n").trim().to_owned(), most)
}

fn checked(text: String, most: usize) -> Result<String, Misread> {
    if text.chars().count() > most {
        return Err(Misread::TextTooLong { most });
    }
    if text
        .chars()
        .any(|c| c.is_control() && c != '\n' && c != '\t')
    {
        return Err(Misread::Unprintable);
    }
    Ok(text)
}
