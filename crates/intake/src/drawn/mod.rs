//! Holes of a drawing or a solid on their way into the hole table: alike ones are one row, somebody chooses
//! which are to be drilled.

mod cells;
mod kinds;

pub(crate) use cells::length;

use std::sync::Arc;

use quillbore_calc::input::Place;
use quillbore_calc::quantity::MM_PER_INCH;
use quillbore_job::report::{Report, Source};
use quillbore_job::{Column, Edit, Field, Job, RowsAt, Unit};

use crate::dxf::{self, DxfError};
use crate::new_row::NewRow;
use crate::seen::{Seen, SeenHole};
use crate::step::{self, StepError};
use crate::table::{Taken, edit_of};
use crate::words::drawn as words;

/// A drawing or a solid that was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    name: String,
    seen: Seen,
    /// The unit of its lengths, by its own word or somebody's.
    unit: Option<Unit>,
    kinds: Vec<HoleKind>,
}

/// Holes that are alike in everything but their places.
#[derive(Clone, Debug, PartialEq)]
pub struct HoleKind {
    /// Which of the holes.
    pub(crate) holes: Vec<usize>,
    /// They are to be drilled.
    pub is_taken: bool,
}

/// Why nothing of a drawing or a solid could be taken.
#[derive(Clone, Debug, PartialEq)]
pub enum DrawnError {
    /// A drawing that can't be read.
    Drawing(DxfError),
    /// A solid that can't be read.
    Solid(StepError),
    /// It shows no hole; what looks like one, and why it was not taken.
    NoHoles(Vec<String>),
    /// None of its holes was chosen.
    NoneTaken,
    /// It doesn't say its unit; how large what is drawn is, in its own numbers.
    WhichUnit(Option<[f64; 3]>),
}

/// Files that show holes in place of listing them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shows {
    /// A drawing exchange file.
    Drawing,
    /// A STEP file.
    Solid,
}

impl Shows {
    /// What a file of this name and these bytes shows; `None` where it is neither.
    #[must_use]
    pub fn of(bytes: &[u8], name: &str) -> Option<Self> {
        let ends = |ends: &str| name.to_lowercase().ends_with(ends);
        let begins = bytes.trim_ascii_start();
        if ends(".dxf") || ends(".dwg") || bytes.starts_with(b"AutoCAD Binary DXF") {
            Some(Self::Drawing)
        } else if [".step", ".stp", ".p21"].into_iter().any(ends)
            || begins.starts_with(b"ISO-10303-21")
        {
            Some(Self::Solid)
        } else {
            None
        }
    }
}

impl Drawn {
    /// Reads the holes of a file; `cancel` is asked now and then whether it shall stop.
    ///
    /// # Errors
    /// Where it can't be read, or shows no hole.
    pub fn read(
        shows: Shows,
        bytes: &[u8],
        name: &str,
        cancel: &dyn Fn() -> bool,
    ) -> Result<Self, DrawnError> {
        let seen = match shows {
            Shows::Drawing => dxf::read(bytes, cancel).map_err(DrawnError::Drawing)?,
            Shows::Solid => step::read(bytes, cancel).map_err(DrawnError::Solid)?,
        };
        if seen.holes.is_empty() {
            return Err(DrawnError::NoHoles(words::refused(&seen.refused)));
        }
        let unit = seen.unit_mm.map(|mm| {
            let is_inch = (mm / MM_PER_INCH - 1.0).abs() < 1e-9;
            if is_inch { Unit::Inch } else { Unit::Mm }
        });
        Ok(Self {
            name: name.to_owned(),
            kinds: kinds::kinds(&seen.holes),
            seen,
            unit,
        })
    }

    /// The unit of its lengths, where the file or somebody says it.
    #[must_use]
    pub const fn unit(&self) -> Option<Unit> {
        self.unit
    }

    /// Says what unit its lengths are in; nothing changes where the file says so itself.
    pub fn say_unit(&mut self, unit: Unit) {
        if self.unit.is_none() {
            self.unit = Some(unit);
            if unit == Unit::Inch {
                self.seen.scale(MM_PER_INCH);
            }
        }
    }

    /// Chooses the holes whose diameters lie between two [mm], and no others.
    pub fn only_between(&mut self, least_mm: f64, most_mm: f64) {
        let near = NEAR_MM;
        for kind in &mut self.kinds {
            let first = kind.holes.first().and_then(|at| self.seen.holes.get(*at));
            kind.is_taken = first
                .is_some_and(|hole| (least_mm - near..=most_mm + near).contains(&hole.diameter));
        }
    }

