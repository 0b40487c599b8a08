//! Lines of cells, kept so that a table of millions of small cells costs little more than its text.

/// Lines of cells: all texts one behind the other, and where each ends.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Lines {
    text: String,
    /// Where each cell ends in the text.
    ends: Vec<usize>,
    lines: Vec<Kept>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Kept {
    number: usize,
    breaks: usize,
    /// How many cells the lines up to this one have, itself included.
    cells: usize,
}

/// One line.
#[derive(Clone, Copy, Debug)]
pub struct Line<'a> {
    /// Its number in the text, from 1.
    pub number: usize,
    /// Line ends inside its quoted cells: so many further lines of the text belong to it.
    pub breaks: usize,
    text: &'a str,
    ends: &'a [usize],
    begins: usize,
}

impl Lines {
    /// Puts a line behind the others.
    pub(crate) fn push<'c>(
        &mut self,
        number: usize,
        breaks: usize,
        cells: impl Iterator<Item = &'c str>,
    ) {
        for cell in cells {
            self.text.push_str(cell);
            self.ends.push(self.text.len());
        }
        let cells = self.ends.len();
        self.lines.push(Kept {
            number,
            breaks,
            cells,
        });
    }

    /// How many lines there are.
    #[must_use]
    pub const fn len(&self) -> usize {
        self.lines.len()
    }

    /// Whether there is none.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.lines.is_empty()
    }

    /// How many cells there are in all.
    pub(crate) const fn cells(&self) -> usize {
        self.ends.len()
    }

    /// The lines from one on, in the text's order.
    pub fn from(&self, first: usize) -> impl Iterator<Item = Line<'_>> + Clone {
        (first..self.lines.len()).filter_map(|at| self.line(at))
    }

    /// One of the lines.
    #[must_use]
    pub fn line(&self, at: usize) -> Option<Line<'_>> {
        let kept = self.lines.get(at)?;
        let before = at.checked_sub(1).and_then(|before| self.lines.get(before));
        let first = before.map_or(0, |before| before.cells);
        let begins = first.checked_sub(1).and_then(|last| self.ends.get(last));
        Some(Line {
            number: kept.number,
            breaks: kept.breaks,
            text: &self.text,
            ends: self.ends.get(first..kept.cells).unwrap_or_default(),
            begins: begins.copied().unwrap_or(0),
        })
    }
}

impl<'a> Line<'a> {
    /// Its cells from the left.
    pub fn cells(&self) -> impl Iterator<Item = &'a str> + use<'a> {
        let (text, mut from) = (self.text, self.begins);
        self.ends.iter().map(move |end| {
            let cell = text.get(from..*end).unwrap_or_default();
            from = *end;
            cell
        })
    }

    /// One of its cells.
    #[must_use]
    pub fn cell(&self, at: usize) -> Option<&'a str> {
        let end = *self.ends.get(at)?;
        let before = at.checked_sub(1).and_then(|before| self.ends.get(before));
        self.text.get(before.copied().unwrap_or(self.begins)..end)
    }

    /// How many cells it has.
    #[must_use]
    pub const fn width(&self) -> usize {
        self.ends.len()
    }

    /// Whether anything stands in it.
    #[must_use]
    pub fn is_filled(&self) -> bool {
        self.cells().any(|cell| !cell.trim().is_empty())
    }
}

#[cfg(test)]
mod tests {
    use super::Lines;

    #[test]
    fn cells_come_back_as_they_were_put() {
        let put: [&[&str]; 4] = [&["A", "", "0.8"], &[], &["\u{d8}"], &["", ""]];
        let mut lines = Lines::default();
        for (at, cells) in put.iter().enumerate() {
            lines.push(at + 1, at, cells.iter().copied());
        }
        assert_eq!((lines.len(), lines.cells()), (4, 6));
        for (at, cells) in put.iter().enumerate() {
            let line = lines.line(at).expect("a line");
            assert_eq!(line.cells().collect::<Vec<_>>(), *cells);
            assert_eq!((line.number, line.breaks), (at + 1, at));
            assert_eq!(line.width(), cells.len());
            for (at, cell) in cells.iter().enumerate() {
                assert_eq!(line.cell(at), Some(*cell));
            }
            assert_eq!(line.cell(cells.len()), None);
        }
        assert_eq!(lines.from(2).count(), 2);
        assert!(lines.line(4).is_none());
    }
}
