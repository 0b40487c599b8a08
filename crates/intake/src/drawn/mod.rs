//! Holes of a drawing or a solid on their way into the hole table: alike ones are one row, somebody chooses
//! which are to be drilled.

mod cells;
mod chart_line;
mod choice;
mod far;
mod guesses;
mod kinds;
mod marks;
mod take;

pub(crate) use cells::length;
pub use choice::KindView;
pub(crate) use marks::Marks;

use quillbore_calc::quantity::MM_PER_INCH;
use quillbore_job::Unit;
use quillbore_job::report::{FileStamp, Source};

use crate::dxf::{self, DxfError};
use crate::seen::{Seen, UnitNote};
use crate::step::{self, StepError};
use crate::watch::Watch;
use crate::words::drawn as words;

/// A drawing or a solid that was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    from: Source,
    shows: Shows,
    seen: Seen,
    /// The unit of its lengths, by its own word or somebody's.
    unit: Option<Unit>,
    /// Millimeters in one of the file's numbers, as they are read now.
    number_mm: f64,
    /// True where somebody's word stands against the file's.
    is_overruled: bool,
    /// Holes that are alike in everything but their places, by their places in `seen`.
    kinds: Vec<Vec<usize>>,
    /// Which holes are to be drilled, in the order of `seen`.
    taken: Vec<bool>,
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
    /// Its settings say another unit than a text in it.
    UnitsDiffer(UnitNote),
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
    /// Reads the holes of a file, all of which are chosen at first; `watch` hears now and then how far it is.
    ///
    /// # Errors
    /// Where it can't be read, or shows no hole.
    pub fn read(
        shows: Shows,
        bytes: &[u8],
        name: &str,
        watch: Watch<'_>,
    ) -> Result<Self, DrawnError> {
        let seen = match shows {
            Shows::Drawing => dxf::read(bytes, watch).map_err(DrawnError::Drawing)?,
            Shows::Solid => step::read(bytes, watch).map_err(DrawnError::Solid)?,
        };
        if seen.holes.is_empty() {
            return Err(DrawnError::NoHoles(words::refused(&seen.refused)));
        }
        let unit = seen.unit_mm.map(|mm| {
            let is_inch = (mm / MM_PER_INCH - 1.0).abs() < 1e-9;
            if is_inch { Unit::Inch } else { Unit::Mm }
        });
        Ok(Self {
            from: Source::named(name),
            shows,
            kinds: kinds::kinds(&seen.holes),
            taken: vec![true; seen.holes.len()],
            number_mm: seen.unit_mm.unwrap_or(1.0),
            is_overruled: false,
            seen,
            unit,
        })
    }

    /// The unit of its lengths, where the file or somebody says it.
    #[must_use]
    pub const fn unit(&self) -> Option<Unit> {
        self.unit
    }

    /// Says what unit the file's numbers are in, of a drawing also against its header, which is often that of a
    /// template; a solid that names its unit is in it. Nothing changes where the file's own is a multiple of it.
    pub fn say_unit(&mut self, unit: Unit) {
        let is_sure = self.shows == Shows::Solid && self.seen.unit_mm.is_some();
        if self.unit == Some(unit) || is_sure {
            return;
        }
        let mm = match unit {
            Unit::Mm => 1.0,
            Unit::Inch => MM_PER_INCH,
        };
        self.seen.scale(mm / self.number_mm);
        self.number_mm = mm;
        self.is_overruled = self.seen.unit_mm.is_some();
        self.unit = Some(unit);
    }

    /// The same, with what tells its file's content from another's: the report keeps it.
    #[must_use]
    pub fn stamped(mut self, stamp: FileStamp) -> Self {
        self.from = self.from.stamped(stamp);
        self
    }

    /// Where it came from.
    #[must_use]
    pub const fn from(&self) -> &Source {
        &self.from
    }

    /// What was read of the file; before its unit is known, in the file's own numbers, else in millimeters.
    #[must_use]
    pub const fn seen(&self) -> &Seen {
        &self.seen
    }

    /// What looks like a hole and was not taken, and texts that belong to none.
    #[must_use]
    pub fn told(&self) -> Vec<String> {
        let unit = self.unit.unwrap_or_default();
        let doubts = self.seen.doubts.iter();
        let doubts = doubts.map(|doubt| words::doubt(doubt, unit));
        words::refused(&self.seen.refused)
            .into_iter()
            .chain(words::loose(&self.seen.loose))
            .chain(doubts)
            .collect()
    }

    /// What the file makes one guess of its unit, where it doesn't say it.
    #[must_use]
    pub fn evidence(&self) -> Option<String> {
        let is_open = self.unit.is_none();
        let smallest = self.kinds().next().map_or(0.0, |kind| kind.first.diameter);
        is_open.then(|| match &self.seen.unit_note {
            Some(note) => words::unit_note(note),
            None => words::evidence(self.seen.size(), smallest, self.seen.hint_mm),
        })
    }
}

/// Lengths nearer than this are one [mm].
const NEAR_MM: f64 = 1e-6;
