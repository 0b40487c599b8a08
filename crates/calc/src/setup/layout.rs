//! What of a job its clampings rest on.

use alloc::sync::Arc;
use alloc::vec::Vec;

use super::tool::Tool;
use crate::input::{Ends, JobInput, PartAxis, Place, RowId, RowInput};
use crate::job_figures::HoleFigures;
use crate::quantity::Limits;
use crate::tables::Machine;

/// What of a job its clampings rest on: equal layouts are clamped alike.
///
/// Clampings see nothing else of the job, so nothing else can make them change.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Layout {
    pub(super) rows: Vec<LayoutRow>,
    /// Size of the part [mm], which locations are held against.
    pub(super) part_mm: Option<[f64; 3]>,
    /// Somebody chose a machine.
    pub(super) on_machine: bool,
    /// It has an index axis.
    pub(super) has_index: bool,
    /// The part's axis that this turns, where it is used.
    pub(super) index_about: Option<PartAxis>,
    /// Smallest and largest tilt of head or table from upright [deg].
    pub(super) tilt_deg: Limits,
}

/// A row as it is clamped.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct LayoutRow {
    pub(super) id: RowId,
    pub(super) tool: Tool,
    /// Holes in one part.
    pub(super) holes: u32,
    pub(super) places: Vec<Place>,
    /// Angle from the surface's normal, where no place says it [deg].
    pub(super) tilt_deg: f64,
    /// How far from each place the far end lies, where it is drilled from there too [mm].
    pub(super) far_end_mm: Option<f64>,
}

impl Layout {
    pub(crate) fn new(
        input: &JobInput,
        holes: &[Arc<HoleFigures>],
        machine: Option<&Machine>,
    ) -> Self {
        let has_index = machine.is_some_and(|machine| machine.index_axis);
        let tilt_deg = machine.and_then(|machine| machine.tilt_deg);
        let rows = input.rows.iter().zip(holes);
        Self {
            rows: rows
                .map(|(row, figures)| LayoutRow::new(row, figures))
                .collect(),
            part_mm: input.part_mm,
            on_machine: input.machine.is_some(),
            has_index,
            index_about: input.index_about.filter(|_| has_index),
            tilt_deg: tilt_deg.unwrap_or_default(),
        }
    }
}

impl LayoutRow {
    fn new(row: &RowInput, figures: &HoleFigures) -> Self {
        let both = figures.ends == Some(Ends::Both);
        let placed = !row.places.is_empty();
        // What says nothing is left out, so that it can't make rows unlike.
        let depth_mm = if placed { row.depth_mm } else { None };
        Self {
            id: row.id,
            tool: Tool::of(figures),
            holes: figures.places,
            places: row.places.clone(),
            tilt_deg: if placed { 0.0 } else { row.tilt_deg },
            far_end_mm: both.then(|| depth_mm.unwrap_or(0.0)),
        }
    }
}
