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

/// Sets the packing list of a job's newest delivery.
pub fn packing(matter: &Matter<'_>) -> Document {
    let all = matter.words();
    let words = &all.packing;
    let mut flow = Flow::in_language(matter.sheet, matter.language);
    opening::title(matter, &mut flow, words.title);
    opening::about(matter, &mut flow, Paper::Packing);
    counted(matter, &mut flow);
    let mut table = Table::new([
        Column::text(words.sent, Width::Fit(70.0)).style(STRONG),
        Column::figures(all.heads.parts, "", Width::Fixed(mm(20.0))).style(STRONG),
        Column::text(all.heads.serials, Width::Share(1.4)),
        Column::text(words.carrier, Width::Share(1.0)),
        Column::text(words.packed_by, Width::Fit(60.0)),
        Column::text(words.counted, Width::Fixed(mm(18.0))),
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
    flow.section(words.in_box, "", keep);
    table.set_or_say(&mut flow, all.phrases.no_delivery);
    let enclosed = enclosed(matter);
    if !enclosed.is_empty() {
        flow.take(mm(1.5));
        let lead = Span::new(STRONG, words.enclosed);
        flow.paragraph(&[lead, Span::new(BODY, &enclosed.join(", "))], 0.0);
    }
    // Of the parts alone: what the packing weighs nobody knows here.
    let mass = match matter.mass_text(parts) {
        mass if mass.is_empty() || parts == 0 => String::new(),
        mass => (words.mass_of_parts)(&mass),
    };
    flow.together(|flow| {
        flow.section(words.unpacking, "", 0.0);
        flow.dashes(BODY, words.cautions.iter().copied());
        flow.take(mm(2.0));
        form::fields(
            flow,
            &[
                Captioned::blank(words.packer, 2.0),
                Captioned::blank(words.boxes, 1.0),
                Captioned::of(all.captions.mass, &mass, 1.0),
                Captioned::blank(words.receiver, 3.0),
            ],
        );
    });
    let frame = Frame::of(matter, Paper::Packing, words.title, "");
    flow.finish(|page, number, of| frame.write(page, matter.sheet, number, of))
}

/// The papers that go with the parts, by their numbers.
fn enclosed(matter: &Matter<'_>) -> Vec<String> {
    let papers = [Paper::Certificate, Paper::Inspection];
    let newest = papers.map(|paper| matter.job.standing(paper).next_back());
    let newest = papers.into_iter().zip(newest);
    let named = newest.filter_map(|(paper, issued)| {
        let issued = issued?;
        Some(matter.words().papers.numbered(paper, &issued.number))
    });
    named.collect()
}

fn counted(matter: &Matter<'_>, flow: &mut Flow) {
    let all = matter.words();
    let words = &all.packing;
    let gone = life::sum::<kind::Delivery, _>(matter.job, line::Count);
    let shown = |count: u32| matter.form().count(f64::from(count));
    let count = |count: Option<u32>| count.map_or_else(String::new, shown);
    let not_sent = life::not_sent(matter.job);
    let not_sent = (not_sent > 0)
        .then(|| Captioned::filled(words.not_sent, &shown(not_sent), 1.0).style(LARGE));
    let mut fields = vec![
        Captioned::of(
            all.captions.parts_ordered,
            &count(life::ordered(matter.job)),
            1.0,
        )
        .style(LARGE),
        Captioned::filled(words.so_far, &shown(gone), 1.0).style(LARGE),
        Captioned::of(
            words.still_to_come,
            &count(life::left_to_deliver(matter.job)),
            1.0,
        )
        .style(LARGE),
        Captioned::of(words.spares, matter.text(Field::Spares), 1.0).style(LARGE),
    ];
    // After what went out, before what is to come.
    fields.splice(2..2, not_sent);
    form::fields(flow, &fields);
}
