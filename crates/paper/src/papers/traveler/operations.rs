//! The operations in order, each with a place for date and name.

use quillbore_calc::job_figures::LotFigures;
use quillbore_job::Field;

use super::basis;
use super::plan::one_setup;
use crate::matter::Matter;
use crate::page::mm;
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::form::HAND;
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::words::traveler as words;

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let mut table = Table::new([
        Column::figures("No.", "", Width::Fixed(mm(7.0))).style(STRONG),
        Column::text("Operation", Width::Share(1.0)),
        Column::figures("Planned", "for the lot", Width::Fixed(mm(17.0))),
        Column::figures("good", "parts", Width::Fixed(mm(13.0))),
        Column::figures("not good", "parts", Width::Fixed(mm(14.0))),
        Column::text("Date", Width::Fixed(mm(20.0))),
        Column::text("Name", Width::Fixed(mm(28.0))),
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
    flow.section(
        "Operations",
        "sign when done; the next one starts only then",
        table.least(flow) + mm(10.0),
    );
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
    .map(|hours| shown::minutes(hours * 60.0));
    let mut said = words::machine_hours(&usual, &low, &high);
    if basis::on_start_values(matter) {
        said += &format!(" {}", words::START_VALUES);
    }
    flow.text(BODY, &said);
}

/// Each operation with its planned time as printed.
fn list(matter: &Matter<'_>) -> Vec<(String, String)> {
    let lot = matter.figures.lot.as_ref();
    let of = |pick: fn(&LotFigures) -> f64| lot.map(pick).map(shown::minutes).unwrap_or_default();
    let machine = match matter.text(Field::Machine) {
        "" => String::new(),
        name => format!(" on {name}"),
    };
    let mut list = vec![
        (
            "Receive: count, look over, note damage and heat".to_owned(),
            of(|lot| lot.labor.receive),
        ),
        (
            format!("Set up{machine}: fixture, guide, electrode, zero"),
            of(|lot| lot.machine.set_up),
        ),
        (
            "First piece: drill, measure, approve".to_owned(),
            of(|lot| lot.machine.first_piece),
        ),
    ];
    let first = 10 * (list.len() + 1);
    for (index, setup) in matter.figures.setups.iter().enumerate() {
        let what = format!("Drill setup {}: {}", index + 1, one_setup(matter, setup));
        // The time of drilling is known for all setups together.
        let planned = match index {
            0 => of(drilling),
            _ => format!("in {first}"),
        };
        list.push((what, planned));
    }
    if matter.figures.setups.is_empty() {
        list.push(("Drill".to_owned(), of(drilling)));
    }
    list.push((
        words::clean(matter.kinds()).to_owned(),
        of(|lot| lot.labor.wash),
    ));
    if matter.has(Field::OutsideText) {
        list.push((
            format!(
                "Outside: {} (count out and in)",
                matter.text(Field::OutsideText)
            ),
            String::new(),
        ));
    }
    let inspect = words::inspect(matter.kinds());
    let inspect = match matter.text(Field::Inspection) {
        "" => inspect.to_owned(),
        more => format!("{inspect}; {more}"),
    };
    list.push((inspect, of(|lot| lot.labor.inspect)));
    list.push((
        "Pack as received, rust protection, papers".to_owned(),
        of(|lot| lot.labor.pack),
    ));
    list
}

fn drilling(lot: &LotFigures) -> f64 {
    lot.machine.sum() - lot.machine.set_up - lot.machine.first_piece
}
