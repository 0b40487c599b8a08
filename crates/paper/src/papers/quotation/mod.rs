//! The quotation of one or several jobs, issued or as a draft.

mod assumptions;
mod prices;

use quillbore_job::{Field, Language, Paper};

use crate::letterhead::frame::Frame;
use crate::letterhead::{opening, who};
use crate::matter::Matter;
use crate::page::{Document, Ink, mm};
use crate::papers::scope;
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::form::{self, Captioned};
use crate::typeset::look::{BODY, LARGE, STRONG};

/// Sets the quotation of one or several jobs; the first one leads.
pub fn quotation(matters: &[Matter<'_>]) -> Document {
    let Some(first) = matters.first() else {
        return Document {
            sheet: crate::page::Sheet::A4,
            pages: Vec::new(),
            is_cut: false,
            language: Language::default(),
        };
    };
    let words = &first.words().quotation;
    // One paper has one language, its first job's.
    let matters: Vec<Matter<'_>> = matters
        .iter()
        .map(|matter| matter.told_in(first.language))
        .collect();
    let matters = matters.as_slice();
    let mut flow = Flow::in_language(first.sheet, first.language);
    opening::title(first, &mut flow, words.title);
    if first.issuer.sample_rates {
        flow.text(STRONG.ink(Ink::Accent), words.sample_rates);
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
            acceptance(first, flow);
        }
    });
    let title = match first.number {
        Some(_) => words.title.to_owned(),
        None => format!("{}, {},", words.title, words.draft),
    };
    let frame = Frame::of(first, Paper::Quotation, &title, words.net);
    flow.finish(|page, number, of| frame.write(page, first.sheet, number, of))
}

/// What is offered of one job: part, holes, prices.
fn part(matter: &Matter<'_>, flow: &mut Flow) {
    let words = &matter.words().quotation;
    let captions = &matter.words().captions;
    form::fields(
        flow,
        &[
            Captioned::filled(
                captions.part_name,
                named(matter, matter.text(Field::PartName)),
                3.0,
            ),
            Captioned::filled(words.drawing_and_revision, &drawing(matter), 3.0),
            Captioned::filled(words.material, &material(matter), 2.4),
            Captioned::filled(words.size, &size(matter), 2.0),
        ],
    );
    scope::set(matter, flow);
    prices::set(matter, flow);
}

fn head(matter: &Matter<'_>, flow: &mut Flow) {
    let words = &matter.words().quotation;
    let captions = &matter.words().captions;
    let number = match matter.number {
        Some(number) => number.to_owned(),
        None if matter.job.number.is_empty() => words.draft.to_owned(),
        None => format!("{}, {}", matter.job.number, words.draft),
    };
    let revision = named(matter, matter.text(Field::Revision));
    form::fields(
        flow,
        &[
            Captioned::of(captions.number, &number, 2.0).style(LARGE),
            Captioned::of(captions.date, &matter.form().day(matter.date), 2.0).style(LARGE),
            Captioned::of(captions.part, matter.text(Field::Part), 3.0).style(LARGE),
            Captioned::filled(captions.revision, revision, 1.4).style(LARGE),
        ],
    );
    flow.take(mm(1.0));
    form::fields(
        flow,
        &[
            Captioned::of(words.for_whom, matter.text(Field::Customer), 3.0).style(STRONG),
            Captioned::of(words.contact, matter.text(Field::Contact), 3.0),
            Captioned::of(
                words.customers_reference,
                matter.text(Field::CustomerReference),
                2.4,
            ),
        ],
    );
}

/// Which quotations no longer stand once this one is issued.
fn replaced(matters: &[Matter<'_>], flow: &mut Flow) {
    let Some(words) = matters.first().map(Matter::words) else {
        return;
    };
    let mut said: Vec<String> = Vec::new();
    for matter in matters {
        for number in matter.job.to_replace(Paper::Quotation) {
            let mut papers = matter.job.issued.iter();
            let date = papers.find(|issued| issued.number == number);
            let one = date.map_or_else(
                || number.to_string(),
                |issued| (words.phrases.of_day)(&number, &matter.form().day(issued.date)),
            );
            if !said.contains(&one) {
                said.push(one);
            }
        }
    }
    if !said.is_empty() {
        flow.text(STRONG, &(words.quotation.replaces)(&said.join(", ")));
        flow.take(mm(1.0));
    }
}

fn named<'a>(matter: &Matter<'_>, text: &'a str) -> &'a str {
    if text.is_empty() {
        matter.words().phrases.not_named
    } else {
        text
    }
}

fn drawing(matter: &Matter<'_>) -> String {
    match (
        matter.text(Field::Drawing),
        matter.text(Field::DrawingRevision),
    ) {
        ("", _) => matter.words().phrases.not_named.to_owned(),
        (drawing, "") => drawing.to_owned(),
        (drawing, revision) => (matter.words().quotation.drawing)(drawing, revision),
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
        matter.words().phrases.not_named.to_owned()
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
        said.push(matter.mass_of_one());
    }
    if said.is_empty() {
        matter.words().phrases.not_named.to_owned()
    } else {
        said.join(", ")
    }
}

fn acceptance(matter: &Matter<'_>, flow: &mut Flow) {
    let words = &matter.words().quotation;
    let captions = &matter.words().captions;
    flow.together(|flow| {
        flow.section(words.acceptance, words.acceptance_remark, 0.0);
        flow.text(BODY, words.we_order);
        flow.take(mm(2.0));
        form::fields(
            flow,
            &[
                Captioned::blank(captions.quantity, 1.0),
                Captioned::blank(captions.customers_order, 2.0),
                Captioned::blank(captions.name, 2.4),
                Captioned::blank(captions.signature, 2.4),
                Captioned::blank(captions.date, 1.4),
            ],
        );
    });
}
