//! What can be found of a line by its letters.

use super::line::ShelfLine;
use super::summary::Summary;

/// Letters that most texts have room in.
const ROOM: usize = 200;

/// A name in a line's text that can be asked for by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Name {
    /// Who asked.
    Customer,
    /// The work material.
    Material,
    /// The machine.
    Machine,
}

impl Name {
    /// Every one.
    pub(super) const ALL: [Self; 3] = [Self::Customer, Self::Material, Self::Machine];
}

/// Where the customer, the material and the machine stand in a text, in bytes.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Names([[u32; 2]; 3]);

impl Names {
    /// One of them, out of the text.
    pub(super) fn of(self, name: Name, text: &[u8]) -> &[u8] {
        let [start, end] = self.0[name as usize];
        text.get(start as usize..end as usize).unwrap_or_default()
    }
}

/// What can be found of a line, in small letters, and the names in it.
#[derive(Clone, Debug, Default)]
pub(super) struct Text {
    pub(super) letters: String,
    pub(super) names: Names,
}

impl Text {
    /// The text of a line.
    pub(super) fn of(line: &ShelfLine) -> Self {
        let mut text = Self {
            letters: String::with_capacity(ROOM),
            names: Names::default(),
        };
        text.put(&line.name);
        let Ok(digest) = &line.says else { return text };
        let Summary {
            customer,
            part,
            part_name,
            revision,
            drawing,
            material,
            machine,
            references,
            notes,
            state,
            ..
        } = &digest.summary;
        text.put_next(part);
        text.put_name(Name::Customer, customer);
        text.put_next(part_name);
        text.put_next(revision);
        text.put_next(drawing);
        text.put_name(Name::Material, material);
        text.put_name(Name::Machine, machine);
        text.put_next(references);
        text.put_next(state);
        text.put_next(notes);
        text
    }

    /// One of its names.
    pub(super) fn name(&self, name: Name) -> &[u8] {
        self.names.of(name, self.letters.as_bytes())
    }

    fn put(&mut self, more: &str) {
        // Nearly all texts are plain letters, and are made small where they stand.
        if more.is_ascii() {
            let start = self.letters.len();
            self.letters.push_str(more);
            self.letters[start..].make_ascii_lowercase();
        } else {
            self.letters.push_str(&more.to_lowercase());
        }
    }

    fn put_next(&mut self, more: &str) {
        self.letters.push('\n');
        self.put(more);
    }

    fn put_name(&mut self, name: Name, more: &str) {
        let at = |text: &String| u32::try_from(text.len()).unwrap_or(u32::MAX);
        self.letters.push('\n');
        let start = at(&self.letters);
        self.put(more);
        self.names.0[name as usize] = [start, at(&self.letters)];
    }
}
