//! How every paper that goes to or comes from a customer begins: what it is, who issued it, its
//! number, what it is about.

use quillbore_job::slip::{View, kind};
use quillbore_job::{Field, Paper};

use crate::letterhead::bar::Bar;
use crate::letterhead::{frame, who};
use crate::matter::Matter;
use crate::page::{Ink, mm};
use crate::typeset::flow::Flow;
use crate::typeset::form::{self, Captioned};
use crate::typeset::look::{BODY, LARGE, STRONG};
use crate::typeset::wrap::Span;

/// The title with its rule, the shop with logo and address; why the paper isn't valid yet, where the
/// head has no room for all of it.
pub(crate) fn title(matter: &Matter<'_>, flow: &mut Flow, title: &str) {
    let address = who::lines(matter.issuer).swap_remove(0);
    let bar = Bar {
        title,
        right: &matter.issuer.name,
        style: LARGE,
        small: &address,
    };
    let is_beside = bar.set(matter, flow);
    who::issuer(matter, flow, usize::from(is_beside));
    if let Some(why) = frame::cut_preview(matter) {
        flow.text(STRONG.ink(Ink::Accent), why);
    }
}

/// Number, date and part; customer, order and drawing.
pub(crate) fn about(matter: &Matter<'_>, flow: &mut Flow, paper: Paper) {
    let follows = matter.follows();
    let words = matter.words();
    let captions = &words.captions;
    let number = match matter.number {
        Some(number) => number.to_owned(),
        None => format!("{} {}", matter.number_of(paper), words.quotation.draft),
    };
    form::fields(
        flow,
        &[
            Captioned::of(captions.number, &number, 2.9).style(LARGE),
            Captioned::of(captions.date, &matter.form().day(matter.date), 2.0).style(LARGE),
            Captioned::of(captions.part, matter.text(Field::Part), 3.0)
                .style(LARGE)
                .whole(),
            Captioned::of(captions.revision, follows.revision, 1.2).style(LARGE),
        ],
    );
    flow.take(mm(1.0));
    form::fields(
        flow,
        &[
            Captioned::of(captions.customer, matter.text(Field::Customer), 3.0).style(STRONG),
            Captioned::of(
                captions.customers_order,
                matter.order_number(),
                po_share(matter, 2.4),
            )
            .style(STRONG)
            .whole()
            .boxed(),
            Captioned::of(captions.part_name, matter.text(Field::PartName), 2.4),
            Captioned::of(captions.drawing, &matter.drawing(), 2.4),
        ],
    );
    if matches!(
        paper,
        Paper::Confirmation | Paper::Certificate | Paper::Packing
    ) {
        who::customer(matter, flow, who::Contact::Named);
    }
    let reference = matter.text(Field::CustomerReference);
    if !reference.is_empty() {
        let lead = Span::new(STRONG, words.opening.reference);
        flow.paragraph(&[lead, Span::new(BODY, reference)], 0.0);
        flow.take(mm(1.2));
    }
    for said in matter.withdrawn(paper) {
        flow.text(STRONG, &said);
    }
}

/// The share of a row that the order's number gets: a long one gets room rather than small type.
pub(crate) fn po_share(matter: &Matter<'_>, usual: f64) -> f64 {
    const LONG: usize = 15;
    if matter.order_number().chars().count() > LONG {
        usual * 1.7
    } else {
        usual
    }
}

/// The newest order.
pub(crate) fn order<'a>(matter: &Matter<'a>) -> Option<View<'a, kind::Order>> {
    matter.order()
}
