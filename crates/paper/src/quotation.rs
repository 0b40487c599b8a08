//! The quotation, as a draft: issuing is another step.

mod assumptions;
mod prices;
mod scope;

use quillbore_job::{Field, Paper};

use crate::flow::Flow;
use crate::form::{self, Field as Blank};
use crate::frame::Frame;
use crate::look::{BODY, CAPTION, LARGE, STRONG, TITLE};
use crate::matter::Matter;
use crate::page::{Document, Ink, Stroke, mm};
use crate::shown;
use crate::words::quotation as words;

/// Sets the quotation of a job.
pub fn quotation(matter: &Matter<'_>) -> Document {
    let mut flow = Flow::new(matter.sheet);
    head(matter, &mut flow);
    scope::set(matter, &mut flow);
    prices::set(matter, &mut flow);
    assumptions::set(matter, &mut flow);
    acceptance(&mut flow);
    let frame = Frame {
        head: format!("{} {}, {}", words::TITLE, matter.job.number, words::DRAFT),
        issuer: matter.issuer.name.clone(),
        code: matter.number_of(Paper::Quotation),
        note: words::NET.to_owned(),
        preview: matter.preview.map(str::to_owned),
    };
    flow.finish(|page, number, of| frame.write(page, matter.sheet, number, of))
}

fn head(matter: &Matter<'_>, flow: &mut Flow) {
    let body = flow.body();
    let top = flow.take(mm(9.0));
    let page = flow.page();
    page.text(
        body.left,
        top + mm(6.4),
        TITLE.ink(Ink::Accent),
        words::TITLE,
    );
    page.text_right(body.right, top + mm(6.4), LARGE, &matter.issuer.name);
    page.rule(
        body.left,
        body.right,
        top + mm(8.4),
        Stroke::new(1.4, Ink::Accent),
    );
    let address = matter.issuer.address.join(", ");
    let line = flow.take(mm(5.0));
    flow.page()
        .text_right(body.right, line + mm(3.0), CAPTION, &address);
    let number = format!("{}, {}", matter.job.number, words::DRAFT);
    let revision = match matter.text(Field::Revision) {
        "" => "not named",
        revision => revision,
    };
    form::fields(
        flow,
        &[
            Blank::of("number", &number, 2.0).style(LARGE),
            Blank::of("date", &shown::date(matter.date), 2.0).style(LARGE),
            Blank::of("part", matter.text(Field::Part), 3.0).style(LARGE),
            Blank::filled("revision", revision, 1.4).style(LARGE),
        ],
    );
    flow.take(mm(1.0));
    form::fields(
        flow,
        &[
            Blank::of("for", matter.text(Field::Customer), 3.0).style(STRONG),
            Blank::of("contact", matter.text(Field::Contact), 3.0),
            Blank::of("your reference", matter.text(Field::CustomerReference), 2.4),
        ],
    );
    form::fields(
        flow,
        &[
            Blank::filled("part name", named(matter.text(Field::PartName)), 3.0),
            Blank::filled("drawing and its revision", &drawing(matter), 3.0),
            Blank::filled("material and condition", &material(matter), 2.4),
        ],
    );
}

fn named(text: &str) -> &str {
    if text.is_empty() { "not named" } else { text }
}

fn drawing(matter: &Matter<'_>) -> String {
    match (
        matter.text(Field::Drawing),
        matter.text(Field::DrawingRevision),
    ) {
        ("", _) => "not named".to_owned(),
        (drawing, "") => drawing.to_owned(),
        (drawing, revision) => format!("{drawing}, rev {revision}"),
    }
}

fn material(matter: &Matter<'_>) -> String {
    let parts = [
        Field::Material,
        Field::Condition,
        Field::Hardness,
        Field::Coating,
    ];
    let said: Vec<&str> = parts
        .iter()
        .map(|field| matter.text(*field))
        .filter(|text| !text.is_empty())
        .collect();
    if said.is_empty() {
        "not named".to_owned()
    } else {
        said.join(", ")
    }
}

fn acceptance(flow: &mut Flow) {
    flow.together(|flow| {
        flow.section("Acceptance", "sign and return, or send your order with this number", 0.0);
        flow.text(BODY, "We order the quantity below at the price and on the terms above, and accept the risk to our parts as stated.");
        flow.take(mm(2.0));
        form::fields(
            flow,
            &[
                Blank::blank("quantity", 1.0),
                Blank::blank("order number", 2.0),
                Blank::blank("name", 2.4),
                Blank::blank("signature", 2.4),
                Blank::blank("date", 1.4),
            ],
        );
    });
}
