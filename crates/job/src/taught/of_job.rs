//! The run records of a job, each held against the start values.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use quillbore_calc::input::RowInput;
use quillbore_calc::recorded::{Recorded, recorded, start_context};
use quillbore_calc::{JobInput, Tables};

use super::reading::read;
use crate::asked::to_input::to_input;
use crate::job::Job;
use crate::life;
use crate::life::inspected::same_mark;
use crate::life::untaught::Why;
use crate::pinned::slip::lists::{kind, line};
use crate::pinned::slip::view::View;
use crate::shop::rows::Shop;

/// What a run record of a job says.
#[derive(Clone, Debug, PartialEq)]
pub struct Taught {
    /// The slip's identity in the job.
    pub slip: u32,
    /// Its day.
    pub date: Option<NaiveDate>,
    /// The mark that it names, as typed.
    pub mark: String,
    /// What it says, or why it says nothing; its age is for whoever learns of it to put in.
    pub says: Result<Recorded, Why>,
    /// Why somebody left it out of learning; empty where nobody did.
    pub left_out: String,
    /// Figures of it that can't be used.
    pub without: Vec<Why>,
}

/// What the run records of a job say, in the order they came.
///
/// Each is held against the start values of the shop as it is given: what the shop's records make of
/// them plays no part.
#[must_use]
pub fn taught(job: &Job, shop: &Shop) -> Vec<Taught> {
    let mut runs = job.slips_of::<kind::Run>().peekable();
    if runs.peek().is_none() {
        return Vec::new();
    }
    let input = to_input(job, shop).input;
    let context = start_context(&input, &shop.tables);
    let rows = Rows::of(job, &input);
    let mut pieces = pieces(job);
    let mut taught = |run: View<'_, kind::Run>| {
        let mut without = Vec::new();
        let says = one(job, run, &rows, &shop.tables, |row, mut reading| {
            without.append(&mut reading.without);
            match pieces.remove(&run.id()) {
                Some(Ok(counted)) => reading.ran.pieces = Some(counted),
                Some(Err(why)) => without.push(why),
                None => {}
            }
            let said = recorded(&context, &shop.tables, row, &reading.ran);
            said.map_err(Why::NotUsed)
        });
        if let Ok(says) = &says {
            without.extend(says.unbelievable.iter().copied().map(Why::Unbelievable));
        }
        Taught {
            slip: run.id(),
            date: run.get(line::Date),
            mark: run.get(line::Mark).to_owned(),
            left_out: run.get(line::LeftOut).to_owned(),
            says,
            without,
        }
    };
    runs.map(&mut taught).collect()
}

fn one(
    job: &Job,
    run: View<'_, kind::Run>,
    rows: &Rows<'_>,
    tables: &Tables,
    of: impl FnOnce(&RowInput, super::reading::Reading) -> Result<Recorded, Why>,
) -> Result<Recorded, Why> {
    let row = rows.named(run);
    let row = row.ok_or_else(|| Why::NoRow(run.get(line::Mark).to_owned()))?;
    of(row, read(run, job.unit, tables)?)
}

/// The rows of a job by what their marks are compared by.
struct Rows<'a> {
    by_mark: BTreeMap<String, &'a RowInput>,
    /// Where the job has one row alone, a record without a mark means that.
    only: Option<&'a RowInput>,
}

impl<'a> Rows<'a> {
    fn of(job: &Job, input: &'a JobInput) -> Self {
        let mut by_mark = BTreeMap::new();
        for (row, input) in job.rows.iter().zip(&input.rows) {
            if let Some(mark) = same_mark(row.mark.text()) {
                // Of two with one mark the first is meant, as everywhere.
                by_mark.entry(mark).or_insert(input);
            }
        }
        Self {
            by_mark,
            only: match input.rows.as_slice() {
                [only] => Some(only),
                _ => None,
            },
        }
    }

    /// The row that a record names.
    fn named(&self, run: View<'_, kind::Run>) -> Option<&'a RowInput> {
        match same_mark(run.get(line::Mark)) {
            Some(mark) => self.by_mark.get(&mark).copied(),
            None => self.only,
        }
    }
}

/// Good and spoiled pieces by the record that tells them. A piece is drilled at several marks, so they
/// are those of the mark that tells the most, told once.
fn pieces(job: &Job) -> BTreeMap<u32, Result<[f64; 2], Why>> {
    let mut by_mark: BTreeMap<Option<String>, (u32, [u32; 2])> = BTreeMap::new();
    for run in job.slips_of::<kind::Run>() {
        let told = [run.get(line::Good), run.get(line::Scrap)];
        if told == [None, None] || !run.get(line::LeftOut).is_empty() {
            continue;
        }
        let of_mark = by_mark.entry(same_mark(run.get(line::Mark)));
        let (_, sum) = of_mark.or_insert((run.id(), [0; 2]));
        for (sum, told) in sum.iter_mut().zip(told) {
            *sum = sum.saturating_add(told.unwrap_or(0));
        }
    }
    let most = by_mark
        .into_values()
        .max_by_key(|(_, [good, scrap])| good.saturating_add(*scrap));
    let Some((slip, [good, scrap])) = most else {
        return BTreeMap::new();
    };
    let told = good.saturating_add(scrap);
    let received = life::sum::<kind::Received, _>(job, line::Count);
    let counted = if received > 0 && told > received {
        Err(Why::MorePieces { told, received })
    } else {
        Ok([f64::from(good), f64::from(scrap)])
    };
    BTreeMap::from([(slip, counted)])
}
