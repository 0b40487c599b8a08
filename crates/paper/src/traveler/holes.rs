//! The hole table: what the drawing asks, and what the machine is set to.

use quillbore_calc::input::Ends;
use quillbore_calc::job_figures::HoleFigures;
use quillbore_job::field::AngleBasis;
use quillbore_job::{Field, Value};

use crate::drawing::section;
use crate::flow::Flow;
use crate::look::{FIGURE, STRONG};
use crate::matter::{Hole, Matter};
use crate::page::{Style, mm};
use crate::shown;
use crate::table::{Cell, Column, Row, Table, Width};
use crate::words::traveler as words;

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let unit = matter.job.unit;
    let sign = shown::unit(unit);
    let mut table = Table::new([
        Column::text("Mark", Width::Fit(46.0)).style(STRONG),
        Column::figures("Holes", "in one part", Width::Fit(36.0)),
        Column::text("Drawing says", Width::Fit(86.0)),
        Column::figures("at least", sign, Width::Fit(40.0)),
        Column::figures("at most", sign, Width::Fit(40.0)),
        Column::figures("Depth on the axis", sign, Width::Fixed(38.0)),
        Column::text("End", Width::Fit(38.0)),
        Column::figures("from normal", "\u{b0}", Width::Fixed(27.0)),
        Column::figures("from surface", "\u{b0}", Width::Fixed(30.0)),
        Column::text("Electrode", Width::Share(1.0)),
        Column::figures("Machine depth", sign, Width::Fixed(42.0)).style(STRONG),
        Column::figures("Minutes", "each", Width::Fit(36.0)),
    ]);
    let fine = matter.fine();
    for hole in matter.holes() {
        table.row(row(matter, &hole, fine));
    }
    flow.section("Holes", &words::hole_table_remark(unit), mm(22.0));
    if table.rows.is_empty() {
        flow.text(
            crate::look::BODY,
            "The hole table is empty: nothing may be drilled from this paper.",
        );
        return;
    }
    table.set(flow);
    section::strip(matter, flow);
}

fn row(matter: &Matter<'_>, hole: &Hole<'_>, fine: usize) -> Row {
    let unit = matter.job.unit;
    let figures = hole.figures;
    let limits = figures.and_then(|figures| figures.limits_mm);
    let (lower, upper) = match limits {
        Some([lower, upper]) => (
            shown::lower(lower, unit, fine),
            shown::length(upper, unit, fine),
        ),
        None => (missing(), missing()),
    };
    let depth = |mm: Option<f64>| {
        mm.map_or_else(missing, |mm| shown::length(mm, unit, shown::middling(unit)))
    };
    let minutes = figures
        .and_then(|figures| figures.minutes)
        .map_or_else(missing, |minutes| shown::fixed(minutes.p50, 2));
    let end = hole.row.end.value().copied();
    let (normal, surface) = angles(matter, hole);
    let cells = [
        Cell::new(hole.mark()),
        Cell::new(hole.count().map_or_else(missing, |count| count.to_string())),
        Cell::new(hole.row.size.text().trim()),
        Cell::new(lower),
        Cell::new(upper),
        Cell::new(depth(figures.and_then(|figures| figures.depth_mm))),
        Cell::new(end.map_or_else(
            || hole.row.end.text().to_owned(),
            |end| words::end(end).to_owned(),
        )),
        normal,
        surface,
        Cell::new(
            figures
                .and_then(|figures| matter.tube(figures.tube?))
                .map_or_else(|| "not chosen yet".to_owned(), |tube| tube.name.clone()),
        ),
        Cell::new(depth(figures.and_then(|figures| figures.machine_depth_mm))),
        Cell::new(minutes),
    ];
    Row::new(cells).note(note(matter, hole))
}

fn missing() -> String {
    "\u{2013}".to_owned()
}

/// Both angles, the drawing's own in bold.
fn angles(matter: &Matter<'_>, hole: &Hole<'_>) -> (Cell, Cell) {
    let from_normal = match (hole.row.angle.value(), hole.figures) {
        (Some(angle), _) => angle.from_normal.deg(),
        (None, Some(figures)) => figures.tilt_deg,
        (None, None) => 0.0,
    };
    let basis = match hole.row.angle.value() {
        Some(angle) => angle.basis,
        None => match matter.job.field(Field::AngleBasis).value() {
            Some(Value::AngleBasis(basis)) => *basis,
            _ => AngleBasis::FromNormal,
        },
    };
    let cell = |deg: f64, own: bool| {
        let style: Style = if own { FIGURE.bold() } else { FIGURE };
        Cell::styled(shown::fixed(deg, 1), style)
    };
    (
        cell(from_normal, basis == AngleBasis::FromNormal),
        cell(90.0 - from_normal, basis == AngleBasis::FromSurface),
    )
}

/// What else must be known of a row: layers, ends, electrodes one after another, remarks.
fn note(matter: &Matter<'_>, hole: &Hole<'_>) -> String {
    let mut said: Vec<String> = Vec::new();
    let row = hole.row;
    if !row.layers.is_empty() {
        said.push(format!(
            "Layers from the entry: {}.",
            row.layers.text().trim()
        ));
    }
    if let Some(figures) = hole.figures {
        said.extend(drilled(figures));
    }
    if row.backed.value() == Some(&true) {
        said.push("Backing behind the exit.".to_owned());
    }
    if !row.note.is_empty() {
        said.push(format!("Drawing: {}", row.note.text().trim()));
    }
    for remark in matter.remarks_on(row.id) {
        said.push(format!("{}: {}", words::level(remark.level), remark.text));
    }
    said.join(" ")
}

fn drilled(figures: &HoleFigures) -> Vec<String> {
    let mut said = Vec::new();
    if figures.ends == Some(Ends::Both) {
        said.push(words::BOTH_ENDS.to_owned());
    }
    if let Some(count) = figures.electrodes_per_hole.filter(|count| *count > 1) {
        said.push(format!(
            "{count} electrodes one after another in each hole."
        ));
    }
    said
}
