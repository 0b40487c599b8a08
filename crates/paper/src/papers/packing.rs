//! The packing list, without prices: what is in the box, and what is still to come.

use quillbore_job::slip::{kind, line};
use quillbore_job::{Field, Paper, life};

use crate::letterhead::frame::Frame;
use crate::letterhead::opening;
use crate::matter::Matter;
use crate::matter::day;
use crate::page::{Document, mm};
use crate::typeset::flow::Flow;
use crate::typeset::form::{self, Field as Blank};
use crate::typeset::look::{BODY, LARGE, STRONG};
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::words::life as words;

/// Sets the packing list of a job's deliveries, the newest first.
pub fn packing(matter: &Matter<'_>) -> Document {
    let mut flow = Flow::new(matter.sheet);
    opening::title(matter, &mut flow, words::PACKING);
    opening::about(matter, &mut flow, Paper::Packing);
    counted(matter, &mut flow);
    let mut table = Table::new([
        Column::text("Sent", Width::Fit(70.0)).style(STRONG),
        Column::figures("Parts", "", Width::Fixed(mm(20.0))).style(STRONG),
        Column::text("Serial numbers", Width::Share(1.4)),
        Column::text("Carrier, tracking", Width::Share(1.0)),
        Column::text("Packed by", Width::Fit(60.0)),
        Column::text("Counted", Width::Fixed(mm(18.0))),
    ]);
    for slip in matter.job.slips_of::<kind::Delivery>().rev() {
        table.row(
            TableRow::new([
                Cell::new(day::day(slip, line::Date)),
                Cell::new(slip.text(line::Count)),
                Cell::new(slip.get(line::Serials)),
                Cell::new(slip.get(line::Carrier)),
                Cell::new(slip.get(line::By)),
                Cell::square(),
            ])
            .note(slip.get(line::Note))
            .at_least(mm(6.5)),
        );
    }
    let keep = table.least(&flow);
    flow.section("In the box", "the first line is this delivery", keep);
    table.set_or_say(&mut flow, "No delivery is written down yet.");
    flow.together(|flow| {
        flow.section("Unpacking", "", 0.0);
        flow.dashes(BODY, words::UNPACKING.iter().copied());
        flow.take(mm(2.0));
        form::fields(
            flow,
            &[
                Blank::blank("packed by", 2.0),
                Blank::blank("boxes", 1.0),
                Blank::blank("mass", 1.0),
                Blank::blank("received by, date", 3.0),
            ],
        );
    });
    let frame = Frame::of(matter, Paper::Packing, words::PACKING, "");
    flow.finish(|page, number, of| frame.write(page, matter.sheet, number, of))
}

fn counted(matter: &Matter<'_>, flow: &mut Flow) {
    let gone = life::sum::<kind::Delivery, _>(matter.job, line::Count);
    let count = |count: Option<u32>| count.map_or_else(String::new, |count| count.to_string());
    form::fields(
        flow,
        &[
            Blank::of("parts ordered", &count(life::ordered(matter.job)), 1.0).style(LARGE),
            Blank::filled("sent so far", &gone.to_string(), 1.0).style(LARGE),
            Blank::of(
                "still to come",
                &count(life::left_to_deliver(matter.job)),
                1.0,
            )
            .style(LARGE),
            Blank::of("spares to return", matter.text(Field::Spares), 1.0).style(LARGE),
        ],
    );
}
