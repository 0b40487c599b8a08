//! The quotation of one or several jobs, issued or as a draft.

mod assumptions;
mod prices;

use quillbore_job::{Field, Paper};

use crate::letterhead::frame::Frame;
use crate::letterhead::{opening, who};
use crate::matter::Matter;
use crate::page::{Document, Ink, mm};
use crate::papers::scope;
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::form::{self, Captioned};
use crate::typeset::look::{BODY, LARGE, STRONG};
use crate::words::captions;
use crate::words::phrases;
use crate::words::quotation as words;

/// Sets the quotation of one or several jobs; the first one leads.
pub fn quotation(matters: &[Matter<'_>]) -> Document {
    let Some(first) = matters.first() else {
        return Document {
            sheet: crate::page::Sheet::A4,
            pages: Vec::new(),
            is_cut: false,
        };
    };
    let mut flow = Flow::new(first.sheet);
    opening::title(first, &mut flow, words::TITLE);
    if first.issuer.sample_rates {
        flow.text(STRONG.ink(Ink::Accent), words::SAMPLE_RATES);
        flow.take(mm(1.6));
    }
    head(first, &mut flow);
    who::customer(first, &mut flow, who::Contact::Elsewhere);
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
    // What is signed never stands alone on a page, and nobody signs for a price that isn't there.
    let is_priced = matters.iter().all(|matter| matter.figures.price.is_some());
    flow.together(|flow| {
        assumptions::terms(first, flow);
        if is_priced {
            acceptance(flow);
        }
    });
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
            Captioned::filled(
                captions::PART_NAME,
                named(matter.text(Field::PartName)),
                3.0,
            ),
            Captioned::filled(words::DRAWING, &drawing(matter), 3.0),
            Captioned::filled(words::MATERIAL, &material(matter), 2.4),
            Captioned::filled(words::SIZE, &size(matter), 2.0),
        ],
    );
    scope::set(matter, flow);
    prices::set(matter, flow);
}

fn head(matter: &Matter<'_>, flow: &mut Flow) {
    let number = match matter.number {
        Some(number) => number.to_owned(),
        None if matter.job.number.is_empty() => words::DRAFT.to_owned(),
        None => format!("{}, {}", matter.job.number, words::DRAFT),
    };
    let revision = match matter.text(Field::Revision) {
        "" => phrases::NOT_NAMED,
        revision => revision,
    };
    form::fields(
        flow,
        &[
            Captioned::of(captions::NUMBER, &number, 2.0).style(LARGE),
            Captioned::of(captions::DATE, &matter.form().day(matter.date), 2.0).style(LARGE),
            Captioned::of(captions::PART, matter.text(Field::Part), 3.0).style(LARGE),
            Captioned::filled(captions::REVISION, revision, 1.4).style(LARGE),
        ],
    );
    flow.take(mm(1.0));
    form::fields(
        flow,
        &[
            Captioned::of(words::FOR, matter.text(Field::Customer), 3.0).style(STRONG),
            Captioned::of(words::CONTACT, matter.text(Field::Contact), 3.0),
            Captioned::of(
                words::CUSTOMERS_REFERENCE,
                matter.text(Field::CustomerReference),
                2.4,
            ),
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
            let one = date.map_or_else(
                || number.to_string(),
                |issued| phrases::of_day(&number, &matter.form().day(issued.date)),
            );
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
    if text.is_empty() {
        phrases::NOT_NAMED
    } else {
        text
    }
}

fn drawing(matter: &Matter<'_>) -> String {
    match (
        matter.text(Field::Drawing),
        matter.text(Field::DrawingRevision),
    ) {
        ("", _) => phrases::NOT_NAMED.to_owned(),
        (drawing, "") => drawing.to_owned(),
        (drawing, revision) => words::drawing(drawing, revision),
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
        phrases::NOT_NAMED.to_owned()
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
        phrases::NOT_NAMED.to_owned()
    } else {
        said.join(", ")
    }
}

fn acceptance(flow: &mut Flow) {
    flow.together(|flow| {
        flow.section(words::ACCEPTANCE, words::ACCEPTANCE_REMARK, 0.0);
        flow.text(BODY, words::WE_ORDER);
        flow.take(mm(2.0));
        form::fields(
            flow,
            &[
                Captioned::blank(captions::QUANTITY, 1.0),
                Captioned::blank(captions::CUSTOMERS_ORDER, 2.0),
                Captioned::blank(captions::NAME, 2.4),
                Captioned::blank(captions::SIGNATURE, 2.4),
                Captioned::blank(captions::DATE, 1.4),
            ],
        );
    });
}
