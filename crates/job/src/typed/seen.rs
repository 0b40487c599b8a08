//! Cells of one column that were read already: tables say the same thing in many of their rows.

use std::hash::{DefaultHasher, Hash, Hasher};

use crate::typed::entry::Entry;
use crate::typed::read_cell::{ReadIn, Reader};

/// Cells that are remembered of a column; the text tells which of the places is its own.
const PLACES: usize = 1024;

/// The cells of a column that were read last, all with the same basis of angles.
#[derive(Debug)]
pub(crate) struct Seen<T>(Vec<Entry<T>>);

impl<T> Default for Seen<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<T> Seen<T> {
    /// Reads a text, or gives what it was read as before.
    pub(crate) fn entry(&mut self, text: &str, read_in: ReadIn, reader: &Reader<T>) -> Entry<T> {
        if self.0.is_empty() {
            self.0.resize_with(PLACES, || Entry::EMPTY);
        }
        let Some(seen) = self.0.get_mut(place(text)) else {
            return reader.entry(text, read_in);
        };
        if let Some(again) = seen.again(text, read_in.unit) {
            return again;
        }
        let entry = reader.entry(text, read_in);
        seen.clone_from(&entry);
        entry
    }
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "any of its bits tell texts apart"
)]
fn place(text: &str) -> usize {
    let mut hasher = DefaultHasher::new();
    text.hash(&mut hasher);
    hasher.finish() as usize % PLACES
}

#[cfg(test)]
mod tests {
    use super::{PLACES, Seen};
    use crate::typed::entry::Unit;
    use crate::typed::read_cell::{ReadIn, SIZE};

    #[test]
    fn each_text_is_what_it_is_read_as_alone() {
        let mut seen = Seen::default();
        let texts: Vec<String> = (0..4 * PLACES)
            .map(|at| {
                ["0.8", "0,8 H7", "x", " ", "", "0.78-0.82"][at % 6].to_owned()
                    + &"0".repeat(at / 6 % 40)
            })
            .collect();
        for unit in [Unit::Mm, Unit::Inch, Unit::Mm] {
            let read_in = ReadIn {
                unit,
                basis: Default::default(),
            };
            for text in &texts {
                let (read, alone) = (seen.entry(text, read_in, &SIZE), SIZE.entry(text, read_in));
                assert_eq!(read.look(), alone.look(), "{text}");
                assert_eq!(read.value(), alone.value(), "{text}");
            }
        }
    }

    #[test]
    fn the_same_text_is_shared() {
        let mut seen = Seen::default();
        let read_in = ReadIn::default();
        let first = seen.entry("0.8", read_in, &SIZE);
        let again = seen.entry("0.8", read_in, &SIZE);
        let value = |entry: &super::Entry<_>| entry.value().map(std::ptr::from_ref);
        assert_eq!(value(&first), value(&again));
    }
}
