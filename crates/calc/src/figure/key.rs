//! Which figure of a job is meant.

use crate::idx::Idx;
use crate::row_id::RowId;
use crate::tables::Tube;

/// A figure of a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Figure {
    /// Diameter of a row's electrode [mm].
    Electrode(RowId),
    /// Gap per side [mm].
    Gap(RowId),
    /// Feed at the face [mm/min].
    Feed(RowId),
    /// Minutes of one hole of a row [min].
    HoleMinutes(RowId),
    /// Wear of one hole of a row [mm].
    Wear(RowId),
    /// Depth that the tip must reach, from the guide [mm].
    TargetDepth(RowId),
    /// Depth that one electrode reaches [mm].
    ReachOne(RowId),
    /// Electrodes in one hole of a row, one after another.
    ElectrodesPerHole(RowId),
    /// Flow of the flush with the tip at the bottom [ml/min].
    Flush(RowId),
    /// What the flush pushes a part with at most [N].
    Push(RowId),
    /// Force that a clamp must give in a setup, counted from 0 [N].
    Clamp(u32),
    /// The machines of the shop, compared: price of one part [currency].
    Machines,
    /// Electrodes of this tube for the lot.
    Electrodes(Idx<Tube>),
    /// Electrodes of all tubes for the lot.
    AllElectrodes,
    /// Clampings of one part.
    Setups,
    /// Machine hours of the lot [h].
    MachineHours,
    /// Labor hours of the lot [h].
    LaborHours,
    /// Expected cost of the offered lot beyond its cost at the medians, as a share of the latter [-].
    NotYetKnown,
    /// A line of the lot's cost [currency].
    Cost(CostLine),
    /// Expected full cost of the lot [currency].
    LotCost,
    /// Price of one part at this quantity [currency].
    UnitPrice(u32),
    /// Price of a lot of this quantity [currency].
    LotPrice(u32),
    /// Working days of the lot once order, parts and drawing are in [d].
    WorkingDays,
}

/// A line of a lot's cost that has a working of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum CostLine {
    /// Machine.
    Machine,
    /// Labor.
    Labor,
    /// Electrodes.
    Electrodes,
    /// Guides, by their life in holes.
    Guides,
    /// Dielectric, filters and resin.
    Dielectric,
    /// Power.
    Power,
    /// Outside work.
    Outside,
    /// Breakage and redo.
    Redo,
    /// The customer's part at risk.
    PartRisk,
}

impl CostLine {
    /// All of them, as they are listed.
    pub const ALL: [Self; 9] = [
        Self::Machine,
        Self::Labor,
        Self::Electrodes,
        Self::Guides,
        Self::Dielectric,
        Self::Power,
        Self::Outside,
        Self::Redo,
        Self::PartRisk,
    ];
}

impl Figure {
    /// The row that it is a figure of; `None` for figures of the lot and of the job.
    ///
    /// ```
    /// use quillbore_calc::{Figure, Idx, RowId};
    /// assert_eq!(Figure::Wear(RowId(7)).row(), Some(RowId(7)));
    /// assert_eq!(Figure::Electrodes(Idx::new(7)).row(), None); // a tube of the lot, used by several rows
    /// ```
    #[must_use]
    pub const fn row(self) -> Option<RowId> {
        match self {
            Self::Electrode(row)
            | Self::Gap(row)
            | Self::Feed(row)
            | Self::HoleMinutes(row)
            | Self::Wear(row)
            | Self::TargetDepth(row)
            | Self::ReachOne(row)
            | Self::ElectrodesPerHole(row)
            | Self::Flush(row)
            | Self::Push(row) => Some(row),
            Self::Clamp(_)
            | Self::Machines
            | Self::Electrodes(_)
            | Self::AllElectrodes
            | Self::Setups
            | Self::MachineHours
            | Self::LaborHours
            | Self::NotYetKnown
            | Self::Cost(_)
            | Self::LotCost
            | Self::UnitPrice(_)
            | Self::LotPrice(_)
            | Self::WorkingDays => None,
        }
    }
}
