//! Names that a job has and the shop has not.

use quillbore_calc::RowId;

/// A name in the job that the shop's tables don't have.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum UnknownName {
    /// A work material.
    Material(String),
    /// A machine.
    Machine(String),
    /// A tube of a row.
    Tube(RowId, String),
    /// A layer's material in a row.
    LayerMaterial(RowId, String),
    /// A tube whose electrodes for the lot were overruled.
    OverruledTube(String),
}
