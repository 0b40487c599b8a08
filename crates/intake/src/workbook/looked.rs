//! What stands in the parts of a workbook that its cells don't tell, seen as they are unpacked.

use std::io::Write;

use memchr::memmem::Finder;

/// What was seen in a workbook's parts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Seen {
    /// A sheet may have merged cells: to be told them the library reads it once more.
    pub(crate) may_merge: bool,
    /// Rows or columns are hidden, by hand or by a filter.
    pub(crate) hides: bool,
    /// Text is struck out.
    pub(crate) strikes: bool,
    /// Cells have comments.
    pub(crate) comments: bool,
}

impl Seen {
    /// What was seen here or there.
    pub(super) const fn and(self, other: Self) -> Self {
        Self {
            may_merge: self.may_merge || other.may_merge,
            hides: self.hides || other.hides,
            strikes: self.strikes || other.strikes,
            comments: self.comments || other.comments,
        }
    }
}

/// A part that is looked through as it goes by.
pub(super) struct Looked {
    words: Vec<(Finder<'static>, Seen)>,
    /// The end of what came before, which a word may begin in.
    end: Vec<u8>,
    pub(super) seen: Seen,
}

/// Longest word that is looked for.
const LONGEST: usize = 40;

const NONE: Seen = Seen {
    may_merge: false,
    hides: false,
    strikes: false,
    comments: false,
};
const MERGES: Seen = Seen {
    may_merge: true,
    ..NONE
};
const HIDES: Seen = Seen {
    hides: true,
    ..NONE
};
const STRIKES: Seen = Seen {
    strikes: true,
    ..NONE
};
const COMMENTS: Seen = Seen {
    comments: true,
    ..NONE
};

impl Looked {
    /// A part of this name.
    pub(super) fn of(name: &str) -> Self {
        let name = name.to_lowercase();
        let words: &[(&'static str, Seen)] = if name.contains("worksheets/") {
            &[
                ("mergeCells", MERGES),
                (" hidden=\"1\"", HIDES),
                (" hidden=\"true\"", HIDES),
                ("<strike", STRIKES),
            ]
        } else if name.ends_with("sharedstrings.xml") {
            &[("<strike", STRIKES)]
        } else if name == "content.xml" {
            &[
                ("table:visibility=\"collapse\"", HIDES),
                ("table:visibility=\"filter\"", HIDES),
                ("<office:annotation", COMMENTS),
                ("text-line-through-style=\"solid\"", STRIKES),
            ]
        } else {
            &[("mergeCells", MERGES)]
        };
        Self {
            words: words
                .iter()
                .map(|(word, seen)| (Finder::new(*word), *seen))
                .collect(),
            end: Vec::new(),
            seen: Seen {
                comments: name.contains("comments") && name.ends_with(".xml"),
                ..NONE
            },
        }
    }
}

impl Write for Looked {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        self.end.extend(bytes.iter().take(LONGEST));
        for (word, seen) in &self.words {
            if word.find(&self.end).is_some() || word.find(bytes).is_some() {
                self.seen = self.seen.and(*seen);
            }
        }
        // What isn't written byte for byte may have merged cells.
        self.seen.may_merge |= memchr::memchr(0, bytes).is_some();
        let unseen = bytes.len().saturating_sub(LONGEST).max(LONGEST);
        self.end.extend(bytes.iter().skip(unseen));
        let surplus = self.end.len().saturating_sub(LONGEST);
        self.end.drain(..surplus);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use std::io::Write as _;

    use super::{Looked, Seen};

    fn seen(name: &str, text: &[u8], piece: usize) -> Seen {
        let mut looked = Looked::of(name);
        for part in text.chunks(piece) {
            looked.write_all(part).expect("it takes all");
        }
        looked.seen
    }

    #[test]
    fn words_are_seen_however_the_part_is_cut() {
        let sheet = "xl/worksheets/sheet1.xml";
        let with = b"<sheetData><row r=\"1\" hidden=\"1\"/></sheetData><x:mergeCells count=\"1\"/></worksheet>";
        let without = b"<sheetData><row r=\"1\" hidden=\"0\"/></sheetData><x:mergeCell count=\"1\"/>s</worksheet>";
        for piece in 1..=with.len() {
            let found = seen(sheet, with, piece);
            assert!(found.may_merge && found.hides, "{piece}");
            assert_eq!(seen(sheet, without, piece), Seen::default(), "{piece}");
        }
        let wide: Vec<u8> = with.iter().flat_map(|byte| [*byte, 0]).collect();
        assert!(seen(sheet, &wide, 7).may_merge);
        assert!(seen("xl/comments1.xml", b"<comments/>", 3).comments);
        assert!(seen("content.xml", b"<office:annotation>", 5).comments);
        assert!(!seen("xl/drawings/drawing1.xml", b" hidden=\"1\"", 5).hides);
    }
}
