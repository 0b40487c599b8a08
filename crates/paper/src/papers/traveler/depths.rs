//! Depths that the first hole decides: blind holes, and holes with a wall behind their exit.

use crate::matter::{Hole, Matter};
use crate::page::mm;
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::form::HAND;
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::words::heads;
use crate::words::traveler::depths as words;

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let unit = matter.job.unit;
    let sign = unit.symbol();
    let decimals = shown::middling(unit);
    let mut table = Table::new([
        Column::text(heads::MARK, Width::Fit(46.0)).style(STRONG),
        Column::text(heads::END, Width::Fit(38.0)),
        Column::figures(words::DRAWN, sign, Width::Fixed(46.0)),
        Column::figures(words::FIRST_SETTING, sign, Width::Fixed(46.0)).style(STRONG),
        Column::figures(words::NEVER_BEYOND, sign, Width::Fixed(46.0)).style(STRONG),
        Column::figures(words::BEHIND, sign, Width::Fixed(46.0)),
        Column::figures(words::SCATTER, sign, Width::Fixed(42.0)),
        Column::figures(words::ALLOWED, sign, Width::Fixed(40.0)),
        Column::text(words::HOW, Width::Share(1.0)),
        Column::figures(words::SET_AFTER, sign, Width::Fixed(mm(21.0))),
    ])
    .written_on();
    for hole in matter.holes() {
        let Some(plan) = hole.figures.and_then(|figures| figures.depth_plan) else {
            continue;
        };
        let length = |mm: f64| shown::length(matter.form(), mm, unit, decimals);
        let finer = |mm: f64| shown::length(matter.form(), mm, unit, decimals + 1);
        let drawn = shown::plus_minus(hole.row.depth.text().trim());
        let drawn = if drawn.is_empty() {
            hole.depth_text(unit)
        } else {
            drawn
        };
        let behind = hole.figures.and_then(|figures| figures.behind_mm);
        let behind = behind.map(&length);
        let how = if plan.two_steps {
            words::TWO_STEPS
        } else {
            words::ONE_STEP
        };
        table.row(
            TableRow::new([
                Cell::new(hole.mark()),
                Cell::new(hole.end_text()),
                Cell::new(drawn),
                Cell::new(shown::at_most(
                    matter.form(),
                    plan.first_try_mm,
                    unit,
                    decimals,
                )),
                Cell::new(shown::at_most(
                    matter.form(),
                    plan.never_beyond_mm,
                    unit,
                    decimals,
                )),
                Cell::new(behind.unwrap_or_else(shown::missing)),
                Cell::new(finer(plan.scatter_mm)),
                // Over a wall nothing but the wall is a limit.
                Cell::new(if hole.is_blind() {
                    finer(plan.allowed_mm)
                } else {
                    shown::missing()
                }),
                Cell::new(how),
                Cell::blank(),
            ])
            .at_least(HAND),
        );
    }
    if table.rows.is_empty() {
        return;
    }
    flow.together(|flow| {
        flow.section(words::DEPTHS, words::DEPTHS_REMARK, mm(24.0));
        table.set(flow);
        flow.take(mm(0.8));
        flow.text(BODY, words::FIRST_TRY);
        for (two_steps, said) in [(true, words::IN_TWO_STEPS), (false, words::IN_ONE_GO)] {
            let mut holes = matter.holes();
            let of_kind = |hole: Hole<'_>| Some(hole.figures?.depth_plan?.two_steps == two_steps);
            if holes.any(|hole| of_kind(hole) == Some(true)) {
                flow.text(BODY, said);
            }
        }
    });
}
