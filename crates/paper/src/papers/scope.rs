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

pub(crate) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let words = &matter.words().quotation;
    let table = holes(matter);
    let keep = table.least(flow) + mm(6.0);
    flow.section(words.scope, "", keep);
    let tools = matter.holes().any(|hole| hole.is_broken_tool());
    let holes = matter.holes().any(|hole| !hole.is_broken_tool());
    if holes || !tools {
        flow.text(BODY, (words.offered)(matter.kinds()));
    }
    if tools {
        flow.text(BODY, words.offered_tools);
    }
    flow.take(mm(1.0));
    if table.rows.is_empty() {
        flow.text(STRONG, words.no_holes);
    } else {
        table.set(flow);
        flow.take(mm(1.5));
    }
    for (lead, field) in [
        (words.inspection, Field::Inspection),
        (words.hold_points, Field::HoldPoints),
        (words.outside, Field::OutsideText),
        (words.recast, Field::RecastLimit),
        (words.wall, Field::Thickness),
        (words.tolerance, Field::DefaultTolerance),
    ] {
        if matter.has(field) {
            let text = shown::plus_minus(&matter.typed_length(field)).replace('\n', "; ");
            flow.paragraph(&[Span::new(STRONG, lead), Span::new(BODY, &text)], 0.0);
        }
    }
}

/// The table of holes.
fn holes(matter: &Matter<'_>) -> Table {
    let words = &matter.words().quotation;
    let heads = &matter.words().heads;
    let sign = matter.job.unit.symbol();
    let mut table = Table::new([
        Column::text(heads.mark, Width::Fit(60.0)).style(STRONG),
        Column::figures(heads.holes, heads.in_one_part, Width::Fit(40.0)),
        Column::text(words.size_drawn, Width::Fit(130.0)),
        Column::figures(heads.at_least, sign, Width::Fit(48.0)),
        Column::figures(heads.at_most, sign, Width::Fit(48.0)),
        Column::figures(heads.depth, sign, Width::Fixed(46.0)),
        Column::text(heads.end, Width::Fit(46.0)),
        Column::figures(heads.from_normal, "\u{b0}", Width::Fixed(34.0)),
        Column::figures(heads.from_surface, "\u{b0}", Width::Fixed(36.0)),
        Column::text(heads.remark, Width::Share(1.0)),
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
    // What no pin checks is not promised within limits that nobody gave.
    let limits = hole.limits_mm().filter(|_| hole.is_pinned());
    let (lower, upper) = match limits {
        Some(Limits { lower, upper }) => (
            shown::lower(matter.form(), lower, unit, fine),
            shown::length(matter.form(), upper, unit, fine),
        ),
        None => (String::new(), String::new()),
    };
    let depth = match hole.depth_text(unit) {
        depth if depth == shown::missing() => hole.words.phrases.not_named.to_owned(),
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
        Cell::new(hole.size_text(unit)),
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
    said.extend(
        hole.depth_drawn(matter.job.unit)
            .map(|depth| (hole.words.hole.depth_drawn)(&depth)),
    );
    if !row.surface.text().trim().is_empty() {
        said.push((hole.words.hole.entry)(row.surface.text().trim()));
    }
    said.extend(hole.tool_told(matter.job.unit));
    if !row.recess.text().trim().is_empty() {
        said.push((hole.words.hole.recess)(row.recess.text().trim()));
    }
    said.extend(hole.asked_of_wire(matter.job.unit));
    if !row.exit.text().trim().is_empty() {
        said.push((hole.words.hole.exit)(row.exit.text().trim()));
    }
    if let Some(layers) = hole.layers_text(matter.job.unit, &matter.material_named()) {
        said.push((hole.words.hole.layers)(&layers));
    }
    if let Some(clearance) = hole.clearance(matter.job.unit) {
        said.push((hole.words.hole.clearance)(&clearance));
    }
    if hole.figures.and_then(|figures| figures.ends) == Some(Ends::Both) {
        said.push(hole.words.quotation.both_ends.to_owned());
    }
    if row.backed.value() == Some(&true) {
        said.push(hole.words.quotation.backed.to_owned());
    }
    said.join(" ")
}
