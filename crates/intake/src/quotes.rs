//! Cells in quotes, and quotes that are none: a ditto mark, an inch sign, one that was never closed.
//!
//! A quoted cell of RFC 4180 may hold separators and line ends, so a single quote at the beginning of
//! a cell could take all the lines up to the next one with it. It is believed only where it closes at
//! a cell's end and what it would hold looks like no lines of the table.

use std::borrow::Cow;

/// Most line ends in a cell that is still believed to be one.
const MOST_BREAKS: usize = 100;

/// How a text is parted.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Parted {
    /// What separates the cells.
    pub(crate) separator: u8,
    /// How many cells most of its lines have, quotes not heeded.
    pub(crate) usual: usize,
}

/// A cell, and where what follows it begins: a separator, a line end, or the text's end.
pub(crate) struct Read<'a> {
    pub(crate) cell: Cow<'a, str>,
    pub(crate) end: usize,
    /// Line ends inside it.
    pub(crate) breaks: usize,
}

impl Parted {
    /// What the lines of a text are like; the first thousand tell.
    pub(crate) fn of(text: &str, separator: u8) -> Self {
        const LOOKED_AT: usize = 1_000;
        let lines = text.split(['\n', '\r']);
        let lines = lines.filter(|line| !line.trim().is_empty());
        let mut counts: Vec<usize> = lines
            .take(LOOKED_AT)
            .map(|line| cells_of(line, separator))
            .collect();
        counts.sort_unstable();
        let most = counts.chunk_by(|a, b| a == b).max_by_key(|same| same.len());
        let usual = most.and_then(|same| same.first()).copied().unwrap_or(1);
        Self { separator, usual }
    }

    /// The cell that begins at a place of the text.
    pub(crate) fn cell<'a>(&self, text: &'a str, at: usize) -> Read<'a> {
        let rest = text.as_bytes().get(at..).unwrap_or_default();
        if rest.first() == Some(&b'"')
            && let Some(read) = self.quoted(text, at)
            && self.is_believed(text, at, &read)
        {
            return read;
        }
        let ends = |letter: &u8| self.is_end(Some(*letter));
        let end = at + rest.iter().position(ends).unwrap_or(rest.len());
        Read {
            cell: Cow::Borrowed(text.get(at..end).unwrap_or_default()),
            end,
            breaks: 0,
        }
    }

    /// A cell in quotes, where they close at its end.
    fn quoted<'a>(&self, text: &'a str, at: usize) -> Option<Read<'a>> {
        let bytes = text.as_bytes();
        let (mut cell, mut from, mut now) = (Cow::Borrowed(""), at + 1, at + 1);
        let mut breaks = 0;
        loop {
            match bytes.get(now)? {
                b'"' if bytes.get(now + 1) == Some(&b'"') => {
                    cell += text.get(from..=now)?;
                    now += 2;
                    from = now;
                }
                b'"' => {
                    cell += text.get(from..now)?;
                    let end = now + 1;
                    let closes = self.is_end(bytes.get(end).copied());
                    return closes.then_some(Read { cell, end, breaks });
                }
                b'\r' | b'\n' => {
                    breaks += 1;
                    now = past_line_end(bytes, now);
                    if breaks > MOST_BREAKS {
                        return None;
                    }
                }
                _ => now += 1,
            }
        }
    }

    /// Whether what stands in quotes is one cell, and not the rest of a line, or lines, between two
    /// marks that have nothing to do with each other.
    fn is_believed(&self, text: &str, at: usize, read: &Read<'_>) -> bool {
        let inside = text.get(at + 1..read.end - 1).unwrap_or_default();
        let starts = inside.as_bytes().first().copied();
        // The quote is a cell by itself, as a ditto mark is: nothing at all in quotes is a cell.
        let alone = starts.is_some() && self.is_end(starts);
        if read.breaks > 0 {
            let mut further = inside.split(['\n', '\r']).skip(1);
            let like_lines =
                self.usual > 1 && further.any(|line| cells_of(line, self.separator) >= self.usual);
            return !alone && !like_lines;
        }
        if !alone {
            return true;
        }
        let line = line_around(text, at);
        let quoted =
            cells_of(line, self.separator).saturating_sub(cells_of(inside, self.separator) - 1);
        quoted == self.usual && cells_of(line, self.separator) != self.usual
    }

    /// Whether a cell ends before this.
    fn is_end(&self, next: Option<u8>) -> bool {
        next.is_none_or(|next| next == self.separator || matches!(next, b'\r' | b'\n'))
    }
}

/// Where the line after a line end begins.
pub(crate) fn past_line_end(bytes: &[u8], at: usize) -> usize {
    match bytes.get(at..) {
        Some([b'\r', b'\n', ..]) => at + 2,
        _ => at + 1,
    }
}

/// Cells of a line, quotes not heeded.
fn cells_of(line: &str, separator: u8) -> usize {
    1 + line.bytes().filter(|byte| *byte == separator).count()
}

/// The line of the text that a place stands in.
fn line_around(text: &str, at: usize) -> &str {
    let (before, after) = text.split_at_checked(at).unwrap_or((text, ""));
    let begins = before.rfind(['\n', '\r']).map_or(0, |end| end + 1);
    let ends = after.find(['\n', '\r']).map_or(text.len(), |end| at + end);
    text.get(begins..ends).unwrap_or_default()
}
