//! The operations in order, each with a place for date and name.

use quillbore_calc::job_figures::LotFigures;
use quillbore_job::{Field, Value};

use super::basis;
use super::order::setups_made_twice;
use super::plan::one_setup;
use crate::matter::Matter;
use crate::page::mm;
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::form::HAND;
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::words::heads;
use crate::words::traveler::{self as floor, operations as words};

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let mut table = Table::new([
        Column::figures(words::NUMBER, "", Width::Fixed(mm(7.0))).style(STRONG),
        Column::text(words::OPERATION, Width::Share(1.0)),
        Column::figures(words::PLANNED, words::FOR_LOT, Width::Fixed(mm(17.0))),
        Column::figures(words::GOOD, heads::IN_PARTS, Width::Fixed(mm(13.0))),
        Column::figures(heads::NOT_GOOD, heads::IN_PARTS, Width::Fixed(mm(14.0))),
        Column::text(heads::DATE, Width::Fixed(mm(20.0))),
        Column::text(heads::NAME, Width::Fixed(mm(28.0))),
    ])
    .written_on();
    for (index, (what, minutes)) in list(matter).into_iter().enumerate() {
        table.row(
            TableRow::new([
                Cell::new((10 * (index + 1)).to_string()),
                Cell::new(what),
                Cell::new(minutes),
                Cell::blank(),
                Cell::blank(),
                Cell::blank(),
                Cell::blank(),
            ])
            .at_least(HAND + mm(1.0)),
        );
    }
    flow.section(words::NAME, words::REMARK, table.least(flow) + mm(10.0));
    hours(matter, flow);
    table.set(flow);
}

/// The machine's hours with their spread, and what they rest on.
fn hours(matter: &Matter<'_>, flow: &mut Flow) {
    let Some(lot) = &matter.figures.lot else {
        return;
    };
    let [low, usual, high] = [
        lot.machine_hours.p10,
        lot.machine_hours.p50,
        lot.machine_hours.p90,
    ]
    .map(|hours| shown::minutes(matter.form(), hours * 60.0));
    let mut said = words::machine_hours(&usual, &low, &high);
    if let Some(rests) = basis::rests_on(matter) {
        said += &format!(" {}", floor::rests_on(rests));
    }
    flow.text(BODY, &said);
}

/// What is masked, with the time that was typed for each part.
fn masking(matter: &Matter<'_>) -> Option<String> {
    let what = matter.text(Field::Masking);
    let typed = matter.text(Field::MaskingMinutes);
    if what.is_empty() && typed.is_empty() {
        return None;
    }
    let each = matter.job.field(Field::MaskingMinutes).value();
    let each = match each.and_then(Value::minutes) {
        Some(each) => words::minutes(&matter.form().number(each, 2)),
        None => typed.to_owned(),
    };
    Some(words::mask(what, &each))
}

/// Each operation with its planned time as printed.
fn list(matter: &Matter<'_>) -> Vec<(String, String)> {
    let lot = matter.figures.lot.as_ref();
    let of = |pick: fn(&LotFigures) -> f64| {
        let minutes = lot.map(pick);
        minutes.map_or_else(String::new, |minutes| {
            shown::minutes(matter.form(), minutes)
        })
    };

    let twice = setups_made_twice(matter);
    let mut list = vec![(words::RECEIVE.to_owned(), of(|lot| lot.labor.receive))];
    // The first piece is drilled masked too.
    list.extend(masking(matter).map(|what| (what, of(|lot| lot.labor.masking))));
    list.extend([
        (
            words::set_up(matter.text(Field::Machine)),
            of(|lot| lot.machine.set_up),
        ),
        (
            if !twice.is_empty() {
                words::first_piece_of(&twice)
            } else if matter.figures.setups.len() > 1 {
                words::FIRST_PIECES.to_owned()
            } else {
                words::FIRST_PIECE.to_owned()
            },
            of(|lot| lot.machine.first_piece),
        ),
    ]);
    let first = 10 * (list.len() + 1);
    for (index, setup) in matter.figures.setups.iter().enumerate() {
        let mut what = words::drill(index + 1, &one_setup(matter, index, setup));
        if index > 0 {
            what += words::AGAIN;
        }
        // The time of drilling is known for all setups together.
        let planned = match index {
            0 => of(drilling),
            _ => words::planned_in(first),
        };
        list.push((what, planned));
    }
    if matter.figures.setups.is_empty() {
        list.push((words::DRILL.to_owned(), of(drilling)));
    }
    list.push((
        words::clean(matter.kinds()).to_owned(),
        of(|lot| lot.labor.wash),
    ));
    if matter.has(Field::OutsideText) || matter.has(Field::OutsideDays) {
        let days = matter.count_of(Field::OutsideDays);
        let outside = words::outside(matter.form(), matter.text(Field::OutsideText), days);
        list.push((outside, String::new()));
    }
    let inspect = words::inspect(matter.kinds());
    let inspect = match matter.text(Field::Inspection) {
        "" => inspect.to_owned(),
        more => format!("{inspect}; {more}"),
    };
    list.push((inspect, of(|lot| lot.labor.inspect)));
    list.push((words::PACK.to_owned(), of(|lot| lot.labor.pack)));
    list
}

fn drilling(lot: &LotFigures) -> f64 {
    lot.machine.sum() - lot.machine.set_up - lot.machine.first_piece
}
