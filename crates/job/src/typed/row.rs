//! One row of the hole table: a specification with its places.

use std::sync::Arc;

use quillbore_calc::broken::Broken;
use quillbore_calc::input::{Ends, Exit, HoleEnd, Place, Proof, Recess, Surface};
use quillbore_calc::{Length, RowId};

use crate::ground::keyed_list::Keyed;
use crate::typed::entry::Unit;
use crate::typed::field::{AngleBasis, TiltAngle};
use crate::typed::quantity::{Depth, LayerText, Size};
use crate::typed::read_cell::{self, ReadIn};
use crate::typed::record::record;

record! {
    /// One specification of holes; its places share everything but number, point and axis.
    pub struct Row {
        /// Identity, never reused in this job.
        pub id: RowId,
        /// Places, where the drawing gives them.
        pub places: Arc<Vec<Place>>,
    }

    /// Cells of its columns that were read.
    struct SeenOfRows;

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
    /// Surface at the exit, and the angle at which it is left; empty takes it from the entry.
    Exit "exit" exit: Exit, read_cell::EXIT;
    /// The pocket or bore that it begins in: how wide and how deep.
    Recess "recess" recess: Recess, read_cell::RECESS;
    /// The tool that broke in there and is to be burnt out: depth is then what is left of it.
    Broken "broken" broken: Broken, read_cell::BROKEN;
    /// How deep below the part's face what is left of it begins.
    Below "below" below: Length, read_cell::LENGTH;
    /// What was tried already to get it out.
    Tried "tried" tried: String, read_cell::NOTE;
    /// The wire that is threaded through it afterwards.
    Wire "wire" wire: Length, read_cell::DISTANCE;
    /// The smallest that it may be at its exit.
    LeastExit "least_exit" least_exit: Length, read_cell::DISTANCE;
    /// From its center to the finished profile.
    ToProfile "to_profile" to_profile: Length, read_cell::DISTANCE;
    /// How it is proved open.
    Proved "proved_by" proved: Proof, read_cell::PROOF;
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
    /// The characteristic's number on the drawing, or on the customer's list of them.
    Characteristic "characteristic" characteristic: String, read_cell::MARK;
    /// The sheet and zone of the drawing that it stands in.
    Zone "zone" zone: String, read_cell::MARK;
    /// What else the drawing says.
    Note "note" note: String, read_cell::NOTE;
}

/// Puts a text into a row's cell, read in `unit`; `basis` holds for angles that don't say theirs.
pub fn put(row: &mut Row, column: Column, text: &str, unit: Unit, basis: AngleBasis) {
    row.put(column, text, ReadIn { unit, basis });
}

/// Reads the rows of a table, one after the other: what stands in a column once more is not read
/// again, but shared.
#[derive(Debug)]
pub struct RowReader {
    basis: AngleBasis,
    seen: SeenOfRows,
}

impl RowReader {
    /// Reads rows whose angles are measured from `basis`, where they don't say theirs.
    #[must_use]
    pub fn new(basis: AngleBasis) -> Self {
        let seen = SeenOfRows::default();
        Self { basis, seen }
    }

    /// Puts a text into a row's cell, read in `unit`.
    pub fn put(&mut self, row: &mut Row, column: Column, text: &str, unit: Unit) {
        let basis = self.basis;
        self.seen.put(row, column, text, ReadIn { unit, basis });
    }
}

impl Row {
    /// Whether it is taken for a through hole only because nobody gave its end.
    #[must_use]
    pub fn is_through_by_silence(&self) -> bool {
        let says_through = self.depth.value().is_some_and(|depth| depth.through);
        self.end.is_empty() && !self.size.is_empty() && !says_through
    }
}

impl Keyed for Arc<Row> {
    type Key = RowId;

    fn key(&self) -> RowId {
        self.id
    }
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
