//! Hours of a part by the run records, so that jobs are compared like with like.

use std::collections::BTreeMap;

use crate::job::Job;
use crate::life::inspected::same_mark;
use crate::pinned::slip::lists::{kind, line};
use crate::pinned::slip::view::View;

/// Hours of one part by the run records.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HoursEach {
    /// Hours of one part [h].
    pub hours: f64,
    /// They are by the clock, and not of sparking alone.
    pub by_clock: bool,
    /// Rows without a record were taken to be drilled as fast, hole by hole, as those with one.
    pub scaled: bool,
}

/// Hours of one part by the run records: of every row its minutes by hole, times its holes in a part.
///
/// By the clock where that was kept for as many holes as sparking was counted for, else by sparking.
/// `None` without a record that names holes and minutes.
#[must_use]
pub fn hours_each(job: &Job) -> Option<HoursEach> {
    let clock = summed(job, |run| {
        let stops = run.get(line::StopMinutes).unwrap_or(0.0);
        Some((run.get(line::FloorMinutes)? - stops).max(0.0))
    });
    let spark = summed(job, |run| run.get(line::SparkMinutes));
    let holes = |sums: &BTreeMap<String, [f64; 2]>| sums.values().map(|sum| sum[0]).sum::<f64>();
    let by_clock = holes(&clock) > 0.0 && holes(&clock) >= holes(&spark);
    let sums = if by_clock { clock } else { spark };
    let (mut minutes, mut covered, mut all) = (0.0, 0.0, 0.0);
    for row in &job.rows {
        let in_part = f64::from(row.holes());
        all += in_part;
        let sum = same_mark(row.mark.text()).and_then(|mark| sums.get(&mark));
        if let Some([holes, took]) = sum.filter(|sum| sum[0] > 0.0) {
            covered += in_part;
            minutes += took / holes * in_part;
        }
    }
    (covered > 0.0).then(|| HoursEach {
        hours: minutes * all / covered / 60.0,
        by_clock,
        scaled: covered < all,
    })
}

/// Holes and minutes of the records by mark.
fn summed(
    job: &Job,
    minutes: impl Fn(View<'_, kind::Run>) -> Option<f64>,
) -> BTreeMap<String, [f64; 2]> {
    let mut sums: BTreeMap<String, [f64; 2]> = BTreeMap::new();
    for run in job.slips_of::<kind::Run>() {
        let mark = same_mark(run.get(line::Mark));
        let holes = run.get(line::Holes).filter(|holes| *holes > 0);
        let (Some(mark), Some(holes), Some(took)) = (mark, holes, minutes(run)) else {
            continue;
        };
        let sum = sums.entry(mark).or_default();
        sum[0] += f64::from(holes);
        sum[1] += took;
    }
    sums
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pinned::slip::lists::Line;
    use crate::{CellAt, Column, Edit, SlipKind, Unit, apply};

    fn edited(job: &Job, edit: &Edit) -> Job {
        apply(job, edit).expect("an edit").0
    }

    fn with_rows(rows: &[[&str; 2]]) -> Job {
        let cells = rows
            .iter()
            .map(|row| row.iter().map(|text| Some((*text).to_owned())).collect());
        let edit = Edit::SetCells {
            at: CellAt {
                row: 0,
                column: Column::Mark,
            },
            rows: cells.collect(),
            unit: Unit::Mm,
        };
        edited(&Job::default(), &edit)
    }

    fn with_run(job: &Job, lines: &[(Line, &str)]) -> Job {
        let lines = lines.iter().map(|(line, text)| (*line, (*text).to_owned()));
        let edit = Edit::AddSlip {
            kind: SlipKind::Run,
            lines: lines.collect(),
            unit: Unit::Mm,
        };
        edited(job, &edit)
    }

    #[test]
    fn a_part_takes_what_its_rows_take_hole_by_hole() {
        let job = with_rows(&[["A", "10"], ["B", "2"]]);
        assert_eq!(hours_each(&job), None);
        // 60 holes in 90 min and 12 holes in 60 min: 10 x 1.5 + 2 x 5 = 25 min a part.
        let job = with_run(
            &job,
            &[
                (Line::Mark, "A"),
                (Line::Holes, "40"),
                (Line::SparkMinutes, "50"),
            ],
        );
        let job = with_run(
            &job,
            &[
                (Line::Mark, "a"),
                (Line::Holes, "20"),
                (Line::SparkMinutes, "40"),
            ],
        );
        let half = hours_each(&job).expect("hours");
        // Of B nothing is known: as A, 12 holes at 1.5 min.
        assert!(half.scaled && (half.hours - 0.3).abs() < 1e-9, "{half:?}");
        let job = with_run(
            &job,
            &[
                (Line::Mark, "B"),
                (Line::Holes, "12"),
                (Line::SparkMinutes, "60"),
            ],
        );
        let whole = hours_each(&job).expect("hours");
        assert!(!whole.scaled && !whole.by_clock && (whole.hours - 25.0 / 60.0).abs() < 1e-9);
        // A clock for fewer holes than were counted says less.
        let job = with_run(
            &job,
            &[
                (Line::Mark, "B"),
                (Line::Holes, "1"),
                (Line::FloorMinutes, "99"),
            ],
        );
        assert_eq!(hours_each(&job), Some(whole));
    }
}
