//! The first piece, and what was measured of it.

use quillbore_job::inspected;
use quillbore_job::serials;
use quillbore_job::slip::{View, kind, line};

use crate::matter::Matter;
use crate::matter::day::day;
use crate::matter::nonconformance;

/// The piece that the report is of.
pub(super) struct FirstPiece<'a> {
    /// Its serial number; empty where it has none.
    pub(super) serial: String,
    records: Vec<(Option<usize>, View<'a, kind::Inspection>)>,
    troubles: Vec<(Option<usize>, usize)>,
}

/// What is on record of one row of it.
#[derive(Default)]
pub(super) struct Found {
    /// Sizes by pin.
    pub(super) sizes: String,
    /// Depth, position and angle.
    pub(super) depth: String,
    pub(super) position: String,
    pub(super) angle: String,
    /// What it was measured with, until when that is calibrated, and at which temperature.
    pub(super) gauge: String,
    /// Holes that were checked, and those of them that are not good.
    pub(super) checked: Option<u32>,
    pub(super) not_good: Option<u32>,
    /// Numbers of the non-conformances.
    pub(super) troubles: String,
    /// What else is noted.
    pub(super) note: String,
}

impl<'a> FirstPiece<'a> {
    /// The first piece of a job: by its serial number, where parts have some.
    pub(super) fn of(matter: &Matter<'a>) -> Self {
        let parts = inspected::parts(matter.job);
        let serial = parts.serials.first().cloned().unwrap_or_default();
        let marks = matter.marks_typed();
        let is_of = |slip: &View<'_, kind::Inspection>| {
            let named = serials::read(slip.get(line::Serials));
            match named.as_slice() {
                [] => parts.count == 1,
                [one] => *one == serial || (serial.is_empty() && one == "1"),
                _ => false,
            }
        };
        let records = matter.job.slips_of::<kind::Inspection>().filter(is_of);
        let troubles = nonconformance::all(matter);
        Self {
            records: records
                .map(|slip| (marks.row(slip.get(line::Mark)), slip))
                .collect(),
            troubles: troubles
                .iter()
                .map(|trouble| (trouble.row(&marks), trouble.number))
                .collect(),
            serial,
        }
    }

    /// What is on record of a row by its place in the table.
    pub(super) fn found(&self, matter: &Matter<'_>, row: usize) -> Found {
        let at = Some(row);
        let of_row = || {
            self.records
                .iter()
                .filter(|(of, _)| *of == at)
                .map(|(_, slip)| slip)
        };
        let joined = |text: &dyn Fn(&View<'a, kind::Inspection>) -> String| {
            let all = of_row().map(text).filter(|text| !text.is_empty());
            all.collect::<Vec<_>>().join("; ")
        };
        let sum = |count: &dyn Fn(&View<'a, kind::Inspection>) -> Option<u32>| {
            of_row()
                .filter_map(count)
                .fold(None, |sum: Option<u32>, more| {
                    Some(sum.unwrap_or(0).saturating_add(more))
                })
        };
        let troubles = self.troubles.iter().filter(|(of, _)| *of == at);
        let troubles: Vec<String> = troubles.map(|(_, number)| number.to_string()).collect();
        Found {
            sizes: joined(&|slip| slip.get(line::Pins).to_owned()),
            depth: joined(&|slip| slip.get(line::DepthFound).to_owned()),
            position: joined(&|slip| slip.get(line::Position).to_owned()),
            angle: joined(&|slip| slip.get(line::AngleFound).to_owned()),
            gauge: joined(&|slip| {
                (matter.words().inspection.gauge)(
                    slip.get(line::Gauge),
                    &day(matter.form(), *slip, line::CalibrationDue),
                    slip.get(line::Temperature),
                )
            }),
            checked: sum(&|slip| slip.get(line::Checked)),
            not_good: sum(&|slip| slip.get(line::NotGood)),
            troubles: troubles.join(", "),
            note: joined(&|slip| slip.get(line::Note).replace('\n', " ")),
        }
    }
}
