//! One row of the hole table: a specification with its places.

use std::sync::Arc;

use quillbore_calc::input::{Ends, HoleEnd, Place, Surface};
use quillbore_calc::{Length, RowId};

use crate::entry::Entry;
use crate::field::TiltAngle;

/// One specification of holes; its places share everything but number, point and axis.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Row {
    /// Identity, never reused in this job.
    pub id: RowId,
    /// The letter or mark on the drawing.
    pub mark: Entry<String>,
    /// Holes of this row in one part.
    pub count: Entry<u32>,
    /// Diameter with its limits.
    pub size: Entry<Size>,
    /// Depth on the hole's axis.
    pub depth: Entry<Depth>,
    /// Where the hole ends.
    pub end: Entry<HoleEnd>,
    /// Angle at the entry.
    pub angle: Entry<TiltAngle>,
    /// Surface at the entry.
    pub surface: Entry<Surface>,
    /// Free distance behind the exit.
    pub behind: Entry<Length>,
    /// Backing behind the exit.
    pub backed: Entry<bool>,
    /// Layers from the entry on.
    pub layers: Entry<Vec<LayerText>>,
    /// A loose core could be trapped.
    pub core_trapped: Entry<bool>,
    /// Ends that it is drilled from; empty lets the calculation choose.
    pub ends: Entry<Ends>,
    /// The shop's name of the tube; empty lets the calculation choose.
    pub tube: Entry<String>,
    /// Holes between two dressings of the electrode's tip, 0 for none; empty leaves it to the
    /// trade's rule.
    pub dress_every: Entry<u32>,
    /// What else the drawing says.
    pub note: Entry<String>,
    /// Places, where the drawing gives them.
    pub places: Arc<Vec<Place>>,
}

/// A diameter with its limits, as the drawing gives it.
#[derive(Clone, Debug, PartialEq)]
pub struct Size {
    /// Nominal diameter, where the text has one.
    pub nominal: Option<Length>,
    /// Lower limit; zero where only a maximum was given.
    pub lower: Length,
    /// Upper limit.
    pub upper: Length,
    /// How the limits were given.
    pub given: LimitsGiven,
}

/// A depth on the hole's axis, as the drawing gives it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Depth {
    /// The text says that the hole goes through.
    pub through: bool,
    /// Nominal depth, where the text has one.
    pub nominal: Option<Length>,
    /// Lower and upper limit, where the text has them.
    pub limits: Option<[Length; 2]>,
    /// What is aimed at: the middle of the limits, else the nominal depth; `None` where the text
    /// says through and no more.
    pub aim: Option<Length>,
}

/// How a size's limits were given.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LimitsGiven {
    /// `0.80 +-0.02`.
    PlusMinus,
    /// `.031 +.003/-0`.
    Unequal,
    /// `0.78-0.82`, `0.82/0.78`.
    Pair,
    /// `0.82 MAX`.
    Max,
    /// `3 H7`, looked up in ISO 286.
    FitClass(String),
    /// No limits in the text: lower and upper equal the nominal until a default tolerance is known.
    None,
}

/// One layer as typed: material by name, the job's own where it says nothing.
#[derive(Clone, Debug, PartialEq)]
pub struct LayerText {
    /// The shop's name of the material; `None` for the job's own.
    pub material: Option<String>,
    /// Thickness along the hole's axis.
    pub thickness: Length,
}

/// A column of the hole table, in the table's order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Column {
    /// Mark.
    Mark,
    /// Count.
    Count,
    /// Size with limits.
    Size,
    /// Depth on the axis.
    Depth,
    /// Through, into, blind.
    End,
    /// Angle.
    Angle,
    /// Surface at the entry.
    Surface,
    /// Free distance behind the exit.
    Behind,
    /// Backed.
    Backed,
    /// Layers.
    Layers,
    /// Core trapped.
    CoreTrapped,
    /// Ends.
    Ends,
    /// Tube.
    Tube,
    /// Dress every so many holes.
    DressEvery,
    /// Note.
    Note,
}

