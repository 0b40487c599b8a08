//! The receiving slip: every delivery of parts as it came in, and what is still missing.

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
use crate::words::life as words;

/// Sets the receiving slip of a job.
pub fn receiving(matter: &Matter<'_>) -> Document {
    let mut flow = Flow::new(matter.sheet);
    opening::title(matter, &mut flow, words::RECEIVING);
    opening::about(matter, &mut flow, Paper::Receiving);
    counted(matter, &mut flow);
    deliveries(matter, &mut flow);
    flow.together(|flow| {
        flow.section("Signed", words::RECEIVED, 0.0);
        form::sign_off(flow, words::RECEIVED_BY_SHOP);
        form::sign_off(flow, words::RECEIVED_BY_CUSTOMER);
    });
    let frame = Frame::of(matter, Paper::Receiving, words::RECEIVING, "");
    flow.finish(|page, number, of| frame.write(page, matter.sheet, number, of))
}

fn counted(matter: &Matter<'_>, flow: &mut Flow) {
    let here = life::sum::<kind::Received, _>(matter.job, line::Count);
    let ordered = life::ordered(matter.job);
    let count = |count: Option<u32>| count.map_or_else(String::new, |count| count.to_string());
    form::fields(
        flow,
        &[
            Blank::of("parts ordered", &count(ordered), 1.0).style(LARGE),
            Blank::filled("received so far", &here.to_string(), 1.0).style(LARGE),
            Blank::of(
                "still missing",
                &count(ordered.map(|ordered| ordered.saturating_sub(here))),
                1.0,
            )
            .style(LARGE),
            Blank::of("spares sent", matter.text(Field::Spares), 1.0).style(LARGE),
        ],
    );
}

fn deliveries(matter: &Matter<'_>, flow: &mut Flow) {
    let slips: Vec<_> = matter.job.slips_of::<kind::Received>().rev().collect();
    if slips.is_empty() {
        flow.section("Parts", "", mm(20.0));
        flow.text(BODY, "No parts are on record as received.");
        return;
    }
    for slip in slips {
        flow.together(|flow| {
            flow.section("Parts", &day::day(slip, line::Date), mm(20.0));
            form::fields(
                flow,
                &[
                    Blank::of("count", slip.text(line::Count), 1.0).style(STRONG),
                    Blank::of("condition", slip.get(line::Condition), 3.0),
                    Blank::of("heat", slip.get(line::Heat), 1.6),
                    Blank::of("hardness", slip.get(line::Hardness), 1.4),
                    Blank::of("coating", slip.get(line::Coating), 1.6),
                ],
            );
            form::fields(
                flow,
                &[
                    Blank::of("pieces, serial numbers", slip.get(line::Serials), 4.0),
                    Blank::of("received by", slip.get(line::By), 1.6),
                ],
            );
            form::fields(
                flow,
                &[
                    Blank::of("damage that was there", slip.get(line::Damage), 3.0),
                    Blank::of("photos and files", slip.get(line::Files), 2.0),
                ],
            );
        });
    }
}
