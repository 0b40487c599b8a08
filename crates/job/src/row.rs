//! One row of the hole table: a specification with its places.

use std::sync::Arc;

use quillbore_calc::input::{Ends, HoleEnd, Place, Surface};
use quillbore_calc::{Length, RowId};

use crate::field::TiltAngle;
use crate::list::record;
use crate::read_cell;

record! {
    /// One specification of holes; its places share everything but number, point and axis.
    pub struct Row {
        /// Identity, never reused in this job.
        pub id: RowId,
        /// Places, where the drawing gives them.
        pub places: Arc<Vec<Place>>,
    }

    /// A column of the hole table, in the table's order.
    pub enum Column;

    /// The letter or mark on the drawing.
    Mark "mark" mark: String, read_cell::MARK;
    /// Holes of this row in one part.
    Count "count" count: u32, read_cell::HOLES;
    /// Diameter with its limits.
    Size "size" size: Size, read_cell::SIZE;
    /// Depth on the hole's axis.
    Depth "depth" depth: Depth, read_cell::DEPTH;
    /// Where the hole ends.
    End "end" end: HoleEnd, read_cell::HOLE_END;
    /// Angle at the entry.
    Angle "angle" angle: TiltAngle, read_cell::ANGLE;
    /// Surface at the entry.
    Surface "surface" surface: Surface, read_cell::SURFACE;
    /// Free distance behind the exit.
    Behind "behind" behind: Length, read_cell::LENGTH;
    /// Backing behind the exit.
    Backed "backed" backed: bool, read_cell::YES_NO;
    /// Layers from the entry on.
    Layers "layers" layers: Vec<LayerText>, read_cell::LAYERS;
    /// A loose core could be trapped.
    CoreTrapped "core_trapped" core_trapped: bool, read_cell::YES_NO;
    /// Ends that it is drilled from; empty lets the calculation choose.
    Ends "ends" ends: Ends, read_cell::ENDS;
    /// The shop's name of the tube; empty lets the calculation choose.
    Tube "tube" tube: String, read_cell::TUBE;
    /// Holes between two dressings of the electrode's tip, 0 for none; empty leaves it to the
    /// trade's rule.
    DressEvery "dress_every" dress_every: u32, read_cell::EVERY;
    /// What else the drawing says.
    Note "note" note: String, read_cell::NOTE;
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

impl Column {
    /// Whether a bare number of it is in the unit that the job is typed in.
    #[must_use]
    pub const fn is_measured(self) -> bool {
        self.kind().is_measured()
    }
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
}