impl Column {
    /// Every column, in the table's order.
    pub const ALL: &[Self] = &[
        Self::Mark,
        Self::Count,
        Self::Size,
        Self::Depth,
        Self::End,
        Self::Angle,
        Self::Surface,
        Self::Behind,
        Self::Backed,
        Self::Layers,
        Self::CoreTrapped,
        Self::Ends,
        Self::Tube,
        Self::DressEvery,
        Self::Note,
    ];

    /// Whether a bare number of it is in the unit that the job is typed in.
    #[must_use]
    pub const fn is_measured(self) -> bool {
        matches!(
            self,
            Self::Size | Self::Depth | Self::Surface | Self::Behind | Self::Layers
        )
    }

    /// The column's name in files: never changed once released.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Mark => "mark",
            Self::Count => "count",
            Self::Size => "size",
            Self::Depth => "depth",
            Self::End => "end",
            Self::Angle => "angle",
            Self::Surface => "surface",
            Self::Behind => "behind",
            Self::Backed => "backed",
            Self::Layers => "layers",
            Self::CoreTrapped => "core_trapped",
            Self::Ends => "ends",
            Self::Tube => "tube",
            Self::DressEvery => "dress_every",
            Self::Note => "note",
        }
    }
}

/// Something about a cell that does not depend on its type.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CellLook<'a> {
    /// What was typed.
    pub text: &'a str,
    /// The unit it was committed in.
    pub unit: Option<crate::Unit>,
    /// Why it can't be read, where it can't.
    pub why: Option<&'a str>,
}

impl Row {
    /// Holes of this row in one part: its places, else its count, else one.
    #[must_use]
    pub fn holes(&self) -> u32 {
        if self.places.is_empty() {
            self.count.value().copied().unwrap_or(1)
        } else {
            u32::try_from(self.places.len()).unwrap_or(u32::MAX)
        }
    }

    /// Whether the cells of two rows in a column were read as the same.
    #[must_use]
    pub fn reads_alike(&self, other: &Self, column: Column) -> bool {
        match column {
            Column::Mark => self.mark.value() == other.mark.value(),
            Column::Count => self.count.value() == other.count.value(),
            Column::Size => self.size.value() == other.size.value(),
            Column::Depth => self.depth.value() == other.depth.value(),
            Column::End => self.end.value() == other.end.value(),
            Column::Angle => self.angle.value() == other.angle.value(),
            Column::Surface => self.surface.value() == other.surface.value(),
            Column::Behind => self.behind.value() == other.behind.value(),
            Column::Backed => self.backed.value() == other.backed.value(),
            Column::Layers => self.layers.value() == other.layers.value(),
            Column::CoreTrapped => self.core_trapped.value() == other.core_trapped.value(),
            Column::Ends => self.ends.value() == other.ends.value(),
            Column::Tube => self.tube.value() == other.tube.value(),
            Column::DressEvery => self.dress_every.value() == other.dress_every.value(),
            Column::Note => self.note.value() == other.note.value(),
        }
    }

    /// The cell in a column, without its type.
    #[must_use]
    pub fn cell(&self, column: Column) -> CellLook<'_> {
        fn look<T>(entry: &Entry<T>) -> CellLook<'_> {
            CellLook {
                text: entry.text(),
                unit: entry.unit(),
                why: entry.why(),
            }
        }
        match column {
            Column::Mark => look(&self.mark),
            Column::Count => look(&self.count),
            Column::Size => look(&self.size),
            Column::Depth => look(&self.depth),
            Column::End => look(&self.end),
            Column::Angle => look(&self.angle),
            Column::Surface => look(&self.surface),
            Column::Behind => look(&self.behind),
            Column::Backed => look(&self.backed),
            Column::Layers => look(&self.layers),
            Column::CoreTrapped => look(&self.core_trapped),
            Column::Ends => look(&self.ends),
            Column::Tube => look(&self.tube),
            Column::DressEvery => look(&self.dress_every),
            Column::Note => look(&self.note),
        }
    }
}
