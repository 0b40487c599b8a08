//! The quotation of one or several jobs, issued or as a draft.

mod assumptions;
mod prices;
mod scope;

use quillbore_job::{Field, Paper};

use crate::letterhead::frame::Frame;
use crate::letterhead::opening;
use crate::matter::Matter;
use crate::page::{Document, mm};
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::form::{self, Field as Blank};
use crate::typeset::look::{BODY, LARGE, STRONG};
use crate::words::quotation as words;

/// Sets the quotation of one or several jobs; the first one leads.
pub fn quotation(matters: &[Matter<'_>]) -> Document {
    let Some(first) = matters.first() else {
        return Document {
            sheet: crate::page::Sheet::A4,
            pages: Vec::new(),
        };
    };
    let mut flow = Flow::new(first.sheet);
    opening::title(first, &mut flow, words::TITLE);
    head(first, &mut flow);
    replaced(matters, &mut flow);
    part(first, &mut flow);
    for matter in &matters[1..] {
        flow.need(mm(60.0));
        flow.take(mm(4.0));
        flow.section(
            &matter.part_offered(),
            matter.text(Field::PartName),
            mm(50.0),
        );
        part(matter, &mut flow);
    }
    assumptions::set(matters, &mut flow);
    acceptance(&mut flow);
    let title = match first.number {
        Some(_) => words::TITLE.to_owned(),
        None => format!("{}, {},", words::TITLE, words::DRAFT),
    };
    let frame = Frame::of(first, Paper::Quotation, &title, words::NET);
    flow.finish(|page, number, of| frame.write(page, first.sheet, number, of))
}

/// What is offered of one job: part, holes, prices.
fn part(matter: &Matter<'_>, flow: &mut Flow) {
    form::fields(
        flow,
        &[
            Blank::filled("part name", named(matter.text(Field::PartName)), 3.0),
            Blank::filled("drawing and its revision", &drawing(matter), 3.0),
            Blank::filled("material and condition", &material(matter), 2.4),
            Blank::filled("size and mass", &size(matter), 2.0),
        ],
    );
    scope::set(matter, flow);
    prices::set(matter, flow);
}

fn head(matter: &Matter<'_>, flow: &mut Flow) {
    let number = match matter.number {
        Some(number) => number.to_owned(),
        None => format!("{}, {}", matter.job.number, words::DRAFT),
    };
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
}

/// Which quotations no longer stand once this one is issued.
fn replaced(matters: &[Matter<'_>], flow: &mut Flow) {
    let mut said: Vec<String> = Vec::new();
    for matter in matters {
        for number in matter.job.to_replace(Paper::Quotation) {
            let mut papers = matter.job.issued.iter();
            let date = papers.find(|issued| issued.number == number);
            let date = date.map_or_else(String::new, |issued| {
                format!(" of {}", shown::date(issued.date))
            });
            let one = format!("{number}{date}");
            if !said.contains(&one) {
                said.push(one);
            }
        }
    }
    if !said.is_empty() {
        flow.text(STRONG, &words::replaces(&said.join(", ")));
        flow.take(mm(1.0));
    }
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
    let named = matter.material_named();
    let others = [Field::Condition, Field::Hardness, Field::Coating];
    let others = others.into_iter().map(|field| matter.text(field));
    let said: Vec<&str> = [named.as_str()]
        .into_iter()
        .chain(others)
        .filter(|text| !text.is_empty())
        .collect();
    if said.is_empty() {
        "not named".to_owned()
    } else {
        said.join(", ")
    }
}

/// Size and mass of one part, as they were named.
fn size(matter: &Matter<'_>) -> String {
    let sizes = [Field::SizeX, Field::SizeY, Field::SizeZ].map(|field| matter.typed_length(field));
    let mut said: Vec<String> = Vec::new();
    if sizes.iter().any(|size| !size.is_empty()) {
        said.push(sizes.map(|size| shown::or_missing(&size)).join(" \u{d7} "));
    }
    if matter.has(Field::Mass) {
        said.push(matter.text(Field::Mass).to_owned());
    }
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
