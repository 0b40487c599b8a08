//! Where a row ends and its angle, read from its remarks where nothing else of its line says so.

use std::collections::BTreeMap;

use quillbore_calc::input::HoleEnd;
use quillbore_job::field::AngleBasis;
use quillbore_job::{Column, Row, read_quantity as read};

use crate::angle_in_note::{AngleSaid, angle_in};
use crate::cell_words::CellWord;
use crate::clauses::{Remark, without_loose_accents};
use crate::end_in_note::{EndSaid, end_in};
use crate::new_row::Cells;
use crate::summary::FromNotes;
use crate::words::notes as words;

/// Which cells of the rows that a table lies over are filled: a remark changes none of them.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Kept {
    pub(crate) end: bool,
    pub(crate) angle: bool,
}

impl Kept {
    /// What some rows have.
    pub(crate) fn of<'a>(rows: impl Iterator<Item = &'a Row>) -> Self {
        let mut kept = Self::default();
        for row in rows {
            kept.end |= !row.end.text().trim().is_empty() || end_of(row).is_some();
            kept.angle |= !row.angle.text().trim().is_empty();
        }
        kept
    }
}

/// Remarks that most tables have often, each read once.
#[derive(Debug, Default)]
pub(crate) struct NotesRead(BTreeMap<String, Says>);

/// Remarks that are kept with what they say.
const MOST_KEPT: usize = 1_000;

/// What a remark says.
#[derive(Debug)]
struct Says {
    end: EndSaid,
    angle: AngleSaid,
}

impl NotesRead {
    fn of(&mut self, note: &str) -> &Says {
        if self.0.len() >= MOST_KEPT && !self.0.contains_key(note) {
            self.0.clear();
        }
        self.0.entry(note.to_owned()).or_insert_with(|| {
            let plain = without_loose_accents(note);
            let remark = Remark::of(&plain);
            Says {
                end: end_in(&remark),
                angle: angle_in(&remark),
            }
        })
    }
}

/// A line's remarks, and what its other cells were read as.
pub(crate) struct Remarks<'a> {
    pub(crate) texts: &'a [String],
    pub(crate) row: &'a Row,
    pub(crate) basis: AngleBasis,
    pub(crate) kept: Kept,
}

impl Remarks<'_> {
    /// Reads them into the cells of the line; what is told of that is added to `says`.
    pub(crate) fn read(
        &self,
        notes: &mut NotesRead,
        cells: &mut Cells,
        says: &mut Vec<String>,
    ) -> FromNotes {
        let filled =
            |(column, text): (&Column, &String)| *column != Column::Note && !text.trim().is_empty();
        let mut found = FromNotes::default();
        // Words by themselves are no hole.
        if self.texts.is_empty() || !cells.iter().any(filled) {
            return found;
        }
        let note = self.texts.join("; ");
        let mark = cells.get(&Column::Mark).map_or("", |mark| mark.trim());
        let of = words::Of { mark, note: &note };
        let said = notes.of(&note);
        let end = self.end(&said.end, of, says);
        let angle = self.angle(&said.angle, of, says);
        let in_doubt = [&end, &angle].contains(&&Found::InDoubt);
        found.in_doubt = usize::from(in_doubt);
        if let Found::Read(end) = end {
            found.ends = 1;
            cells.insert(Column::End, end);
        }
        if let Found::Read(angle) = angle {
            found.angles = 1;
            cells.insert(Column::Angle, angle);
        }
        found
    }

    fn end(&self, said: &EndSaid, of: words::Of<'_>, says: &mut Vec<String>) -> Found {
        if *said == EndSaid::Nothing
            || !self.row.end.text().trim().is_empty() && self.row.end.value().is_none()
        {
            return Found::Nothing;
        }
        match (said, end_of(self.row)) {
            (EndSaid::Is(end), None) if !self.kept.end => {
                says.push(of.end_read(end.english()));
                Found::Read(end.english().to_owned())
            }
            (EndSaid::Is(end), None) => {
                says.push(of.not_over_ends(end.english()));
                Found::InDoubt
            }
            (_, None) => {
                says.push(of.end_in_doubt());
                Found::InDoubt
            }
            (EndSaid::Is(end), Some(there)) if *end != there => {
                says.push(of.end_stands(end.english(), there.english()));
                Found::Nothing
            }
            (EndSaid::InDoubt { names, denies }, Some(there))
                if *denies || names.iter().any(|end| *end != there) =>
            {
                says.push(of.other_end_stands(there.english()));
                Found::Nothing
            }
            (_, Some(_)) => Found::Nothing,
        }
    }

    fn angle(&self, said: &AngleSaid, of: words::Of<'_>, says: &mut Vec<String>) -> Found {
        let read = |text: &str| read::tilt(text, self.basis).ok();
        let there = self.row.angle.text().trim();
        match said {
            AngleSaid::Nothing => Found::Nothing,
            AngleSaid::Is(angle) if there.is_empty() => match read(angle) {
                Some(_) if self.kept.angle => {
                    says.push(of.not_over_angles(angle));
                    Found::InDoubt
                }
                Some(_) => {
                    says.push(of.angle_read(angle));
                    Found::Read(angle.clone())
                }
                None => {
                    says.push(of.angle_in_doubt());
                    Found::InDoubt
                }
            },
            AngleSaid::Is(angle) => {
                let differs = self.row.angle.value().is_some_and(|there| {
                    read(angle).is_none_or(|said| said.from_normal != there.from_normal)
                });
                if differs {
                    says.push(of.angle_stands(angle, there));
                }
                Found::Nothing
            }
            AngleSaid::InDoubt if there.is_empty() => {
                says.push(of.angle_in_doubt());
                Found::InDoubt
            }
            AngleSaid::InDoubt => Found::Nothing,
        }
    }
}

/// What came of the remarks for one cell.
#[derive(PartialEq, Eq)]
enum Found {
    Nothing,
    Read(String),
    InDoubt,
}

/// The end that a row says, in its own cell or beside its depth.
pub(crate) fn end_of(row: &Row) -> Option<CellWord> {
    let through = row.depth.value().is_some_and(|depth| depth.through);
    match row.end.value() {
        Some(HoleEnd::Through) => Some(CellWord::Through),
        Some(HoleEnd::Blind) => Some(CellWord::Blind),
        Some(HoleEnd::Into) => Some(CellWord::Into),
        None => through.then_some(CellWord::Through),
    }
}
