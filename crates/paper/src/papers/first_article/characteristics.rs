//! The third form: every characteristic of every hole row, with what was found.

use quillbore_calc::Limits;
use quillbore_job::{Field, inspected};

use super::found::{FirstPiece, Found};
use crate::matter::{Hole, Matter};
use crate::page::mm;
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::form::{self, HAND};
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::words::characteristic::{between, of_mark, size};

pub(super) fn set(matter: &Matter<'_>, piece: &FirstPiece<'_>, flow: &mut Flow) {
    let all = matter.words();
    let words = &all.first_article.characteristics;
    let mut table = Table::new([
        Column::text(words.number, Width::Fit(40.0)).style(STRONG),
        Column::text(words.location, Width::Fit(48.0)),
        Column::text(words.designator, Width::Fixed(mm(17.0))),
        // A size with its limits and unit stands on one line.
        Column::text(words.requirement, Width::Fit(88.0)),
        Column::text(words.result, Width::Share(1.2)),
        Column::text(words.tooling, Width::Share(2.0)),
        Column::text(all.inspection.accepted, Width::Fixed(mm(17.0))),
        Column::text(words.trouble, Width::Fixed(mm(15.0))),
        Column::text(all.heads.remark, Width::Share(1.0)),
    ])
    .written_on();
    let mut next = 1;
    for hole in matter.holes() {
        let found = piece.found(matter, hole.index);
        let whole = !hole.is_blind() || !found.depth.is_empty();
        let accepted = inspected::accepted(found.checked, found.not_good, hole.count(), whole);
        for (part, (asked, result)) in requirements(matter, &hole, &found).into_iter().enumerate() {
            let number = number(&hole, part, &mut next);
            let accepted = accepted.map_or("", all.inspection.is_accepted);
            let is_first = part == 0;
            let only_first = |text: &str| {
                if is_first {
                    Cell::new(text)
                } else {
                    Cell::blank()
                }
            };
            // What has no result was measured with nothing.
            let gauge = if result.is_empty() { "" } else { &found.gauge };
            table.row(
                TableRow::new([
                    Cell::new(number),
                    Cell::new(hole.row.zone.text().trim()),
                    Cell::blank(),
                    Cell::new(of_mark(&hole.mark(), &asked)),
                    Cell::new(result),
                    Cell::new(gauge),
                    only_first(accepted),
                    Cell::new(&found.troubles),
                    only_first(&found.note),
                ])
                .at_least(HAND),
            );
        }
    }
    if matter.has(Field::RecastLimit) {
        let asked = (all.first_article.materials.recast)(matter.text(Field::RecastLimit));
        let mut cells = vec![Cell::new(next.to_string()), Cell::blank(), Cell::blank()];
        cells.push(Cell::new(asked));
        cells.extend((0..5).map(|_| Cell::blank()));
        table.row(TableRow::new(cells).at_least(HAND));
    }
    let signed = |flow: &mut Flow| {
        flow.take(mm(1.0));
        flow.text(BODY, words.only_measured);
        form::sign_off(flow, words.measured);
    };
    let height = flow.height_of(signed).unwrap_or(0.0);
    table.followed_by(height).set_or_say(flow, words.no_holes);
    flow.together(signed);
}

/// The characteristic's number: as on the drawing, else one after another.
fn number(hole: &Hole<'_>, part: usize, next: &mut usize) -> String {
    let typed = hole.row.characteristic.text().trim();
    let counted = *next;
    *next += 1;
    match (typed, part) {
        ("", _) => counted.to_string(),
        (typed, 0) => typed.to_owned(),
        // What is another characteristic of the same callout.
        (typed, part) => format!("{typed}.{part}"),
    }
}

/// What is asked of a row, each with what was found of it.
fn requirements(matter: &Matter<'_>, hole: &Hole<'_>, found: &Found) -> Vec<(String, String)> {
    let unit = matter.job.unit;
    let words = &matter.words().first_article.characteristics;
    let (form, fine) = (matter.form(), matter.fine());
    let sign = unit.symbol();
    let limits = hole.limits_mm();
    let limits = limits.map_or_else(
        || hole.size_text(unit),
        |Limits { lower, upper }| {
            let upper = shown::length(form, upper, unit, fine);
            match lower {
                lower if lower > 0.0 => between(&shown::length(form, lower, unit, fine), &upper),
                _ => (matter.words().phrases.at_most)(&upper),
            }
        },
    );
    let count = hole
        .count()
        .map_or_else(String::new, |count| form.count(f64::from(count)));
    // Nothing of a broken tool is measured: that it is out is all there is to say.
    let mut all = vec![if hole.is_broken_tool() {
        (hole.size_text(unit), found.sizes.clone())
    } else {
        (size(&count, &limits, sign), found.sizes.clone())
    }];
    let depth = hole.row.depth.text().trim();
    if hole.is_blind() || depth.contains(['+', '\u{b1}']) {
        let depth = match depth {
            "" => hole.depth_text(unit),
            depth => shown::plus_minus(depth),
        };
        let plan = hole.figures.and_then(|figures| figures.depth_plan);
        let general = plan.filter(|_| hole.is_blind() && !depth.contains(['+', '\u{b1}']));
        let asked = match general {
            Some(plan) => {
                let allowed = shown::length(form, plan.allowed_mm, unit, shown::middling(unit));
                (words.depth_general)(&depth, sign, &allowed)
            }
            None => (words.depth)(&depth, sign),
        };
        all.push((asked, found.depth.clone()));
    }
    let tilt = hole.figures.map_or(0.0, |figures| figures.tilt_deg);
    if tilt.abs() > 0.005 || !hole.row.angle.text().trim().is_empty() {
        let asked = match hole.row.angle.text().trim() {
            "" => form.fixed(tilt, 2),
            typed => typed.to_owned(),
        };
        all.push(((words.angle)(&asked), found.angle.clone()));
    }
    all.push((words.position.to_owned(), found.position.clone()));
    all
}
