//! Cells that the hole table can't read as they stand: callouts taken apart, words of other languages
//! put into English, each only where every part can be read then.

use quillbore_job::{Column, Row, Unit, read_quantity as read, row};

use crate::callout::{self, Callout};
use crate::cell_words::{CellWord, TakenWord, cell_word, in_english};
use crate::column::ForeignColumn;
use crate::meaning::Meaning;
use crate::new_row::Cells;
use crate::words;

/// What was done to the cells of a line.
#[derive(Default)]
pub(crate) struct Mended {
    /// Each cell that was taken apart, and into what, in words.
    pub(crate) splits: Vec<String>,
    /// Each cell that was put into English, in words.
    pub(crate) read: Vec<String>,
    /// What of it is worth a look.
    pub(crate) guesses: Vec<String>,
    /// Words that were taken as others.
    pub(crate) words: Vec<TakenWord>,
    /// A callout with a depth that says of no end.
    deep: Option<String>,
}

impl Mended {
    /// Takes a callout in the size's cell apart: what stands beside the size in columns of its own
    /// can be joined to it only then.
    pub(crate) fn size(&mut self, cells: &mut Cells, unit: Unit) {
        let text = cells.get(&Column::Size);
        if let Some(callout) = text.and_then(|text| callout::split(text, unit)) {
            self.take_apart(cells, Column::Size, callout, unit);
        }
    }

    /// Ends a hole blind whose callout has a depth and no THRU, once nothing else of its line says where
    /// it ends.
    pub(crate) fn end_deep(&mut self, cells: &mut Cells) {
        let is_said = cells
            .get(&Column::End)
            .is_some_and(|end| !end.trim().is_empty());
        if let Some(deep) = self.deep.take().filter(|_| !is_said) {
            cells.insert(Column::End, CellWord::Blind.english().to_owned());
            self.guesses.push(words::blind_by_depth(&deep));
        }
    }

    /// Mends a cell that can't be read, where that is possible; true where it was.
    pub(crate) fn unread(
        &mut self,
        cells: &mut Cells,
        column: Column,
        says_end: Option<CellWord>,
        unit: Unit,
    ) -> bool {
        let Some(text) = cells.get(&column).cloned() else {
            return false;
        };
        // `Bohrung 3` is a mark and no count.
        let begins = text
            .trim_start()
            .starts_with(|letter: char| letter.is_ascii_digit());
        if let Some((english, words)) = in_english(&text, column)
            && (begins || column != Column::Count)
            && is_read(column, &english, unit)
        {
            self.read.push(words::read_as(&text, &english));
            cells.insert(column, english);
            self.words.extend(words);
            return true;
        }
        if let (Column::End, Some(said)) = (column, says_end)
            && let Some(english) = yes_as_end(&text, said)
        {
            self.read.push(words::read_as(&text, english));
            cells.insert(column, english.to_owned());
            self.words.push(TakenWord {
                word: text.trim().to_owned(),
                english,
            });
            return true;
        }
        let parts = match column {
            Column::Depth | Column::End => depth_and_end(&text, unit),
            Column::Count => callout::split(&text, unit),
            _ => None,
        };
        let Some(parts) = parts else {
            return false;
        };
        self.take_apart(cells, column, parts, unit);
        true
    }

    /// Puts the parts of a cell into cells of their own; what another cell of the line contradicts
    /// goes into the note.
    fn take_apart(&mut self, cells: &mut Cells, from: Column, callout: Callout, unit: Unit) {
        let cell = cells.insert(from, String::new()).unwrap_or_default();
        self.splits.push(words::split(&cell, &callout.parts));
        self.words.extend(callout.words);
        self.deep = callout.is_deep.then(|| cell.clone());
        for (column, part) in callout.parts {
            match cells.get(&column).filter(|there| !there.trim().is_empty()) {
                None => {
                    cells.insert(column, part);
                }
                Some(there) if reads_alike(column, there, &part, unit) => {}
                Some(_) => {
                    let note = cells.entry(Column::Note).or_default();
                    if !note.is_empty() {
                        note.push_str("; ");
                    }
                    note.push_str(&part);
                    self.guesses.push(words::part_in_note(&part, &cell, column));
                }
            }
        }
        // An empty cell would empty what it lies over.
        if cells.get(&from).is_some_and(String::is_empty) {
            cells.remove(&from);
        }
    }
}

/// `12 blind`, `thru 14`, `Sackloch 12 tief`: a depth and where the hole ends, in either order.
fn depth_and_end(text: &str, unit: Unit) -> Option<Callout> {
    let is_end = |word: &&str| {
        let said = cell_word(word, Column::End);
        matches!(
            said,
            Some(CellWord::Through | CellWord::Blind | CellWord::Into)
        )
    };
    let mut words = text.split(|letter: char| !letter.is_alphabetic());
    let end = words.find(is_end)?;
    let at = text.find(end)?;
    let (before, after) = (text.get(..at)?, text.get(at + end.len()..)?);
    let separators = |letter: char| letter.is_whitespace() || ",;-/".contains(letter);
    let depth = format!(
        "{} {}",
        before.trim_end_matches(separators),
        after.trim_matches(separators)
    );
    let mut callout = Callout::default();
    for (column, part) in [(Column::Depth, depth.trim()), (Column::End, end)] {
        let (part, words) = callout::as_read(column, part, unit)?;
        callout.parts.push((column, part));
        callout.words.extend(words);
    }
    Some(callout)
}

/// Where a hole ends, by a yes or no under a head that is a word for it.
pub(crate) fn yes_as_end(text: &str, said: CellWord) -> Option<&'static str> {
    let text = text.trim();
    let spoken = text.chars().all(char::is_alphabetic) || text == "\u{2713}";
    let english =
        in_english(text, Column::Backed).map_or_else(|| text.to_owned(), |(text, _)| text);
    let yes = read::yes_no(&english).ok().filter(|_| spoken)?;
    let through = (said == CellWord::Through) == yes;
    Some(
        if through {
            CellWord::Through
        } else {
            CellWord::Blind
        }
        .english(),
    )
}

/// The word for where a hole ends that the head of that column is; none where it is several or none.
pub(crate) fn end_in_head(columns: &[ForeignColumn]) -> Option<CellWord> {
    let mut columns = columns.iter();
    let end = columns.find(|column| column.holds(Meaning::Ours(Column::End)))?;
    end_of_head(&end.head.text)
}

/// The word for where a hole ends that a head has; none where it has several or none.
pub(crate) fn end_of_head(head: &str) -> Option<CellWord> {
    let words = head.split(|letter: char| !letter.is_alphabetic());
    let said: Vec<CellWord> = words
        .filter_map(|word| cell_word(word, Column::End))
        .filter(|said| matches!(said, CellWord::Through | CellWord::Blind))
        .collect();
    match said.as_slice() {
        [one] => Some(*one),
        _ => None,
    }
}

fn is_read(column: Column, text: &str, unit: Unit) -> bool {
    let mut tried = Row::default();
    row::put(&mut tried, column, text, unit, Default::default());
    tried.cell(column).why.is_none()
}

fn reads_alike(column: Column, one: &str, other: &str, unit: Unit) -> bool {
    let read = |text: &str| {
        let mut tried = Row::default();
        row::put(&mut tried, column, text, unit, Default::default());
        tried
    };
    let (one, other) = (read(one), read(other));
    one.cell(column).why.is_none() && one.reads_alike(&other, column)
}
