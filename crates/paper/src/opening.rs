//! How every paper that goes to or comes from a customer begins: what it is, who issued it, its
//! number, what it is about.

use quillbore_job::order::{self, Difference, Topic};
use quillbore_job::slip::{Has, TypedLine, View, holds, kind, line};
use quillbore_job::{Entry, Field, Paper, Value};

use crate::flow::Flow;
use crate::form::{self, Field as Blank};
use crate::frame;
use crate::look::{BODY, CAPTION, LARGE, STRONG, TITLE};
use crate::matter::Matter;
use crate::page::{Ink, Stroke, Style, mm};
use crate::shown;
use crate::words::life::REFERENCE;
use crate::words::order as words;
use crate::words::quotation::DRAFT;
use crate::wrap::{Span, shrink};

/// The title with its rule, the shop and its address; why the paper isn't valid yet, where the head
/// has no room for all of it.
pub(crate) fn title(matter: &Matter<'_>, flow: &mut Flow, title: &str) {
    bar(flow, title, LARGE, &matter.issuer.name);
    let body = flow.body();
    let address = matter.issuer.address.join(", ");
    let line = flow.take(mm(5.0));
    flow.page()
        .text_right(body.right, line + mm(3.0), CAPTION, &address);
    if let Some(why) = frame::cut_preview(matter) {
        flow.text(STRONG.ink(Ink::Accent), why);
    }
}

/// A title at the left, something at the right, and the rule under both.
pub(crate) fn bar(flow: &mut Flow, title: &str, style: Style, right: &str) {
    let body = flow.body();
    let top = flow.take(mm(9.0));
    let page = flow.page();
    let end = page.text(body.left, top + mm(6.4), TITLE.ink(Ink::Accent), title);
    let style = shrink(right, body.right - end - mm(6.0), style);
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
            Blank::of("part", matter.text(Field::Part), 3.0)
                .style(LARGE)
                .whole(),
            Blank::of("revision", follows.revision, 1.2).style(LARGE),
        ],
    );
    flow.take(mm(1.0));
    let drawing = match [matter.text(Field::Drawing), follows.drawing_revision] {
        [drawing, ""] => drawing.to_owned(),
        [drawing, revision] => format!("{drawing} rev {revision}"),
    };
    form::fields(
        flow,
        &[
            Blank::of("customer", matter.text(Field::Customer), 3.0).style(STRONG),
            Blank::of(
                "customer's PO",
                matter.order_number(),
                po_share(matter, 2.4),
            )
            .style(STRONG)
            .whole()
            .boxed(),
            Blank::of("part name", matter.text(Field::PartName), 2.4),
            Blank::of("drawing", drawing.trim(), 2.4),
        ],
    );
    let reference = matter.text(Field::CustomerReference);
    if !reference.is_empty() {
        let lead = Span::new(STRONG, REFERENCE);
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

/// What differs in one order, and how that was settled.
pub(crate) struct Differs {
    /// The differences that were settled alike.
    pub(crate) said: Vec<String>,
    /// Who accepted them and why, or that nobody has.
    pub(crate) settled: String,
}

/// What differs in the orders on topics that a paper is about, accepted and open apart.
pub(crate) fn differs(matter: &Matter<'_>, about: impl Fn(Topic) -> bool) -> Vec<Differs> {
    let mut all = Vec::new();
    for order in matter.job.slips_of::<kind::Order>() {
        let found = order::differences(matter.job, order).into_iter();
        let found = found.filter(|difference| about(difference.topic()));
        let (accepted, open): (Vec<_>, Vec<_>) =
            found.partition(|difference| order::is_accepted(order, difference));
        let by = words::accepted(order.get(line::Accepted));
        let of = |found: &[Difference], settled: &str| Differs {
            said: found.iter().map(words::difference).collect(),
            settled: settled.to_owned(),
        };
        all.push(of(&accepted, &by));
        all.push(of(&open, words::NOT_ACCEPTED));
    }
    all.retain(|differs| !differs.said.is_empty());
    all
}

/// What differs as a list, each part of it followed by how it was settled.
pub(crate) fn list_differs(flow: &mut Flow, all: &[Differs]) {
    for differs in all {
        flow.dashes(BODY, differs.said.iter().map(String::as_str));
        flow.text(STRONG, &differs.settled);
    }
}

/// A day as papers show it; what can't be read stands as it was typed.
pub(crate) fn day<K: Has<L>, L: TypedLine<Holds = holds::Date>>(
    slip: View<'_, K>,
    line: L,
) -> String {
    typed(slip.entry(line))
}

/// What was typed in a line as papers show it: a day as such, everything else as it stands.
pub(crate) fn typed(entry: &Entry<Value>) -> String {
    match entry.value().and_then(Value::date) {
        Some(day) => shown::date(day),
        None => entry.text().trim().to_owned(),
    }
}
