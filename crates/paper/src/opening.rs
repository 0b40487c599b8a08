//! How every paper that goes to or comes from a customer begins: what it is, who issued it, its
//! number, what it is about.

use quillbore_job::order::{self, Topic};
use quillbore_job::words::life;
use quillbore_job::{Field, Line, Paper, Slip, SlipKind};

use crate::flow::Flow;
use crate::form::{self, Field as Blank};
use crate::look::{CAPTION, LARGE, STRONG, TITLE};
use crate::matter::Matter;
use crate::page::{Ink, Stroke, Style, mm};
use crate::shown;
use crate::words::life::NOT_ACCEPTED;
use crate::words::quotation::DRAFT;

/// The title with its rule, the shop and its address.
pub(crate) fn title(matter: &Matter<'_>, flow: &mut Flow, title: &str) {
    bar(flow, title, LARGE, &matter.issuer.name);
    let body = flow.body();
    let address = matter.issuer.address.join(", ");
    let line = flow.take(mm(5.0));
    flow.page()
        .text_right(body.right, line + mm(3.0), CAPTION, &address);
}

/// A title at the left, something at the right, and the rule under both.
pub(crate) fn bar(flow: &mut Flow, title: &str, style: Style, right: &str) {
    let body = flow.body();
    let top = flow.take(mm(9.0));
    let page = flow.page();
    page.text(body.left, top + mm(6.4), TITLE.ink(Ink::Accent), title);
    page.text_right(body.right, top + mm(6.4), style, right);
    page.rule(
        body.left,
        body.right,
        top + mm(8.4),
        Stroke::new(1.4, Ink::Accent),
    );
}

/// Number, date and part; customer, order and drawing.
pub(crate) fn about(matter: &Matter<'_>, flow: &mut Flow, paper: Paper) {
    let follows = matter.follows();
    let number = match matter.number {
        Some(number) => number.to_owned(),
        None => format!("{} {}", matter.number_of(paper), DRAFT),
    };
    form::fields(
        flow,
        &[
            Blank::of("number", &number, 2.9).style(LARGE),
            Blank::of("date", &shown::date(matter.date), 2.0).style(LARGE),
            Blank::of("part", matter.text(Field::Part), 3.0).style(LARGE),
            Blank::of("revision", follows.revision, 1.2).style(LARGE),
        ],
    );
    flow.take(mm(1.0));
    let revision = match follows.drawing_revision {
        "" => String::new(),
        revision => format!("rev {revision}"),
    };
    let drawing = [matter.text(Field::Drawing), &revision].join(" ");
    form::fields(
        flow,
        &[
            Blank::of("customer", matter.text(Field::Customer), 3.0).style(STRONG),
            Blank::of("order", &order_number(matter), 2.4).style(STRONG),
            Blank::of("part name", matter.text(Field::PartName), 2.4),
            Blank::of("drawing", drawing.trim(), 2.4),
        ],
    );
}

/// The newest order.
pub(crate) fn order<'a>(matter: &Matter<'a>) -> Option<&'a Slip> {
    matter.job.slips(SlipKind::Order).next_back()
}

/// The customer's number of the order, else of the inquiry.
pub(crate) fn order_number(matter: &Matter<'_>) -> String {
    let number = order(matter).map_or("", |order| order.text(Line::Number));
    match number {
        "" => matter.text(Field::CustomerReference).to_owned(),
        number => number.to_owned(),
    }
}

/// What differs in the orders on topics that a paper is about, and who accepted it.
pub(crate) fn accepted(matter: &Matter<'_>, about: impl Fn(Topic) -> bool) -> Vec<String> {
    let orders = matter.job.slips(SlipKind::Order);
    let said = orders.flat_map(|order| {
        let all = order::differences(matter.job, order).into_iter();
        let all = all.filter(|difference| about(difference.topic()));
        all.map(|difference| {
            let said = life::difference(&difference);
            let settled = if order::is_accepted(order, &difference) {
                life::accepted(order.text(Line::Accepted))
            } else {
                NOT_ACCEPTED.to_owned()
            };
            format!("{said} {settled}")
        })
    });
    said.collect()
}

/// A day as papers show it; what can't be read stands as it was typed.
pub(crate) fn day(slip: &Slip, line: Line) -> String {
    match slip.day(line) {
        Some(day) => shown::date(day),
        None => slip.text(line).to_owned(),
    }
}
