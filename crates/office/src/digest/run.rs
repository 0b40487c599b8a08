//! What a stretch of drilling really took, as plain data: what the shop learns from.

use chrono::NaiveDate;
use quillbore_calc::Length;
use quillbore_job::Job;
use quillbore_job::slip::{View, kind, line};
use serde::{Deserialize, Serialize};

/// One run slip; a line that was left empty or can't be read says nothing.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct RunRecord {
    /// The day.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub date: Option<NaiveDate>,
    /// The row's mark.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub mark: String,
    /// Holes drilled.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub holes: Option<u32>,
    /// The electrode's number in the kit.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub electrode_number: String,
    /// Length of the tube before [mm].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tube_before_mm: Option<f64>,
    /// Length of the tube after [mm].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tube_after_mm: Option<f64>,
    /// Minutes of sparking by the machine's counter.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub spark_minutes: Option<f64>,
    /// Minutes on the floor from start to end.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub floor_minutes: Option<f64>,
    /// Minutes of them that the machine stood.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stop_minutes: Option<f64>,
    /// Electrodes used.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub electrodes: Option<u32>,
    /// Electrodes that broke.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub breakages: Option<u32>,
    /// Good parts.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub good: Option<u32>,
    /// Spoiled parts.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub scrap: Option<u32>,
    /// Sizes by pin, as typed.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub pins: String,
}

/// The records of a job, in the order they came.
pub(super) fn records(job: &Job) -> Vec<RunRecord> {
    job.slips_of::<kind::Run>().map(record).collect()
}

fn record(run: View<'_, kind::Run>) -> RunRecord {
    RunRecord {
        date: run.get(line::Date),
        mark: run.get(line::Mark).to_owned(),
        holes: run.get(line::Holes),
        electrode_number: run.get(line::ElectrodeNumber).to_owned(),
        tube_before_mm: run.get(line::TubeBefore).map(Length::mm),
        tube_after_mm: run.get(line::TubeAfter).map(Length::mm),
        spark_minutes: run.get(line::SparkMinutes),
        floor_minutes: run.get(line::FloorMinutes),
        stop_minutes: run.get(line::StopMinutes),
        electrodes: run.get(line::Electrodes),
        breakages: run.get(line::Breakages),
        good: run.get(line::Good),
        scrap: run.get(line::Scrap),
        pins: run.get(line::Pins).to_owned(),
    }
}