    /// The kinds of its holes, by rising diameter, each with its first hole and how many there are.
    pub fn kinds(&self) -> impl Iterator<Item = (&HoleKind, &SeenHole, usize)> {
        self.kinds.iter().filter_map(|kind| {
            let first = self.seen.holes.get(*kind.holes.first()?)?;
            Some((kind, first, kind.holes.len()))
        })
    }

    /// Takes the chosen holes as rows of a job's hole table, and the part's size where the job has none.
    ///
    /// # Errors
    /// Where its unit is not known, or no hole is chosen.
    pub fn take(&self, job: &Job, at: RowsAt) -> Result<Taken, DrawnError> {
        let Some(unit) = self.unit else {
            return Err(DrawnError::WhichUnit(self.seen.size()));
        };
        let taken: Vec<&HoleKind> = self.kinds.iter().filter(|kind| kind.is_taken).collect();
        if taken.is_empty() {
            return Err(DrawnError::NoneTaken);
        }
        let mut marks = Marks::beside(job, at);
        let mut whole = vec![words::unit(unit, self.seen.unit_mm.is_some())];
        let mut rows = Vec::new();
        let mut number = 0_u32;
        for kind in taken {
            let holes = kind.holes.iter().filter_map(|at| self.seen.holes.get(*at));
            let holes: Vec<&SeenHole> = holes.collect();
            let Some(first) = holes.first() else { continue };
            let mark = marks.next();
            let (mut cells, doubts) = cells::cells(first, unit);
            cells.insert(Column::Mark, mark.clone());
            cells.insert(Column::Count, holes.len().to_string());
            let places = holes.iter().map(|hole| {
                number = number.saturating_add(1);
                Place {
                    number,
                    point_mm: hole.entry,
                    axis: hole.axis,
                }
            });
            let places = places.collect();
            whole.push(words::row(&mark, &holes, unit));
            whole.extend(doubts.into_iter().map(|doubt| words::of_row(&mark, &doubt)));
            rows.push(NewRow { cells, places });
        }
        let left = self.kinds.iter().filter(|kind| !kind.is_taken);
        let left = left.filter_map(|kind| {
            Some((self.seen.holes.get(*kind.holes.first()?)?, kind.holes.len()))
        });
        whole.extend(words::left(left, unit));
        whole.extend(words::refused(&self.seen.refused));
        whole.extend(words::loose(&self.seen.loose));
        let report = Report {
            from: Source::File(self.name.clone()),
            whole,
            taken: 0,
            lines: Vec::new(),
        };
        let count = rows.len();
        let table = edit_of(at, rows, unit, Some(Arc::new(report.clone())));
        Ok(Taken {
            edit: self.with_size(job, table, unit),
            rows: count,
            report,
        })
    }

    /// The edit, with the size of the part where nobody gave one.
    fn with_size(&self, job: &Job, table: Edit, unit: Unit) -> Edit {
        let fields = [Field::SizeX, Field::SizeY, Field::SizeZ];
        let is_open = fields.iter().all(|field| job.field(*field).is_empty());
        let Some(size) = self.seen.size().filter(|_| is_open) else {
            return table;
        };
        let sizes = fields
            .into_iter()
            .zip(size)
            .filter(|(_, size)| *size > NEAR_MM);
        let sizes = sizes.map(|(field, size)| Edit::SetField {
            field,
            text: length(size, unit, 3),
            unit,
        });
        Edit::Together {
            edits: sizes.chain([table]).collect(),
        }
    }
}

/// Lengths nearer than this are one [mm].
const NEAR_MM: f64 = 1e-6;

/// Marks that no other row has: A to Z, AA and so on.
pub(crate) struct Marks {
    there: Vec<String>,
    next: usize,
}

impl Marks {
    pub(crate) fn beside(job: &Job, at: RowsAt) -> Self {
        let stay = match at {
            RowsAt::Append => job.rows.len(),
            RowsAt::Over { row } => row,
            RowsAt::Replace => 0,
        };
        let there = job.rows.iter().take(stay);
        Self {
            there: there
                .map(|row| row.mark.text().trim().to_uppercase())
                .collect(),
            next: 0,
        }
    }

    pub(crate) fn next(&mut self) -> String {
        loop {
            let mark = letters(self.next);
            self.next += 1;
            if !self.there.contains(&mark) {
                return mark;
            }
        }
    }
}

fn letters(mut at: usize) -> String {
    let mut letters = Vec::new();
    loop {
        letters.push(char::from(b'A' + u8::try_from(at % 26).unwrap_or(0)));
        match (at / 26).checked_sub(1) {
            Some(before) => at = before,
            None => return letters.into_iter().rev().collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::letters;

    #[test]
    fn marks_go_on_behind_the_alphabet() {
        let marks = [0, 25, 26, 51, 52, 701, 702].map(letters);
        assert_eq!(marks, ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]);
    }
}
