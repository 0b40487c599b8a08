//! The hole inspection record: what was measured, of the lot or of a piece, and what was not.

pub(in crate::papers) mod blank;
mod lot;
mod measured;
mod piece_lines;
mod pieces;

use quillbore_calc::Limits;
use quillbore_calc::input::Proof;
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

use measured::Measured;
use pieces::Pieces;

/// Sets the inspection record of a job: what is asked, what was measured over several pieces, then
/// every piece with its lines.
pub fn inspection(matter: &Matter<'_>) -> Document {
    let words = &matter.words().inspection;
    let mut flow = Flow::in_language(matter.sheet, matter.language);
    opening::title(matter, &mut flow, words.title);
    opening::about(matter, &mut flow, Paper::Inspection);
    for (lead, field) in [
        (words.asked_for, Field::Inspection),
        (words.recast, Field::RecastLimit),
    ] {
        if matter.has(field) {
            let spans = [Span::new(STRONG, lead), Span::new(BODY, matter.text(field))];
            flow.paragraph(&spans, 0.0);
        }
    }
    if let Some(sample) = sample::said(matter) {
        flow.text(STRONG, &sample);
        let so_far = sample::so_far(matter);
        flow.dashes(BODY, so_far.iter().map(String::as_str));
    }
    let how = (words.how_checked)(matter.kinds());
    flow.dashes(BODY, how.into_iter());
    asked(matter, &mut flow);
    let pieces = Pieces::of(matter);
    let measured = Measured::of(matter, &pieces);
    lot::set(matter, &measured, &mut flow);
    troubles(matter, &mut flow);
    let all = inspected::all_checked(matter.job, &inspected::parts(matter.job));
    let signed = |flow: &mut Flow| {
        flow.take(mm(2.0));
        let statement = if all {
            words.all_checked
        } else {
            words.as_noted
        };
        form::sign_off(flow, statement);
    };
    piece_lines::set(matter, (&pieces, &measured), &mut flow, signed);
    let note = (words.sizes_in)(matter.job.unit);
    let frame = Frame::of(matter, Paper::Inspection, words.title, &note);
    flow.finish(|page, number, of| frame.write(page, matter.sheet, number, of))
}

/// What the drawing asks of every hole, once.
fn asked(matter: &Matter<'_>, flow: &mut Flow) {
    let all = matter.words();
    let words = &all.inspection;
    let unit = matter.job.unit;
    let sign = unit.symbol();
    // Only where somebody numbered them on the drawing.
    let numbered = matter.holes().any(|hole| {
        let row = hole.row;
        !row.characteristic.text().trim().is_empty() || !row.zone.text().trim().is_empty()
    });
    let mut columns = vec![Column::text(all.heads.mark, Width::Fit(60.0)).style(STRONG)];
    if numbered {
        columns.push(Column::text(words.characteristic, Width::Fit(60.0)));
        columns.push(Column::text(words.zone, Width::Fit(60.0)));
    }
    columns.extend([
        Column::figures(all.heads.holes, all.heads.in_one_part, Width::Fit(40.0)),
        Column::text(words.drawing_says, Width::Share(1.0)),
        Column::figures(words.go, sign, Width::Fit(60.0)),
        Column::figures(words.no_go, sign, Width::Fit(60.0)),
        Column::figures(all.heads.depth, sign, Width::Fixed(60.0)),
        Column::text(all.heads.end, Width::Fit(60.0)),
    ]);
    let proved = matter.kinds().proved;
    if proved {
        columns.push(Column::text(words.proved_by, Width::Fit(90.0)));
    }
    let mut table = Table::new(columns);
    let fine = matter.fine();
    for hole in matter.holes() {
        let limits = hole.limits_mm().filter(|_| hole.is_pinned());
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
            Cell::new(hole.size_text(matter.job.unit)),
            Cell::new(pin(|limits| limits.lower)),
            Cell::new(pin(|limits| limits.upper)),
            Cell::new(hole.depth_text(unit)),
            Cell::new(hole.end_text()),
        ]);
        if proved {
            let by_pin = hole
                .is_pinned()
                .then(|| (hole.words.hole.proof)(Proof::Pin).to_owned());
            cells.push(Cell::new(hole.proof().or(by_pin).unwrap_or_default()));
        }
        table.row(TableRow::new(cells));
    }
    let keep = table.least(flow);
    flow.section(words.asked, "", keep);
    table.set_or_say(flow, words.no_holes);
}

/// Every non-conformance, numbered as the pieces name it.
fn troubles(matter: &Matter<'_>, flow: &mut Flow) {
    let words = &matter.words().inspection;
    let told: Vec<String> = nonconformance::all(matter)
        .iter()
        .map(nonconformance::Nonconformance::for_the_customer)
        .collect();
    flow.section(words.nonconformances, "", mm(14.0));
    if told.is_empty() {
        flow.text(BODY, words.no_nonconformances);
    } else {
        flow.dashes(BODY, told.iter().map(String::as_str));
    }
}
