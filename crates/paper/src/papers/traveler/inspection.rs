//! Blanks for measured holes.

use quillbore_calc::Limits;
use quillbore_job::{Field, inspected};

use crate::matter::Matter;
use crate::page::mm;
use crate::papers::sample;
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::form::{self, HAND};
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::typeset::wrap::Span;
use crate::words::heads;
use crate::words::phrases;
use crate::words::traveler::inspection as words;

/// Pieces beside each other on one sheet.
const ACROSS: usize = 6;
/// Space between two columns.
const BESIDE: f64 = 8.0;
/// Pieces with a column of their own: of more than these the inspection record has the lines.
const MOST: usize = 12;

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let (shown, count) = pieces(matter);
    let sign = phrases::unit_in_full(matter.job.unit);
    let mut remark = words::remark(sign);
    if shown.len() < count {
        let further = words::further_pieces(shown.len() + 1, count);
        remark += &format!(". {further}");
    }
    flow.section(words::NAME, &remark, mm(30.0));
    for (lead, field) in [
        (words::ASKED_FOR, Field::Inspection),
        (words::RECAST, Field::RecastLimit),
    ] {
        if matter.has(field) {
            flow.paragraph(
                &[Span::new(STRONG, lead), Span::new(BODY, matter.text(field))],
                0.0,
            );
        }
    }
    if let Some(sample) = sample::said(matter) {
        flow.text(STRONG, &sample);
    }
    flow.take(mm(0.8));
    let across = shown.len().min(ACROSS);
    for block in shown.chunks(ACROSS) {
        let table = table(matter, block, flow.body().width() / (across + 2) as f64);
        flow.together(|flow| {
            table.set(flow);
            flow.take(mm(1.6));
        });
    }
    form::sign_off(flow, words::INSPECTED_CHECK);
}

/// The pieces that have a column, by serial number, else by number, and how many there are in all; the
/// number alone where there is room to write one.
fn pieces(matter: &Matter<'_>) -> (Vec<(String, String)>, usize) {
    let parts = inspected::parts(matter.job);
    let count = (parts.count as usize)
        .max(parts.serials.len())
        .max(if parts.count == 0 { ACROSS } else { 1 });
    let shown = if count > MOST { ACROSS } else { count };
    let mut serials = parts.serials.into_iter();
    let pieces = (1..=shown).map(|piece| {
        let serial = serials.next().unwrap_or_default();
        (words::piece(piece), serial)
    });
    (pieces.collect(), count)
}

/// Blanks for some pieces, each so wide with the space beside it.
fn table(matter: &Matter<'_>, pieces: &[(String, String)], wide: f64) -> Table {
    let unit = matter.job.unit;
    let mut columns = vec![
        Column::text(heads::MARK, Width::Fixed(wide * 0.7 - BESIDE)).style(STRONG),
        Column::text(words::LIMITS, Width::Fixed(wide * 1.3 - BESIDE)),
    ];
    let heads = pieces.iter();
    columns.extend(heads.map(|(piece, _)| Column::text(piece, Width::Fixed(wide - BESIDE))));
    columns.push(Column::text("", Width::Share(1.0)));
    let mut table = Table::new(columns).written_on();
    let mut serials = vec![Cell::styled(words::SERIAL, BODY), Cell::default()];
    serials.extend(pieces.iter().map(|(_, serial)| Cell::new(serial.as_str())));
    table.row(TableRow::new(serials).at_least(HAND));
    let fine = matter.fine();
    for hole in matter.holes() {
        let limits = hole.limits_mm().filter(|_| hole.is_pinned());
        let size = limits.map_or_else(String::new, |Limits { lower, upper }| {
            let upper = shown::length(matter.form(), upper, unit, fine);
            if lower > 0.0 {
                let lower = shown::length(matter.form(), lower, unit, fine);
                format!("{lower}\u{a0}\u{2013}\u{a0}{upper}")
            } else {
                phrases::at_most(&upper)
            }
        });
        let depth = hole
            .figures
            .and_then(|figures| figures.depth_mm)
            .map_or_else(String::new, |depth| {
                let length =
                    |mm: f64| shown::length(matter.form(), mm, unit, shown::middling(unit));
                let plan = hole.figures.and_then(|figures| figures.depth_plan);
                let said = match plan.filter(|_| hole.is_blind()) {
                    Some(plan) => {
                        // The drawing's depth counts from the surface, the tip's limit from where it touches.
                        let touch = hole.figures.map_or(0.0, |figures| figures.touch_mm.entry);
                        let upper = plan.never_beyond_mm - touch;
                        let lower = upper - 2.0 * plan.allowed_mm;
                        format!("{}\u{a0}\u{2013}\u{a0}{}", length(lower), length(upper))
                    }
                    None => length(depth),
                };
                format!("\u{21a7}\u{a0}{said}")
            });
        let proof = hole.proof().map(|proof| words::open_by(&proof));
        let asked = [size, depth, proof.unwrap_or_default()];
        let asked = asked.into_iter().filter(|said| !said.is_empty());
        let asked = asked.collect::<Vec<_>>().join("\n");
        let mut cells = vec![Cell::new(hole.mark()), Cell::new(asked)];
        cells.extend(pieces.iter().map(|_| Cell::blank()));
        table.row(TableRow::new(cells).at_least(HAND + mm(2.0)));
    }
    table
}
