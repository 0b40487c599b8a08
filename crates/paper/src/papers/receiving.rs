//! The receiving slip: every delivery of parts as it came in, and what is still missing.

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

/// Sets the receiving slip of a job.
pub fn receiving(matter: &Matter<'_>) -> Document {
    let words = &matter.words().receiving;
    let mut flow = Flow::in_language(matter.sheet, matter.language);
    opening::title(matter, &mut flow, words.title);
    opening::about(matter, &mut flow, Paper::Receiving);
    counted(matter, &mut flow);
    deliveries(matter, &mut flow);
    flow.together(|flow| {
        flow.section(words.signed, words.received, 0.0);
        form::sign_off(flow, words.by_shop);
        form::sign_off(flow, words.by_customer);
    });
    let frame = Frame::of(matter, Paper::Receiving, words.title, "");
    flow.finish(|page, number, of| frame.write(page, matter.sheet, number, of))
}

fn counted(matter: &Matter<'_>, flow: &mut Flow) {
    let words = &matter.words().receiving;
    let captions = &matter.words().captions;
    let here = life::sum::<kind::Received, _>(matter.job, line::Count);
    let ordered = life::ordered(matter.job);
    let shown = |count: u32| matter.form().count(f64::from(count));
    let count = |count: Option<u32>| count.map_or_else(String::new, shown);
    form::fields(
        flow,
        &[
            Captioned::of(captions.parts_ordered, &count(ordered), 1.0).style(LARGE),
            Captioned::filled(words.so_far, &shown(here), 1.0).style(LARGE),
            Captioned::of(
                words.still_missing,
                &count(ordered.map(|ordered| ordered.saturating_sub(here))),
                1.0,
            )
            .style(LARGE),
            Captioned::of(words.spares, matter.text(Field::Spares), 1.0).style(LARGE),
        ],
    );
}

fn deliveries(matter: &Matter<'_>, flow: &mut Flow) {
    let words = &matter.words().receiving;
    let captions = &matter.words().captions;
    let slips: Vec<_> = matter.job.slips_of::<kind::Received>().rev().collect();
    if slips.is_empty() {
        flow.section(words.parts, "", mm(20.0));
        flow.text(BODY, words.nothing);
        return;
    }
    for slip in slips {
        flow.together(|flow| {
            flow.section(
                words.parts,
                &day::day(matter.form(), slip, line::Date),
                mm(20.0),
            );
            form::fields(
                flow,
                &[
                    Captioned::of(words.count, slip.text(line::Count), 1.0).style(STRONG),
                    Captioned::of(captions.condition, slip.get(line::Condition), 3.0),
                    Captioned::of(words.heat, slip.get(line::Heat), 1.6),
                    Captioned::of(captions.hardness, slip.get(line::Hardness), 1.4),
                    Captioned::of(words.coating, slip.get(line::Coating), 1.6),
                ],
            );
            form::fields(
                flow,
                &[
                    Captioned::of(words.pieces, slip.get(line::Serials), 4.0),
                    Captioned::of(captions.received_by, slip.get(line::By), 1.6),
                ],
            );
            form::fields(
                flow,
                &[
                    Captioned::of(words.damage, slip.get(line::Damage), 3.0),
                    Captioned::of(words.files, slip.get(line::Files), 2.0),
                ],
            );
        });
    }
}
