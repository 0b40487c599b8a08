//! The hole inspection record: each piece and row, with pins, what was measured, and who looked.

use quillbore_job::{Field, Line, Paper, SlipKind};

use crate::flow::Flow;
use crate::form::{self, HAND};
use crate::frame::Frame;
use crate::look::{BODY, FIGURE, STRONG};
use crate::matter::{Hole, Matter};
use crate::opening;
use crate::page::{Document, mm};
use crate::serials;
use crate::shown;
use crate::table::{Cell, Column, Row, Table, Width};
use crate::words::life as words;
use crate::words::traveler::unit_in_full;
use crate::wrap::Span;

/// Pieces without serial numbers that get a block of their own.
const PIECES: usize = 12;

/// Sets the inspection record of a job: one block a serial number, or a piece where there are none.
pub fn inspection(matter: &Matter<'_>) -> Document {
    let mut flow = Flow::new(matter.sheet);
    opening::title(matter, &mut flow, words::INSPECTION);
    opening::about(matter, &mut flow, Paper::Inspection);
    for (lead, field) in [
        ("Asked for: ", Field::Inspection),
        ("Recast at most: ", Field::RecastLimit),
    ] {
        if matter.has(field) {
            let spans = [Span::new(STRONG, lead), Span::new(BODY, matter.text(field))];
            flow.paragraph(&spans, 0.0);
        }
    }
    flow.paragraph(&[Span::new(BODY, words::HOW_CHECKED)], 0.0);
    for piece in pieces(matter) {
        block(matter, &piece, &mut flow);
    }
    unassigned(matter, &mut flow);
    flow.together(|flow| {
        flow.take(mm(2.0));
        form::sign_off(flow, words::INSPECTED);
    });
    let note = format!("sizes in {}", unit_in_full(matter.job.unit));
    let frame = Frame::of(matter, Paper::Inspection, words::INSPECTION, &note);
    flow.finish(|page, number, of| frame.write(page, matter.sheet, number, of))
}

/// Serial numbers of received parts, else of run records, else of deliveries; else pieces by number.
fn pieces(matter: &Matter<'_>) -> Vec<String> {
    for kind in [SlipKind::Received, SlipKind::Run, SlipKind::Delivery] {
        let all: Vec<&str> = matter
            .job
            .slips(kind)
            .map(|slip| slip.text(Line::Serials))
            .collect();
        let found = serials::read(&all.join(", "));
        if !found.is_empty() {
            return found;
        }
    }
    let count = quillbore_job::life::ordered(matter.job).or(matter.count_of(Field::Quantity));
    let count = count.map_or(1, |count| count as usize).clamp(1, PIECES);
    (1..=count).map(|piece| format!("piece {piece}")).collect()
}

fn block(matter: &Matter<'_>, piece: &str, flow: &mut Flow) {
    let unit = matter.job.unit;
    let sign = shown::unit(unit);
    let mut table = Table::new([
        Column::text("Mark", Width::Fit(46.0)).style(STRONG),
        Column::figures("Holes", "in one part", Width::Fit(36.0)),
        Column::figures("Pin goes", sign, Width::Fit(44.0)),
        Column::figures("Pin goes not", sign, Width::Fit(44.0)),
        Column::figures("Depth", sign, Width::Fit(40.0)),
        Column::text("Measured, by pin", Width::Share(1.6)),
        Column::figures("Holes", "checked", Width::Fixed(mm(17.0))),
        Column::figures("Holes", "not good", Width::Fixed(mm(17.0))),
        Column::text("Remark", Width::Share(1.0)),
    ])
    .written_on();
    let fine = matter.fine();
    for hole in matter.holes() {
        table.row(row(matter, &hole, piece, fine));
    }
    flow.together(|flow| {
        flow.section(&capital(piece), "", mm(24.0));
        table.set_or_say(flow, "The hole table is empty.");
    });
}

fn row(matter: &Matter<'_>, hole: &Hole<'_>, piece: &str, fine: usize) -> Row {
    let unit = matter.job.unit;
    let limits = hole.figures.and_then(|figures| figures.limits_mm);
    let limit = |at: usize| {
        limits
            .filter(|limits| limits[at] > 0.0)
            .map_or_else(String::new, |limits| shown::length(limits[at], unit, fine))
    };
    let depth = hole.figures.and_then(|figures| figures.depth_mm);
    let mark = hole.mark();
    // What the run records say of this mark and of this very piece.
    let runs = matter.job.slips(SlipKind::Run).filter(|run| {
        let named = serials::read(run.text(Line::Serials));
        same_mark(run.text(Line::Mark), &mark) && named.iter().any(|n| n == piece)
    });
    let pins: Vec<&str> = runs
        .map(|run| run.text(Line::Pins))
        .filter(|pins| !pins.is_empty())
        .collect();
    Row::new([
        Cell::new(mark),
        Cell::new(hole.count().map_or_else(String::new, |c| c.to_string())),
        Cell::new(limit(0)),
        Cell::new(limit(1)),
        Cell::new(depth.map_or_else(String::new, |mm| {
            shown::length(mm, unit, shown::middling(unit))
        })),
        Cell::styled(pins.join("; "), FIGURE),
        Cell::blank(),
        Cell::blank(),
        Cell::blank(),
    ])
    .at_least(HAND)
}

/// Sizes of run records that name no piece: they stand apart, since nobody can say whose they are.
fn unassigned(matter: &Matter<'_>, flow: &mut Flow) {
    let said: Vec<String> = matter
        .job
        .slips(SlipKind::Run)
        .filter(|run| run.text(Line::Serials).is_empty() && !run.text(Line::Pins).is_empty())
        .map(|run| format!("{}: {}", run.text(Line::Mark), run.text(Line::Pins)))
        .collect();
    if !said.is_empty() {
        flow.section("Sizes without a piece named", "", mm(14.0));
        flow.dashes(BODY, said.iter().map(String::as_str));
    }
}

/// Marks agree without regard to case and outer blanks.
fn same_mark(typed: &str, mark: &str) -> bool {
    typed.trim().eq_ignore_ascii_case(mark.trim())
}

fn capital(piece: &str) -> String {
    if piece.starts_with("piece ") {
        return piece.replacen('p', "P", 1);
    }
    format!("Serial {piece}")
}
