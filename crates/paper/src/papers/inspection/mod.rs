//! The hole inspection record: what was measured, of the lot or of a piece, and what was not.

pub(in crate::papers) mod blank;
mod lot;
mod measured;
mod piece_lines;
mod pieces;

use quillbore_calc::Limits;
use quillbore_job::{Field, Paper, inspected};

use crate::letterhead::frame::Frame;
use crate::letterhead::opening;
use crate::matter::Matter;
use crate::matter::nonconformance;
use crate::page::{Document, mm};
use crate::papers::sample;
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::form;
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::typeset::wrap::Span;
use crate::words::heads;
use crate::words::inspection as words;
use crate::words::phrases;
use crate::words::traveler::{holes, inspection as floor};

use measured::Measured;
use pieces::Pieces;

/// Sets the inspection record of a job: what is asked, what was measured over several pieces, then
/// every piece with its lines.
pub fn inspection(matter: &Matter<'_>) -> Document {
    let mut flow = Flow::new(matter.sheet);
    opening::title(matter, &mut flow, words::TITLE);
    opening::about(matter, &mut flow, Paper::Inspection);
    for (lead, field) in [
        (floor::ASKED_FOR, Field::Inspection),
        (floor::RECAST, Field::RecastLimit),
    ] {
        if matter.has(field) {
            let spans = [Span::new(STRONG, lead), Span::new(BODY, matter.text(field))];
            flow.paragraph(&spans, 0.0);
        }
    }
    if let Some(sample) = sample::said(matter) {
        flow.text(STRONG, &sample);
    }
    let how = words::how_checked(matter.kinds());
    flow.dashes(BODY, how.into_iter());
    asked(matter, &mut flow);
    let pieces = Pieces::of(matter);
    let measured = Measured::of(matter, &pieces);
    lot::set(matter, &measured, &mut flow);
    troubles(matter, &mut flow);
    piece_lines::set(matter, &pieces, &measured, &mut flow);
    let all = inspected::all_checked(matter.job, &inspected::parts(matter.job));
    flow.together(|flow| {
        flow.take(mm(2.0));
        let statement = if all {
            words::ALL_CHECKED
        } else {
            words::AS_NOTED
        };
        form::sign_off(flow, statement);
    });
    let note = words::sizes_in(phrases::unit_in_full(matter.job.unit));
    let frame = Frame::of(matter, Paper::Inspection, words::TITLE, &note);
    flow.finish(|page, number, of| frame.write(page, matter.sheet, number, of))
}

/// What the drawing asks of every hole, once.
fn asked(matter: &Matter<'_>, flow: &mut Flow) {
    let unit = matter.job.unit;
    let sign = unit.symbol();
    // Only where somebody numbered them on the drawing.
    let numbered = matter.holes().any(|hole| {
        let row = hole.row;
        !row.characteristic.text().trim().is_empty() || !row.zone.text().trim().is_empty()
    });
    let mut columns = vec![Column::text(heads::MARK, Width::Fit(60.0)).style(STRONG)];
    if numbered {
        columns.push(Column::text(words::CHARACTERISTIC, Width::Fit(60.0)));
        columns.push(Column::text(words::ZONE, Width::Fit(60.0)));
    }
    columns.extend([
        Column::figures(heads::HOLES, heads::IN_ONE_PART, Width::Fit(40.0)),
        Column::text(heads::DRAWING_SAYS, Width::Share(1.0)),
        Column::figures(words::GO, sign, Width::Fit(60.0)),
        Column::figures(words::NO_GO, sign, Width::Fit(60.0)),
        Column::figures(heads::DEPTH, sign, Width::Fixed(60.0)),
        Column::text(heads::END, Width::Fit(60.0)),
    ]);
    let mut table = Table::new(columns);
    let fine = matter.fine();
    for hole in matter.holes() {
        let limits = hole.figures.and_then(|figures| figures.limits_mm);
        // A maximum alone has no pin that must go in.
        let pin = |limit: fn(Limits) -> f64| {
            let limit = limits.map(limit).filter(|mm| *mm > 0.0);
            limit.map_or_else(shown::missing, |mm| {
                shown::length(matter.form(), mm, unit, fine)
            })
        };
        let count = hole.count().map_or_else(shown::missing, |count| {
            matter.form().count(f64::from(count))
        });
        let mut cells = vec![Cell::new(hole.mark())];
        if numbered {
            cells.push(Cell::new(hole.row.characteristic.text().trim()));
            cells.push(Cell::new(hole.row.zone.text().trim()));
        }
        cells.extend([
            Cell::new(count),
            Cell::new(shown::plus_minus(hole.row.size.text().trim())),
            Cell::new(pin(|limits| limits.lower)),
            Cell::new(pin(|limits| limits.upper)),
            Cell::new(hole.depth_text(unit)),
            Cell::new(hole.end_text()),
        ]);
        table.row(TableRow::new(cells));
    }
    let keep = table.least(flow);
    flow.section(words::ASKED, "", keep);
    table.set_or_say(flow, holes::NO_HOLES);
}

/// Every non-conformance, numbered as the pieces name it.
fn troubles(matter: &Matter<'_>, flow: &mut Flow) {
    let told: Vec<String> = nonconformance::all(matter)
        .iter()
        .map(nonconformance::Nonconformance::for_the_customer)
        .collect();
    flow.section(words::NONCONFORMANCES, "", mm(14.0));
    if told.is_empty() {
        flow.text(BODY, words::NO_NONCONFORMANCES);
    } else {
        flow.dashes(BODY, told.iter().map(String::as_str));
    }
}
