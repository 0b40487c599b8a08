//! What is offered to be done.

use quillbore_job::Field;

use crate::flow::Flow;
use crate::look::{BODY, STRONG};
use crate::matter::Matter;
use crate::page::mm;
use crate::shown;
use crate::table::{Cell, Column, Row, Table, Width};
use crate::words::traveler as floor;
use crate::wrap::Span;

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let unit = matter.job.unit;
    let sign = shown::unit(unit);
    let mut table = Table::new([
        Column::text("Mark", Width::Fit(60.0)).style(STRONG),
        Column::figures("Holes", "in one part", Width::Fit(40.0)),
        Column::text("Size as on the drawing", Width::Fit(130.0)),
        Column::figures("at least", sign, Width::Fit(48.0)),
        Column::figures("at most", sign, Width::Fit(48.0)),
        Column::figures("Depth on the axis", sign, Width::Fixed(46.0)),
        Column::text("End", Width::Fit(46.0)),
        Column::figures("from normal", "\u{b0}", Width::Fixed(34.0)),
        Column::figures("from surface", "\u{b0}", Width::Fixed(36.0)),
        Column::text("Remark", Width::Share(1.0)),
    ]);
    let fine = matter.fine();
    for hole in matter.holes() {
        let figures = hole.figures;
        let limits = figures.and_then(|figures| figures.limits_mm);
        let (lower, upper) = match limits {
            Some([lower, upper]) => (
                shown::lower(lower, unit, fine),
                shown::length(upper, unit, fine),
            ),
            None => (String::new(), String::new()),
        };
        let depth = figures.and_then(|figures| figures.depth_mm).map_or_else(
            || "not named".to_owned(),
            |depth| shown::length(depth, unit, shown::middling(unit)),
        );
        let tilt = figures.map(|figures| figures.tilt_deg);
        let angle = |deg: Option<f64>| deg.map_or_else(String::new, |deg| shown::fixed(deg, 1));
        let end = hole.row.end.value().copied();
        table.row(Row::new([
            Cell::new(hole.mark()),
            Cell::new(
                hole.count()
                    .map_or_else(String::new, |count| count.to_string()),
            ),
            Cell::new(hole.row.size.text().trim()),
            Cell::new(lower),
            Cell::new(upper),
            Cell::new(depth),
            Cell::new(end.map_or_else(
                || hole.row.end.text().to_owned(),
                |end| floor::end(end).to_owned(),
            )),
            Cell::new(angle(tilt)),
            Cell::new(angle(tilt.map(|tilt| 90.0 - tilt))),
            Cell::new(hole.row.note.text().trim()),
        ]));
    }
    flow.section("Scope", "", mm(24.0));
    flow.text(BODY, "EDM drilling of the holes below, every hole checked open and by pin, parts washed and packed as received.");
    flow.take(mm(1.0));
    if table.rows.is_empty() {
        flow.text(STRONG, "No holes are named yet.");
    } else {
        table.set(flow);
        flow.take(mm(1.5));
    }
    for (lead, field) in [
        ("Inspection: ", Field::Inspection),
        ("Outside work: ", Field::OutsideText),
        ("Recast limit: ", Field::RecastLimit),
    ] {
        if matter.has(field) {
            flow.paragraph(
                &[Span::new(STRONG, lead), Span::new(BODY, matter.text(field))],
                0.0,
            );
        }
    }
}
