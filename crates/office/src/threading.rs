//! The threading list: where the start holes of a job lie, how wide they end and which wire goes into each,
//! as CSV for whoever cuts by wire.

use csv::{Terminator, WriterBuilder};
use quillbore_calc::job_figures::HoleFigures;
use quillbore_calc::quantity::MM_PER_INCH;
use quillbore_job::{Form, Row, Unit};

use crate::failure::Failure;
use crate::print::{Printed, Sitting};
use crate::shop_csv::guarded;
use crate::words::threading as words;

/// How far a hole may lean and still be met by a wire that stands upright, as the share of its axis that
/// lies across: a tenth of a millimeter in 100.
const UPRIGHT: f64 = 0.001;

/// The list, and what there is to say of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Threading {
    /// The file.
    pub printed: Printed,
    /// Rows of which not all is known that the list should say, and holes that have no line.
    pub told: Vec<String>,
}

/// The threading list of a job: a line for each hole that a wire goes into, in the table's order. A hole
/// without a location has a line too, and is told.
///
/// # Errors
/// Where no hole has a wire.
pub fn list(sitting: Sitting<'_>) -> Result<Threading, Failure> {
    let Sitting { job, results } = sitting;
    let unit = job.unit;
    let mut writer = WriterBuilder::new()
        .terminator(Terminator::CRLF)
        .from_writer(Vec::new());
    // Writing to memory can't fail.
    let _ = writer.write_record(words::heads(unit));
    let mut told = Vec::new();
    let mut lines = 0_u32;
    for (at, row) in job.rows.iter().enumerate() {
        let Some(wire) = row.wire.value() else {
            told.extend(without_wire(row, at));
            continue;
        };
        let figures = results.figures.holes.get(at);
        let figures = figures.filter(|hole| hole.row == row.id);
        let [smallest, expected] = exits(figures.map(AsRef::as_ref)).map(|exit| shown(exit, unit));
        let wire = shown(Some(wire.mm()), unit);
        let mark = guarded(row.mark.text().trim());
        for place in row.places.iter() {
            let [x, y, _] = place.point_mm.map(|mm| shown(Some(mm), unit));
            let number = place.number.to_string();
            let _ = writer.write_record([&number, &mark, &x, &y, &smallest, &expected, &wire]);
            lines += 1;
        }
        if row.places.is_empty() {
            for _ in 0..row.holes() {
                let _ = writer.write_record(["", &mark, "", "", &smallest, &expected, &wire]);
                lines += 1;
            }
            told.push(words::without_locations(&named(row, at), row.holes()));
        }
        let leans = |[x, y, _]: &[f64; 3]| x * x + y * y > UPRIGHT * UPRIGHT;
        if row.places.iter().any(|place| leans(&place.axis)) {
            told.push(words::leaning(&named(row, at)));
        }
        if smallest.is_empty() {
            told.push(words::exit_unknown(&named(row, at)));
        }
    }
    if lines == 0 {
        return Err(words::no_wire(&job.number));
    }
    Ok(Threading {
        printed: Printed {
            name: "threading",
            ending: "csv",
            bytes: writer.into_inner().unwrap_or_default(),
            unprintable: Vec::new(),
        },
        told,
    })
}

/// A row that a wire was meant for, and whose wire can't be read; any other has no line by right.
fn without_wire(row: &Row, at: usize) -> Option<String> {
    let typed = row.wire.text().trim();
    (!typed.is_empty()).then(|| words::wire_unread(&named(row, at), typed))
}

/// A row by its mark, else by its place in the table.
fn named(row: &Row, at: usize) -> String {
    match row.mark.text().trim() {
        "" => words::row(at + 1),
        mark => mark.to_owned(),
    }
}

fn exits(figures: Option<&HoleFigures>) -> [Option<f64>; 2] {
    let exits = figures.and_then(|figures| figures.start_hole.as_ref()?.exits);
    [
        exits.map(|exits| exits.smallest_mm),
        exits.map(|exits| exits.expected_mm),
    ]
}

/// A length in the job's unit, to a tenth of a micrometer or a hundred-thousandth of an inch: with a point,
/// whatever the shop's form, since programs read it.
fn shown(mm: Option<f64>, unit: Unit) -> String {
    let fixed = |mm: f64| match unit {
        Unit::Mm => Form::PLAIN.fixed(mm, 4),
        Unit::Inch => Form::PLAIN.fixed(mm / MM_PER_INCH, 5),
    };
    mm.map_or_else(String::new, fixed)
}
