//! The packing list, without prices: what is in the box, what goes with it, and what is still to come.

use quillbore_job::slip::{kind, line};
use quillbore_job::{Field, Paper, life};

use crate::letterhead::frame::Frame;
use crate::letterhead::opening;
use crate::matter::Matter;
use crate::matter::day;
use crate::page::{Document, mm};
use crate::typeset::flow::Flow;
use crate::typeset::form::{self, Captioned};
use crate::typeset::look::{BODY, LARGE, STRONG};
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::typeset::wrap::Span;
use crate::words::{captions, heads, packing as words, phrases};

/// Sets the packing list of a job's newest delivery.
pub fn packing(matter: &Matter<'_>) -> Document {
    let mut flow = Flow::new(matter.sheet);
    opening::title(matter, &mut flow, words::TITLE);
    opening::about(matter, &mut flow, Paper::Packing);
    counted(matter, &mut flow);
    let mut table = Table::new([
        Column::text(words::SENT, Width::Fit(70.0)).style(STRONG),
        Column::figures(heads::PARTS, "", Width::Fixed(mm(20.0))).style(STRONG),
        Column::text(heads::SERIALS, Width::Share(1.4)),
        Column::text(words::CARRIER, Width::Share(1.0)),
        Column::text(words::PACKED_BY, Width::Fit(60.0)),
        Column::text(words::COUNTED, Width::Fixed(mm(18.0))),
    ]);
    let newest = matter.job.slips_of::<kind::Delivery>().next_back();
    let parts = newest.and_then(|slip| slip.get(line::Count)).unwrap_or(0);
    if let Some(slip) = newest {
        table.row(
            TableRow::new([
                Cell::new(day::day(matter.form(), slip, line::Date)),
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
    flow.section(words::IN_BOX, "", keep);
    table.set_or_say(&mut flow, phrases::NO_DELIVERY);
    let enclosed = enclosed(matter);
    if !enclosed.is_empty() {
        flow.take(mm(1.5));
        let lead = Span::new(STRONG, words::ENCLOSED);
        flow.paragraph(&[lead, Span::new(BODY, &enclosed.join(", "))], 0.0);
    }
    // Of the parts alone: what the packing weighs nobody knows here.
    let mass = match matter.mass_text(parts) {
        mass if mass.is_empty() || parts == 0 => String::new(),
        mass => words::mass_of_parts(&mass),
    };
    flow.together(|flow| {
        flow.section(words::UNPACKING, "", 0.0);
        flow.dashes(BODY, words::CAUTIONS.iter().copied());
        flow.take(mm(2.0));
        form::fields(
            flow,
            &[
                Captioned::blank(words::PACKER, 2.0),
                Captioned::blank(words::BOXES, 1.0),
                Captioned::of(captions::MASS, &mass, 1.0),
                Captioned::blank(words::RECEIVER, 3.0),
            ],
        );
    });
    let frame = Frame::of(matter, Paper::Packing, words::TITLE, "");
    flow.finish(|page, number, of| frame.write(page, matter.sheet, number, of))
}

/// The papers that go with the parts, by their numbers.
fn enclosed(matter: &Matter<'_>) -> Vec<String> {
    let papers = [Paper::Certificate, Paper::Inspection];
    let newest = papers.map(|paper| matter.job.standing(paper).next_back());
    let newest = papers.into_iter().zip(newest);
    let named = newest.filter_map(|(paper, issued)| {
        let issued = issued?;
        Some(quillbore_job::words::life::paper(paper, &issued.number))
    });
    named.collect()
}

fn counted(matter: &Matter<'_>, flow: &mut Flow) {
    let gone = life::sum::<kind::Delivery, _>(matter.job, line::Count);
    let shown = |count: u32| matter.form().count(f64::from(count));
    let count = |count: Option<u32>| count.map_or_else(String::new, shown);
    let not_sent = life::not_sent(matter.job);
    let not_sent = (not_sent > 0)
        .then(|| Captioned::filled(words::NOT_SENT, &shown(not_sent), 1.0).style(LARGE));
    let mut fields = vec![
        Captioned::of(
            captions::PARTS_ORDERED,
            &count(life::ordered(matter.job)),
            1.0,
        )
        .style(LARGE),
        Captioned::filled(words::SO_FAR, &shown(gone), 1.0).style(LARGE),
        Captioned::of(
            words::STILL_TO_COME,
            &count(life::left_to_deliver(matter.job)),
            1.0,
        )
        .style(LARGE),
        Captioned::of(words::SPARES, matter.text(Field::Spares), 1.0).style(LARGE),
    ];
    // After what went out, before what is to come.
    fields.splice(2..2, not_sent);
    form::fields(flow, &fields);
}
