//! What is offered to be done.

use quillbore_calc::Limits;
use quillbore_calc::input::Ends;
use quillbore_job::Field;

use crate::matter::{Hole, Matter};
use crate::page::mm;
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::typeset::wrap::Span;
use crate::words::heads;
use crate::words::hole as hole_words;
use crate::words::phrases;
use crate::words::quotation as words;

pub(crate) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let table = holes(matter);
    let keep = table.least(flow) + mm(6.0);
    flow.section(words::SCOPE, "", keep);
    flow.text(BODY, words::scope(matter.kinds()));
    flow.take(mm(1.0));
    if table.rows.is_empty() {
        flow.text(STRONG, words::NO_HOLES);
    } else {
        table.set(flow);
        flow.take(mm(1.5));
    }
    for (lead, field) in [
        (words::INSPECTION, Field::Inspection),
        (words::HOLD_POINTS, Field::HoldPoints),
        (words::OUTSIDE, Field::OutsideText),
        (words::RECAST, Field::RecastLimit),
        (words::WALL, Field::Thickness),
        (words::TOLERANCE, Field::DefaultTolerance),
    ] {
        if matter.has(field) {
            let text = shown::plus_minus(&matter.typed_length(field)).replace('\n', "; ");
            flow.paragraph(&[Span::new(STRONG, lead), Span::new(BODY, &text)], 0.0);
        }
    }
}

/// The table of holes.
fn holes(matter: &Matter<'_>) -> Table {
    let sign = matter.job.unit.symbol();
    let mut table = Table::new([
        Column::text(heads::MARK, Width::Fit(60.0)).style(STRONG),
        Column::figures(heads::HOLES, heads::IN_ONE_PART, Width::Fit(40.0)),
        Column::text(words::SIZE_DRAWN, Width::Fit(130.0)),
        Column::figures(heads::AT_LEAST, sign, Width::Fit(48.0)),
        Column::figures(heads::AT_MOST, sign, Width::Fit(48.0)),
        Column::figures(heads::DEPTH, sign, Width::Fixed(46.0)),
        Column::text(heads::END, Width::Fit(46.0)),
        Column::figures(heads::FROM_NORMAL, "\u{b0}", Width::Fixed(34.0)),
        Column::figures(heads::FROM_SURFACE, "\u{b0}", Width::Fixed(36.0)),
        Column::text(heads::REMARK, Width::Share(1.0)),
    ]);
    let fine = matter.fine();
    for hole in matter.holes() {
        table.row(row(matter, &hole, fine));
    }
    table
}

/// One row of holes as offered.
fn row(matter: &Matter<'_>, hole: &Hole<'_>, fine: usize) -> TableRow {
    let unit = matter.job.unit;
    let figures = hole.figures;
    let limits = figures.and_then(|figures| figures.limits_mm);
    let (lower, upper) = match limits {
        Some(Limits { lower, upper }) => (
            shown::lower(matter.form(), lower, unit, fine),
            shown::length(matter.form(), upper, unit, fine),
        ),
        None => (String::new(), String::new()),
    };
    let depth = match hole.depth_text(unit) {
        depth if depth == shown::missing() => phrases::NOT_NAMED.to_owned(),
        depth => depth,
    };
    let tilt = figures.map(|figures| figures.tilt_deg);
    let angle = |deg: Option<f64>| deg.map_or_else(String::new, |deg| matter.form().fixed(deg, 1));
    TableRow::new([
        Cell::new(hole.mark()),
        Cell::new(
            hole.count()
                .map_or_else(String::new, |count| matter.form().count(f64::from(count))),
        ),
        Cell::new(shown::plus_minus(hole.row.size.text().trim())),
        Cell::new(lower),
        Cell::new(upper),
        Cell::new(depth),
        Cell::new(hole.end_text()),
        Cell::new(angle(tilt)),
        Cell::new(angle(tilt.map(|tilt| 90.0 - tilt))),
        Cell::new(hole.row.note.text().trim()),
    ])
    .note(made_of(matter, hole))
}

/// Entry, layers and what is behind the exit, as they were named: the price rests on them.
fn made_of(matter: &Matter<'_>, hole: &Hole<'_>) -> String {
    let row = hole.row;
    let mut said = Vec::new();
    if !row.surface.text().trim().is_empty() {
        said.push(hole_words::entry(row.surface.text().trim()));
    }
    if let Some(layers) = hole.layers_text(matter.job.unit, &matter.material_named()) {
        said.push(hole_words::layers(&layers));
    }
    if let Some(clearance) = hole.clearance(matter.job.unit) {
        said.push(hole_words::clearance(&clearance));
    }
    if hole.figures.and_then(|figures| figures.ends) == Some(Ends::Both) {
        said.push(words::BOTH_ENDS.to_owned());
    }
    if row.backed.value() == Some(&true) {
        said.push(words::BACKED.to_owned());
    }
    said.join(" ")
}
