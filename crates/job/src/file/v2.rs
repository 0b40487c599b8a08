//! Format 2 of job files as it stands on disk: text and unit, never text and value.
//!
//! It has every name of format 1 and more, so that a file of format 1 is read by the same types.
//! What a part of it can't be is found while it is parsed, so that the fault has a line.

use serde::{Deserialize, Serialize};

use super::parts::{
    Amount, Cell, Cells, Day, Finite, HashFile, Named, PlaceFile, Reason, UnitName, is_zero,
};
use super::report::ReportFile;
use crate::pinned::answer::How;
use crate::pinned::concern::Concern;
use crate::pinned::paper::Paper;
use crate::pinned::slip::lists::{Line, SlipKind};
use crate::typed::field::Field;
use crate::typed::row::Column;

/// A job on disk.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct JobFile {
    pub(super) format: u32,
    pub(super) number: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) opened: Option<Day>,
    pub(super) unit: UnitName,
    #[serde(default, skip_serializing_if = "Cells::is_empty")]
    pub(super) fields: Cells<Field>,
    pub(super) next_row: u32,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) rows: Vec<RowFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) overrules: Vec<OverruleFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) answers: Vec<AnswerFile>,
    #[serde(default, skip_serializing_if = "is_zero")]
    pub(super) next_slip: u32,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) slips: Vec<SlipFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) issued: Vec<IssuedFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) reports: Vec<ReportFile>,
}

/// A slip on disk.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SlipFile {
    pub(super) id: u32,
    pub(super) kind: Named<SlipKind>,
    #[serde(default, skip_serializing_if = "Cells::is_empty")]
    pub(super) lines: Cells<Line>,
}

/// An issued paper on disk.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct IssuedFile {
    pub(super) number: String,
    pub(super) paper: Named<Paper>,
    pub(super) date: Day,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) valid_until: Option<Day>,
    pub(super) file: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) kept_by: Option<String>,
    pub(super) hash: HashFile,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) seal: Option<SealFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) lines: Vec<IssuedLineFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) currency: Option<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) rests_on: Vec<(String, Finite)>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) pages: Vec<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) replaces: Vec<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) inputs: Option<Box<JobFile>>,
}

/// The seal of an issued paper on disk: version and hash.
#[derive(Clone, Copy, Debug, Deserialize, Serialize)]
pub(super) struct SealFile(pub(super) u32, pub(super) HashFile);

/// A line of an issued paper on disk.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct IssuedLineFile {
    pub(super) job: String,
    pub(super) part: String,
    pub(super) revision: String,
    pub(super) quantity: u32,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) each: Option<Amount>,
}

/// A row on disk.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RowFile {
    pub(super) id: u32,
    #[serde(default, skip_serializing_if = "Cells::is_empty")]
    pub(super) cells: Cells<Column>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) places: Vec<PlaceFile>,
}

/// An overrule on disk.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct OverruleFile {
    pub(super) figure: FigureFile,
    pub(super) value: Cell,
    pub(super) reason: Reason,
}

/// An answer to a check on disk.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct AnswerFile {
    pub(super) row: u32,
    pub(super) concern: Named<Concern>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) given: Vec<Finite>,
    pub(super) by_mm: Finite,
    pub(super) how: Named<How>,
    pub(super) said: Reason,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub(super) by: String,
    pub(super) date: Day,
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
    NotYetKnown,
    UnitPrice(u32),
}
