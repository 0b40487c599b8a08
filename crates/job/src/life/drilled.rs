//! Whether the run records tell of every hole of the parts that are on the floor.

use std::collections::BTreeMap;

use crate::job::Job;
use crate::life::inspected::same_mark;
use crate::life::on_floor::parts_on_floor;
use crate::pinned::slip::lists::{kind, line};

/// Whether the run records tell of every hole of the parts that were released.
pub(super) fn is_drilled(job: &Job) -> bool {
    let parts = u64::from(parts_on_floor(job));
    let mut drilled: BTreeMap<Option<String>, u64> = BTreeMap::new();
    for run in job.slips_of::<kind::Run>() {
        let of_mark = drilled.entry(same_mark(run.get(line::Mark))).or_default();
        *of_mark += run.get(line::Holes).map_or(0, u64::from);
    }
    let mut wanted: BTreeMap<Option<String>, u64> = BTreeMap::new();
    for row in &job.rows {
        let of_mark = wanted.entry(same_mark(row.mark.text())).or_default();
        *of_mark = of_mark.saturating_add(u64::from(row.holes()).saturating_mul(parts));
    }
    let all: u64 = drilled.values().sum();
    let enough = |(mark, wanted): (&Option<String>, &u64)| {
        drilled.get(mark).is_some_and(|drilled| drilled >= wanted)
    };
    parts > 0
        && match wanted.len() {
            0 => false,
            // Where all rows have one mark, a record without a mark means that.
            1 => wanted.values().all(|wanted| all >= *wanted),
            _ => wanted.iter().all(enough),
        }
}
