//! Text into the typed cells of a row.

use quillbore_calc::Length;
use quillbore_calc::broken::Broken;
use quillbore_calc::input::{Ends, Exit, HoleEnd, Proof, Recess, Surface};

use crate::typed::entry::{Entry, Unit};
use crate::typed::field::{AngleBasis, TiltAngle};
use crate::typed::quantity::{Depth, LayerText, Size};
use crate::typed::read_quantity as read;
use crate::typed::read_quantity::misread::Misread;

/// Longest mark, in characters.
const LONGEST_MARK: usize = 20;

/// Longest name of a tube, in characters.
const LONGEST_NAME: usize = 120;

/// Longest note, in characters.
const LONGEST_NOTE: usize = 2_000;

/// Reads a text as a typed cell; white space alone is an empty one.
pub fn entry<T>(text: &str, unit: Unit, read: impl FnOnce(&str) -> Result<T, Misread>) -> Entry<T> {
    if text.trim().is_empty() {
        return Entry::EMPTY;
    }
    match read(text) {
        Ok(value) => Entry::read(text, unit, value),
        Err(why) => Entry::unread(text, unit, why.to_string()),
    }
}

/// What a text is read with that doesn't say it itself.
#[derive(Clone, Copy, Debug, Default)]
pub struct ReadIn {
    /// The unit of numbers without one.
    pub unit: Unit,
    /// What angles are measured from.
    pub basis: AngleBasis,
}

/// How the text of a cell is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum CellKind {
    /// The letter or mark on a drawing.
    Mark,
    /// A whole number of holes.
    Holes,
    /// A diameter with its limits.
    Size,
    /// A depth, or that the hole goes through.
    Depth,
    /// Through, into, blind.
    HoleEnd,
    /// An angle, and what it is measured from.
    Angle,
    /// A surface with its radius.
    Surface,
    /// A surface, and the angle at which it is left.
    Exit,
    /// A width and a depth.
    Recess,
    /// A tool that broke.
    Broken,
    /// How a hole is proved open.
    Proof,
    /// A length, or none.
    Length,
    /// A length that is never nothing.
    Distance,
    /// Yes or no.
    YesNo,
    /// Layers of materials.
    Layers,
    /// The ends that a hole is drilled from.
    Ends,
    /// One of the shop's tubes, by name.
    Tube,
    /// Every so many holes, or never.
    Every,
    /// Several lines of text.
    Note,
}

impl CellKind {
    /// Whether a bare number of it is in the unit that the job is typed in.
    #[must_use]
    pub const fn is_measured(self) -> bool {
        match self {
            Self::Size
            | Self::Depth
            | Self::Surface
            | Self::Exit
            | Self::Recess
            | Self::Broken
            | Self::Length
            | Self::Distance
            | Self::Layers => true,
            Self::Mark
            | Self::Holes
            | Self::HoleEnd
            | Self::Angle
            | Self::Proof
            | Self::YesNo
            | Self::Ends
            | Self::Tube
            | Self::Every
            | Self::Note => false,
        }
    }
}

/// The reader of a kind of cell.
pub(crate) struct Reader<T> {
    pub(crate) kind: CellKind,
    read: fn(&str, ReadIn) -> Result<T, Misread>,
}

impl<T> Reader<T> {
    /// Reads a text as a typed cell; white space alone is an empty one.
    pub(crate) fn entry(&self, text: &str, read_in: ReadIn) -> Entry<T> {
        entry(text, read_in.unit, |text| (self.read)(text, read_in))
    }
}

const fn reader<T>(kind: CellKind, read: fn(&str, ReadIn) -> Result<T, Misread>) -> Reader<T> {
    Reader { kind, read }
}

pub(crate) const MARK: Reader<String> =
    reader(CellKind::Mark, |text, _| read::line(text, LONGEST_MARK));
pub(crate) const HOLES: Reader<u32> = reader(CellKind::Holes, |text, _| read::holes(text));
pub(crate) const SIZE: Reader<Size> = reader(CellKind::Size, |text, read_in| {
    read::size(text, read_in.unit)
});
pub(crate) const DEPTH: Reader<Depth> = reader(CellKind::Depth, |text, read_in| {
    read::depth(text, read_in.unit)
});
pub(crate) const HOLE_END: Reader<HoleEnd> =
    reader(CellKind::HoleEnd, |text, _| read::hole_end(text));
pub(crate) const ANGLE: Reader<TiltAngle> = reader(CellKind::Angle, |text, read_in| {
    read::tilt(text, read_in.basis)
});
pub(crate) const SURFACE: Reader<Surface> = reader(CellKind::Surface, |text, read_in| {
    read::surface(text, read_in.unit)
});
pub(crate) const EXIT: Reader<Exit> = reader(CellKind::Exit, |text, read_in| {
    read::exit(text, read_in.unit, read_in.basis)
});
pub(crate) const RECESS: Reader<Recess> = reader(CellKind::Recess, |text, read_in| {
    read::recess(text, read_in.unit)
});
pub(crate) const BROKEN: Reader<Broken> = reader(CellKind::Broken, |text, read_in| {
    read::broken(text, read_in.unit)
});
pub(crate) const LENGTH: Reader<Length> = reader(CellKind::Length, |text, read_in| {
    read::length_or_zero(text, read_in.unit)
});
pub(crate) const DISTANCE: Reader<Length> = reader(CellKind::Distance, |text, read_in| {
    read::length(text, read_in.unit)
});
pub(crate) const PROOF: Reader<Proof> = reader(CellKind::Proof, |text, _| read::proof(text));
pub(crate) const YES_NO: Reader<bool> = reader(CellKind::YesNo, |text, _| read::yes_no(text));
pub(crate) const LAYERS: Reader<Vec<LayerText>> = reader(CellKind::Layers, |text, read_in| {
    read::layers(text, read_in.unit)
});
pub(crate) const ENDS: Reader<Ends> = reader(CellKind::Ends, |text, _| read::ends(text));
pub(crate) const TUBE: Reader<String> =
    reader(CellKind::Tube, |text, _| read::line(text, LONGEST_NAME));
pub(crate) const EVERY: Reader<u32> = reader(CellKind::Every, |text, _| read::dress_every(text));
pub(crate) const NOTE: Reader<String> =
    reader(CellKind::Note, |text, _| read::lines(text, LONGEST_NOTE));
