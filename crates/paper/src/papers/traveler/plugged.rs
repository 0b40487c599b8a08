//! Lines for holes that are found plugged: one for each hole of the rows that are proved by air or by a pin
//! put through, to be filled by hand.

use quillbore_calc::input::Proof;

use crate::matter::{Hole, Matter};
use crate::page::mm;
use crate::typeset::flow::Flow;
use crate::typeset::form::HAND;
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::words::heads;
use crate::words::traveler::plugged as words;

/// Lines beside each other.
const ACROSS: usize = 6;
/// Width of a line [mm]: room for a serial number.
const PLACE: f64 = 16.0;
/// Holes of a row that have lines of their own: of more than these the numbers are written down.
const MOST: usize = 400;
/// Lines to write numbers on.
const LINES: usize = 3;

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let asked = |hole: &Hole<'_>| {
        let proof = hole.row.proved.value();
        matches!(proof, Some(Proof::Air | Proof::PinThrough))
    };
    if !matter.holes().any(|hole| asked(&hole)) {
        return;
    }
    let mut columns = vec![Column::text(heads::MARK, Width::Fixed(mm(14.0))).style(STRONG)];
    for _ in 0..ACROSS {
        columns.push(Column::figures("", "", Width::Share(1.0)));
        columns.push(Column::text("", Width::Fixed(mm(PLACE))));
    }
    let mut table = Table::new(columns).written_on();
    let mut many = Vec::new();
    for hole in matter.holes().filter(asked) {
        let numbers = numbers(&hole);
        if numbers.len() > MOST {
            many.push((hole.mark(), numbers.len()));
            continue;
        }
        for line in numbers.chunks(ACROSS) {
            let mut cells = vec![Cell::new(hole.mark())];
            cells.extend(
                line.iter()
                    .flat_map(|number| [Cell::new(number.as_str()), Cell::blank()]),
            );
            table.row(TableRow::new(cells).at_least(HAND + mm(1.0)));
        }
    }
    flow.section(words::NAME, words::REMARK, table.least(flow) + mm(6.0));
    if !table.rows.is_empty() {
        table.set(flow);
    }
    for (mark, holes) in many {
        flow.together(|flow| {
            let holes = matter.form().count(holes as f64);
            flow.text(BODY, &words::many(&mark, &holes));
            let mut lines = Table::new([Column::text("", Width::Share(1.0))]).written_on();
            for _ in 0..LINES {
                lines.row(TableRow::new([Cell::blank()]).at_least(HAND));
            }
            lines.set(flow);
        });
    }
    flow.take(mm(1.6));
}

/// The numbers of a row's holes: those of their locations, else as they are counted.
fn numbers(hole: &Hole<'_>) -> Vec<String> {
    let places = &hole.row.places;
    if places.is_empty() {
        let count = hole.count().unwrap_or(1);
        return (1..=count).map(|number| number.to_string()).collect();
    }
    places
        .iter()
        .map(|place| place.number.to_string())
        .collect()
}
