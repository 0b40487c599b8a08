//! Format 1 of job files as it stands on disk: text and unit, never text and value.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

/// A job on disk.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct JobFile {
    pub(super) format: u32,
    pub(super) number: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) opened: Option<String>,
    pub(super) unit: UnitName,
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub(super) fields: BTreeMap<String, Cell>,
    pub(super) next_row: u32,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) rows: Vec<RowFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) overrules: Vec<OverruleFile>,
}

/// A unit on disk.
#[derive(Clone, Copy, Debug, Deserialize, Serialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum UnitName {
    Mm,
    Inch,
}

/// A typed cell on disk: what was typed, and the unit it was committed in.
#[derive(Debug, Deserialize, Serialize)]
pub(super) struct Cell(pub(super) String, pub(super) UnitName);

/// A row on disk.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RowFile {
    pub(super) id: u32,
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub(super) cells: BTreeMap<String, Cell>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) places: Vec<PlaceFile>,
}

/// A place on disk: number, point [mm], axis.
#[derive(Debug, Deserialize, Serialize)]
pub(super) struct PlaceFile(
    pub(super) u32,
    pub(super) f64,
    pub(super) f64,
    pub(super) f64,
    pub(super) f64,
    pub(super) f64,
    pub(super) f64,
);

/// An overrule on disk.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct OverruleFile {
    pub(super) figure: FigureFile,
    pub(super) value: Cell,
    pub(super) reason: String,
}

/// A figure's key on disk.
#[derive(Debug, Deserialize, Serialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum FigureFile {
    Gap(u32),
    Feed(u32),
    HoleMinutes(u32),
    Wear(u32),
    Electrodes(String),
    MachineHours,
    LaborHours,
    UnitPrice(u32),
}
