//! Figures that the estimator puts in place of computed ones.

use quillbore_calc::RowId;

use crate::ground::keyed_list::Keyed;
use crate::typed::entry::Entry;

/// A figure put in place of the computed one, with the reason.
#[derive(Clone, Debug, PartialEq)]
pub struct Overrule {
    /// Which figure.
    pub figure: FigureKey,
    /// The value, as typed, in the figure's own unit.
    pub value: Entry<f64>,
    /// Why; never empty.
    pub reason: String,
}

/// A figure that can be overruled, named so that it survives a change of the shop's tables.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum FigureKey {
    /// Gap per side of a row in mm.
    Gap(RowId),
    /// Feed of a row in mm/min.
    Feed(RowId),
    /// Minutes of one hole of a row.
    HoleMinutes(RowId),
    /// Wear of one hole of a row in mm.
    Wear(RowId),
    /// Electrodes for the lot, of the tube with this name.
    Electrodes(String),
    /// Machine hours of the lot.
    MachineHours,
    /// Labor hours of the lot.
    LaborHours,
    /// What is not yet known, as a share of the cost at the medians.
    NotYetKnown,
    /// Price of one part at this quantity.
    UnitPrice(u32),
}

impl Keyed for Overrule {
    type Key = FigureKey;

    fn key(&self) -> FigureKey {
        self.figure.clone()
    }
}

impl FigureKey {
    /// The row that a figure belongs to, where it belongs to one.
    #[must_use]
    pub const fn row(&self) -> Option<RowId> {
        match self {
            Self::Gap(row) | Self::Feed(row) | Self::HoleMinutes(row) | Self::Wear(row) => {
                Some(*row)
            }
            Self::Electrodes(_)
            | Self::MachineHours
            | Self::LaborHours
            | Self::NotYetKnown
            | Self::UnitPrice(_) => None,
        }
    }

    /// The same figure where rows took the identities that `of` gives.
    #[must_use]
    pub fn renumbered(&self, of: impl Fn(RowId) -> RowId) -> Self {
        match self {
            Self::Gap(row) => Self::Gap(of(*row)),
            Self::Feed(row) => Self::Feed(of(*row)),
            Self::HoleMinutes(row) => Self::HoleMinutes(of(*row)),
            Self::Wear(row) => Self::Wear(of(*row)),
            other => other.clone(),
        }
    }
}
