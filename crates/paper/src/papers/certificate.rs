//! The certificate of conformance: what was delivered, to which order and drawing, made how, and
//! with which deviations.

use quillbore_job::inspected::Inspections;
use quillbore_job::order::Topic;
use quillbore_job::slip::{kind, line};
use quillbore_job::{Field, Paper, inspected};

use crate::letterhead::frame::Frame;
use crate::letterhead::opening;
use crate::matter::Matter;
use crate::matter::day;
use crate::matter::differs;
use crate::matter::nonconformance;
use crate::page::{Document, mm};
use crate::papers::{differences, sample};
use crate::typeset::flow::Flow;
use crate::typeset::form::{self, Captioned};
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::side::side;
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};

/// Sets the certificate of what was delivered.
pub fn certificate(matter: &Matter<'_>) -> Document {
    let all = matter.words();
    let (words, captions) = (&all.certificate, &all.captions);
    let mut flow = Flow::in_language(matter.sheet, matter.language);
    opening::title(matter, &mut flow, words.title);
    opening::about(matter, &mut flow, Paper::Certificate);
    material(matter, &mut flow);
    delivered(matter, &mut flow);
    flow.section(words.statement, "", mm(30.0));
    requirements(matter, &mut flow);
    side(&mut flow, words.made_how, |flow| {
        flow.text(BODY, words.process);
    });
    let revisions = differs::of(matter, |topic| matches!(topic, Topic::Revision(_)));
    if !revisions.is_empty() {
        side(&mut flow, words.revision, |flow| {
            differences::list(flow, &revisions);
        });
    }
    checked(matter, &mut flow);
    deviations(matter, &mut flow);
    stated(matter, &mut flow);
    flow.together(|flow| {
        flow.take(mm(6.0));
        form::fields(
            flow,
            &[
                Captioned::blank(words.place, 2.0),
                Captioned::blank(captions.name, 2.4),
                Captioned::blank(words.position, 2.0),
                Captioned::blank(captions.signature, 2.6),
                Captioned::blank(captions.date, 1.4),
            ],
        );
    });
    let frame = Frame::of(matter, Paper::Certificate, words.title, "");
    flow.finish(|page, number, of| frame.write(page, matter.sheet, number, of))
}

fn material(matter: &Matter<'_>, flow: &mut Flow) {
    let words = &matter.words().certificate;
    let captions = &matter.words().captions;
    form::fields(
        flow,
        &[
            Captioned::of(words.material, &matter.material_named(), 3.0),
            Captioned::of(captions.condition, matter.text(Field::Condition), 2.4),
            Captioned::of(words.heat, &matter.heats(), 2.4),
            Captioned::filled(
                words.record,
                records(matter).as_deref().unwrap_or(words.no_record),
                2.4,
            )
            .style(STRONG),
        ],
    );
}

fn delivered(matter: &Matter<'_>, flow: &mut Flow) {
    let all = matter.words();
    let words = &all.certificate;
    let mut table = Table::new([
        Column::text(words.delivered, Width::Fit(70.0)).style(STRONG),
        Column::figures(all.heads.parts, "", Width::Fixed(mm(20.0))).style(STRONG),
        Column::text(all.heads.serials, Width::Share(1.0)),
    ]);
    for slip in matter.job.slips_of::<kind::Delivery>() {
        table.row(TableRow::new([
            Cell::new(day::day(matter.form(), slip, line::Date)),
            Cell::new(slip.text(line::Count)),
            Cell::new(slip.get(line::Serials)),
        ]));
    }
    let keep = table.least(flow);
    flow.section(words.parts, "", keep);
    table.set_or_say(flow, all.phrases.no_delivery);
}

/// Drawing and order that the parts are stated to conform to.
fn requirements(matter: &Matter<'_>, flow: &mut Flow) {
    let words = &matter.words().certificate;
    side(flow, words.requirements, |flow| {
        let said = (words.conforms_to)(&matter.drawing(), matter.order_number());
        flow.text(BODY, &said);
        if matter.has(Field::Inspection) {
            flow.text(BODY, &(words.asked)(matter.text(Field::Inspection)));
        }
    });
}

/// What was checked of the delivered parts, mark by mark, as far as somebody wrote it down.
fn checked(matter: &Matter<'_>, flow: &mut Flow) {
    let words = &matter.words().certificate;
    let parts = inspected::delivered(matter.job);
    let inspections = Inspections::of(matter.job, &parts);
    let told: Vec<String> = matter
        .holes()
        .map(|hole| {
            let found = inspections.checked(hole.row);
            (words.checked_of)(
                matter.form(),
                &hole.mark(),
                [found.parts, parts.count],
                found.not_good,
            )
        })
        .collect();
    // The marks' counts stand above it.
    let sample = sample::comes_to(matter).filter(|_| parts.count > 0);
    side(flow, words.checked, |flow| {
        flow.dashes(BODY, told.iter().map(String::as_str).chain(sample));
    });
}

fn deviations(matter: &Matter<'_>, flow: &mut Flow) {
    let words = &matter.words().certificate;
    let told: Vec<String> = nonconformance::all(matter)
        .iter()
        .map(nonconformance::Nonconformance::for_the_customer)
        .collect();
    side(flow, words.deviations, |flow| {
        if told.is_empty() {
            flow.text(BODY, words.no_deviations);
        } else {
            flow.dashes(BODY, told.iter().map(String::as_str));
        }
    });
}

fn stated(matter: &Matter<'_>, flow: &mut Flow) {
    let words = &matter.words().certificate;
    let all = inspected::all_checked(matter.job, &inspected::delivered(matter.job));
    let record = records(matter);
    side(flow, words.stated, |flow| {
        flow.text(STRONG, &(words.states)(all, record.as_deref()));
        flow.text(BODY, words.not_stated);
        flow.text(BODY, words.declared);
    });
}

/// The inspection records that stand, by number.
fn records(matter: &Matter<'_>) -> Option<String> {
    let standing = matter.job.standing(Paper::Inspection);
    let told: Vec<String> = standing
        .map(|issued| {
            (matter.words().phrases.of_day)(&issued.number, &matter.form().day(issued.date))
        })
        .collect();
    (!told.is_empty()).then(|| told.join(", "))
}
