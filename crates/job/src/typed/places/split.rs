//! Pasted text into lines of cells.

/// Splits pasted text into lines of cells: by tabs, else semicolons, commas or spaces.
///
/// A comma parts cells only where it can't be a decimal comma: before a space, or where nothing
/// else parts them.
#[must_use]
pub fn split_lines(text: &str) -> Vec<Vec<String>> {
    let separator = separator(text);
    text.lines().map(|line| split(line, separator)).collect()
}

#[derive(Clone, Copy)]
enum Separator {
    Sign(char),
    Spaces,
}

fn separator(text: &str) -> Separator {
    let inside = |sign: char| text.lines().any(|line| line.trim().contains(sign));
    if inside('\t') {
        Separator::Sign('\t')
    } else if inside(';') {
        Separator::Sign(';')
    } else if text.contains(", ") {
        Separator::Sign(',')
    } else if inside(' ') {
        Separator::Spaces
    } else {
        Separator::Sign(',')
    }
}

fn split(line: &str, separator: Separator) -> Vec<String> {
    match separator {
        // Spaces around a tab belong to no cell, but an empty first cell is one.
        Separator::Sign(sign) => line
            .split(sign)
            .map(|cell| cell.trim().to_owned())
            .collect(),
        Separator::Spaces => line.split_whitespace().map(str::to_owned).collect(),
    }
}
