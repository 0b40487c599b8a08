//! Figures and findings of one row.
#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests stop the test as tests do"
)]
#![expect(
    unreachable_pub,
    reason = "the shop's fixtures are also included by the documentation's examples"
)]

#[path = "../shop/rows.rs"]
mod shop;

mod alike;
mod bounds;
mod burnt;
mod buying;
mod chances;
mod choices;
mod draws;
mod findings;
mod flush;
mod half_filled;
mod head;
mod million;
mod minutes;
mod money;
mod overrules;
mod reach;
mod sizes;
mod start_holes;
mod surfaces;
mod tubes;

use quillbore_calc::finding::Level;
use quillbore_calc::hole::row_figures;
use quillbore_calc::input::Overrule;
use quillbore_calc::job_figures::HoleFigures;
use quillbore_calc::tables::Tube;
use quillbore_calc::{Figure, Idx, JobInput, RowInput, Tables};

/// The figures of a row in the tests' shop and job.
fn figures(row: &RowInput) -> HoleFigures {
    row_figures(&shop::job(vec![row.clone()]), row, &shop::tables())
}

/// The figures of the first row of a job.
fn first(input: &JobInput, tables: &Tables) -> HoleFigures {
    row_figures(input, &input.rows[0], tables)
}

/// The tests' job with one row and one overrule.
fn overruled(row: &RowInput, figure: Figure, value: f64) -> JobInput {
    let mut input = shop::job(vec![row.clone()]);
    input.overrules.push(Overrule { figure, value });
    input
}

/// The first tube with this diameter, length and number of channels.
fn tube(tables: &Tables, outer_mm: f64, length_mm: f64, channels: u8) -> Idx<Tube> {
    let found = Idx::find(&tables.tubes, |tube| {
        (tube.outer_mm - outer_mm).abs() < 1e-9
            && tube.length_mm == length_mm
            && tube.channels == channels
    });
    found.unwrap()
}

fn close(found: f64, expected: f64, within: f64) {
    assert!(
        (found - expected).abs() <= within,
        "{found} is not {expected} within {within}"
    );
}

/// The codes of a row's findings of one level.
fn codes(found: &HoleFigures, level: Level) -> Vec<&'static str> {
    let of_level = (found.findings.iter()).filter(|finding| finding.level == level);
    of_level.map(|finding| finding.kind.code()).collect()
}
