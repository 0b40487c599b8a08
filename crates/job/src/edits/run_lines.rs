//! Lines of the run records that are known before anybody types: one for each mark, or for each
//! electrode of the plan.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;
use quillbore_calc::tables::Tube;

use crate::edits::edit::{Edit, RunAt};
use crate::job::Job;
use crate::life::RunPlan;
use crate::life::inspected;
use crate::life::inspected::same_mark;
use crate::pinned::slip::lists::{Line, kind, line};
use crate::pinned::slip::run_columns::RUN_COLUMNS;
use crate::typed::form::Form;
use crate::typed::row::Row;

/// A run record for each mark of the hole table that none speaks of yet, with what is known on `day`,
/// as `form` writes it: all holes of the mark in all parts, the tube that `tube_of` names, whoever sits at the desk. `None`
/// where every mark has one.
#[must_use]
pub fn runs_of_marks(
    job: &Job,
    day: NaiveDate,
    form: Form,
    by: &str,
    tube_of: impl Fn(&Row) -> Option<String>,
) -> Option<Edit> {
    let runs = job.slips_of::<kind::Run>();
    let told: BTreeSet<String> = runs
        .filter_map(|run| same_mark(run.get(line::Mark)))
        .collect();
    let parts = inspected::parts(job).count;
    let mut places: BTreeMap<String, usize> = BTreeMap::new();
    let mut lines: Vec<(&Row, Option<u64>)> = Vec::new();
    for row in &job.rows {
        let Some(mark) = same_mark(row.mark.text()).filter(|mark| !told.contains(mark)) else {
            continue;
        };
        let holes = holes(row);
        match places.get(&mark).and_then(|at| lines.get_mut(*at)) {
            // Rows that share a mark are one line: the floor can't tell them apart either.
            Some((_, sum)) => *sum = sum.zip(holes).map(|(sum, more)| sum + more),
            None => {
                places.insert(mark, lines.len());
                lines.push((row, holes));
            }
        }
    }
    let rows = lines.into_iter().map(|(row, holes)| {
        run_line(|line| match line {
            Line::Date => Some(form.day(day)),
            Line::By => Some(by.to_owned()).filter(|by| !by.is_empty()),
            Line::Mark => Some(row.mark.text().trim().to_owned()),
            Line::Holes => in_parts(holes?, parts),
            Line::TubeUsed => tube_of(row),
            _ => None,
        })
    });
    new_runs(job, rows.collect())
}

/// A run record for each electrode of the plan that none covers yet, with what is known on `day`,
/// as `form` writes it: its number, the mark and holes it drills, the tube, whoever sits at the desk. `None` where nothing is left.
#[must_use]
pub fn runs_of_plan(
    job: &Job,
    plan: &RunPlan,
    day: NaiveDate,
    form: Form,
    by: &str,
    tubes: &[Tube],
) -> Option<Edit> {
    let rows = plan.left.iter().map(|stretch| {
        let row = job.row_index(stretch.row).map(|at| &job.rows[at]);
        run_line(|line| match line {
            Line::Date => Some(form.day(day)),
            Line::By => Some(by.to_owned()).filter(|by| !by.is_empty()),
            Line::ElectrodeNumber => Some(stretch.first.to_string()),
            Line::Mark => Some(row?.mark.text().trim().to_owned()),
            Line::Holes => whole(stretch.holes),
            Line::TubeUsed => Some(stretch.tube.of(tubes)?.name.clone()),
            _ => None,
        })
    });
    new_runs(job, rows.collect())
}

/// Holes as a count; none where an electrode drills but one end of a hole.
fn whole(holes: f64) -> Option<String> {
    (holes.fract() == 0.0).then(|| holes.to_string())
}

/// A line with what is known of it, column by column.
fn run_line(of_line: impl Fn(Line) -> Option<String>) -> Vec<Option<String>> {
    let columns = RUN_COLUMNS.iter();
    columns.map(|column| of_line(column.line())).collect()
}

/// New records below those that are here; `None` where there are none.
fn new_runs(job: &Job, rows: Vec<Vec<Option<String>>>) -> Option<Edit> {
    let row = job.slips_of::<kind::Run>().count();
    let line = Line::Date;
    (!rows.is_empty()).then_some(Edit::SetRuns {
        at: RunAt { row, line },
        rows,
        unit: job.unit,
    })
}

/// Holes of a row in one part; none where what was typed can't be read.
fn holes(row: &Row) -> Option<u64> {
    let unread = row.places.is_empty() && row.count.why().is_some();
    (!unread).then(|| u64::from(row.holes()))
}

fn in_parts(holes: u64, parts: u32) -> Option<String> {
    let all = holes.saturating_mul(u64::from(parts));
    (all > 0).then(|| all.to_string())
}
