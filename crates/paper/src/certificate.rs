//! The certificate of conformance: what was delivered, to which order and drawing, made how, and
//! with which deviations.

use quillbore_job::order::Topic;
use quillbore_job::{Field, Line, Paper, Slip, SlipKind};

use crate::flow::Flow;
use crate::form::{self, Field as Blank};
use crate::frame::Frame;
use crate::look::{BODY, STRONG};
use crate::matter::Matter;
use crate::opening;
use crate::page::{Document, mm};
use crate::side::side;
use crate::table::{Cell, Column, Row, Table, Width};
use crate::words::life as words;

/// Sets the certificate of what was delivered.
pub fn certificate(matter: &Matter<'_>) -> Document {
    let mut flow = Flow::new(matter.sheet);
    opening::title(matter, &mut flow, words::CERTIFICATE);
    opening::about(matter, &mut flow, Paper::Certificate);
    material(matter, &mut flow);
    delivered(matter, &mut flow);
    flow.section("Statement", "", mm(30.0));
    side(&mut flow, "Process", |flow| flow.text(BODY, words::PROCESS));
    let revisions = opening::differs(matter, |topic| matches!(topic, Topic::Revision(_)));
    if !revisions.is_empty() {
        side(&mut flow, "Revision", |flow| {
            opening::list_differs(flow, &revisions);
        });
    }
    deviations(matter, &mut flow);
    side(&mut flow, "Stated", |flow| {
        flow.text(STRONG, words::STATEMENT);
        flow.text(BODY, words::NOT_STATED);
    });
    flow.together(|flow| {
        flow.take(mm(6.0));
        form::fields(
            flow,
            &[
                Blank::blank("name", 2.4),
                Blank::blank("position", 2.0),
                Blank::blank("signature", 2.6),
                Blank::blank("date", 1.4),
            ],
        );
    });
    let frame = Frame::of(matter, Paper::Certificate, words::CERTIFICATE, "");
    flow.finish(|page, number, of| frame.write(page, matter.sheet, number, of))
}

fn material(matter: &Matter<'_>, flow: &mut Flow) {
    let heats: Vec<&str> = matter
        .job
        .slips(SlipKind::Received)
        .map(|slip| slip.text(Line::Heat))
        .filter(|heat| !heat.is_empty())
        .collect();
    form::fields(
        flow,
        &[
            Blank::of("material, as supplied", &matter.material_named(), 3.0),
            Blank::of("condition", matter.text(Field::Condition), 2.4),
            Blank::of("heat, as supplied", &heats.join(", "), 2.4),
        ],
    );
}

fn delivered(matter: &Matter<'_>, flow: &mut Flow) {
    let mut table = Table::new([
        Column::text("Delivered", Width::Fit(70.0)).style(STRONG),
        Column::figures("Parts", "", Width::Fixed(mm(20.0))).style(STRONG),
        Column::text("Serial numbers", Width::Share(1.0)),
    ]);
    for slip in matter.job.slips(SlipKind::Delivery) {
        table.row(Row::new([
            Cell::new(opening::day(slip, Line::Date)),
            Cell::new(slip.text(Line::Count)),
            Cell::new(slip.text(Line::Serials)),
        ]));
    }
    flow.section("Parts", "", mm(24.0));
    table.set_or_say(flow, "No delivery is written down yet.");
}

/// Why parts were delivered while a non-conformance was open; empty where it is closed.
fn sent_open(slip: &Slip) -> &str {
    if slip.day(Line::Closed).is_some() {
        return "";
    }
    slip.text(Line::SendBecause)
}

fn deviations(matter: &Matter<'_>, flow: &mut Flow) {
    let slips = matter.job.slips(SlipKind::Nonconformance);
    let told: Vec<String> = slips
        .map(|slip| {
            let parts = [
                ("", slip.text(Line::HolesNamed)),
                ("", slip.text(Line::What)),
                ("decision: ", slip.text(Line::Decision)),
                ("by ", slip.text(Line::DecidedBy)),
                ("delivered open: ", sent_open(slip)),
            ];
            let said = parts.iter().filter(|(_, text)| !text.is_empty());
            let mut said: Vec<String> = said.map(|(lead, text)| format!("{lead}{text}")).collect();
            if slip.text(Line::Decision).is_empty() {
                said.push("no decision yet".to_owned());
            }
            said.join("; ").replace('\n', " ")
        })
        .collect();
    side(flow, "Deviations", |flow| {
        if told.is_empty() {
            flow.text(BODY, words::NO_DEVIATIONS);
        } else {
            flow.dashes(BODY, told.iter().map(String::as_str));
        }
    });
}
