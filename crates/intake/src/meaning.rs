//! What a column of a foreign table can hold.

use quillbore_job::Column;

/// What a foreign column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Meaning {
    /// A column of the hole table.
    Ours(Column),
    /// A tolerance that belongs to the size beside it.
    Tolerance,
    /// The lower limit of the size.
    Lower,
    /// The upper limit of the size.
    Upper,
    /// The lower deviation from the nominal size.
    LowerDeviation,
    /// The upper deviation from the nominal size.
    UpperDeviation,
    /// A tolerance that belongs to the depth.
    DepthTolerance,
    /// A coordinate of the place: 0 x, 1 y, 2 z.
    Point(usize),
    /// A component of the axis into the material: 0 i, 1 j, 2 k.
    Axis(usize),
    /// The unit that bare lengths of its line are in.
    Unit,
}

impl Meaning {
    /// Everything that a column can hold, the hole table's columns first.
    #[must_use]
    pub fn all() -> Vec<Self> {
        let ours = Column::ALL.iter().map(|column| Self::Ours(*column));
        let limits = [
            Self::Tolerance,
            Self::Lower,
            Self::Upper,
            Self::LowerDeviation,
            Self::UpperDeviation,
            Self::DepthTolerance,
        ];
        let places = (0..3).map(Self::Point).chain((0..3).map(Self::Axis));
        ours.chain(limits)
            .chain(places)
            .chain([Self::Unit])
            .collect()
    }

    /// Whether several columns may hold it: notes are put one behind the other, and each unit is that of the
    /// lengths before it.
    #[must_use]
    pub fn may_repeat(self) -> bool {
        matches!(self, Self::Ours(Column::Note) | Self::Unit)
    }

    /// Whether a bare number of it is a length.
    pub(crate) const fn is_length(self) -> bool {
        match self {
            Self::Ours(column) => column.is_measured(),
            Self::Axis(_) | Self::Unit => false,
            Self::Tolerance
            | Self::Lower
            | Self::Upper
            | Self::LowerDeviation
            | Self::UpperDeviation
            | Self::DepthTolerance
            | Self::Point(_) => true,
        }
    }
}
