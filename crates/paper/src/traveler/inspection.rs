//! Blanks for measured holes.

use quillbore_job::Field;

use crate::flow::Flow;
use crate::form::{self, HAND};
use crate::look::{BODY, FIGURE, STRONG};
use crate::matter::Matter;
use crate::page::mm;
use crate::shown;
use crate::table::{Cell, Column, Row, Table, Width};
use crate::words::traveler as words;
use crate::wrap::Span;

/// Pieces with a column of their own.
const PIECES: usize = 6;

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let unit = matter.job.unit;
    let sign = words::unit_in_full(unit);
    let mut columns = vec![
        Column::text("Mark", Width::Fit(46.0)).style(STRONG),
        Column::text("Limits, depth", Width::Fit(96.0)),
    ];
    let wanted = matter
        .follows()
        .quantity
        .map_or(PIECES, |count| (count as usize).clamp(1, PIECES));
    columns.extend(
        (1..=wanted).map(|piece| Column::text(&format!("Piece {piece}"), Width::Share(1.0))),
    );
    let mut table = Table::new(columns).written_on();
    let mut serials = vec![Cell::styled("serial", FIGURE), Cell::default()];
    serials.extend((0..wanted).map(|_| Cell::blank()));
    table.row(Row::new(serials).at_least(HAND));
    let fine = matter.fine();
    for hole in matter.holes() {
        let limits = hole.figures.and_then(|figures| figures.limits_mm);
        let size = limits.map_or_else(String::new, |[lower, upper]| {
            let upper = shown::length(upper, unit, fine);
            if lower > 0.0 {
                let lower = shown::length(lower, unit, fine);
                format!("{lower}\u{a0}\u{2013}\u{a0}{upper}")
            } else {
                format!("at most {upper}")
            }
        });
        let depth = hole
            .figures
            .and_then(|figures| figures.depth_mm)
            .map_or_else(String::new, |depth| {
                format!(
                    "\n\u{21a7}\u{a0}{}",
                    shown::length(depth, unit, shown::middling(unit))
                )
            });
        let mut cells = vec![Cell::new(hole.mark()), Cell::new(format!("{size}{depth}"))];
        cells.extend((0..wanted).map(|_| Cell::blank()));
        table.row(Row::new(cells).at_least(HAND + mm(2.0)));
    }
    let remark = format!(
        "measured size over number of holes that passed; in {sign}. {}",
        words::COPY_HINT
    );
    flow.together(|flow| {
        flow.section("Inspection", &remark, mm(30.0));
        for (lead, field) in [
            ("Asked for: ", Field::Inspection),
            ("Recast at most: ", Field::RecastLimit),
        ] {
            if matter.has(field) {
                flow.paragraph(
                    &[Span::new(STRONG, lead), Span::new(BODY, matter.text(field))],
                    0.0,
                );
            }
        }
        table.set(flow);
        flow.take(mm(2.0));
        form::sign_off(flow, words::INSPECTED_CHECK);
    });
}
