//! Which job this is: number, part, revision, quantity, due date, and the order in a box of its own.

use quillbore_job::slip::{LineOf, TypedKind, View, kind, line};
use quillbore_job::{Field, Form, Paper};

use crate::letterhead::bar::Bar;
use crate::letterhead::opening;
use crate::matter::Matter;
use crate::matter::day;
use crate::page::mm;
use crate::typeset::flow::Flow;
use crate::typeset::form::{self, Captioned};
use crate::typeset::look::{BODY, LARGE, STRONG, TITLE};
use crate::typeset::side::side;
use crate::typeset::wrap::Span;
use crate::words::captions;
use crate::words::traveler::of_order as order_words;

use crate::words::traveler::title as words;

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let number = matter.number.unwrap_or(&matter.job.number);
    let bar = Bar {
        title: words::TITLE,
        right: number,
        style: TITLE,
        small: "",
    };
    bar.set(matter, flow);
    flow.take(mm(1.6));
    form::fields(
        flow,
        &[
            Captioned::of(words::JOB, &matter.job.number, 1.9)
                .style(LARGE)
                .whole(),
            Captioned::of(captions::PART, matter.text(Field::Part), 3.2)
                .style(LARGE)
                .whole(),
            Captioned::of(captions::REVISION, matter.follows().revision, 1.2).style(LARGE),
            Captioned::of(captions::QUANTITY, &matter.quantity_text(), 1.2).style(LARGE),
            Captioned::of(words::DUE, &matter.due_text(), 2.4).style(LARGE),
        ],
    );
    flow.take(mm(0.6));
    let call_off = matter.call_off().map_or("", |slip| slip.get(line::Number));
    let share = opening::po_share(matter, 2.8);
    let mut row = vec![
        Captioned::of(captions::CUSTOMERS_ORDER, matter.order_number(), share)
            .style(LARGE)
            .whole()
            .boxed(),
    ];
    if !call_off.is_empty() {
        row.push(Captioned::filled(words::CALL_OFF, call_off, 1.6).style(STRONG));
    }
    row.extend([
        Captioned::of(captions::CUSTOMER, matter.text(Field::Customer), 2.6),
        Captioned::of(captions::PART_NAME, matter.text(Field::PartName), 2.4),
        Captioned::of(words::REFERENCE, matter.text(Field::CustomerReference), 1.8),
    ]);
    form::fields(flow, &row);
    for said in matter.withdrawn(Paper::Traveler) {
        flow.text(STRONG, &said);
    }
}

/// What orders and this lot's call-off say beyond their number, and what the office noted.
pub(super) fn notes(matter: &Matter<'_>, flow: &mut Flow) {
    let newest = matter.order().map(View::id);
    let orders = matter.job.slips_of::<kind::Order>();
    let form = matter.form();
    let orders = orders.map(|order| of_order(order, Some(order.id()) == newest, form));
    // Other call-offs have travelers of their own.
    let call_offs = matter.call_off().map(|slip| of_call_off(slip, form));
    let told: Vec<String> = orders
        .chain(call_offs)
        .filter(|told| !told.is_empty())
        .collect();
    if !told.is_empty() {
        side(flow, words::ORDER, |flow| {
            flow.dashes(BODY, told.iter().map(String::as_str));
        });
    }
    if matter.has(Field::Notes) {
        side(flow, words::NOTES, |flow| {
            for line in matter.text(Field::Notes).lines() {
                flow.paragraph(&[Span::new(BODY, line.trim())], 0.0);
            }
        });
    }
}

/// What an order says that doesn't stand in the head: of the newest one, only what is beside its
/// number, quantity and due date.
fn of_order(order: View<'_, kind::Order>, newest: bool, form: Form) -> String {
    let mut more: Vec<String> = Vec::new();
    if order.get(line::Blanket) == Some(true) {
        more.push(order_words::BLANKET.to_owned());
    }
    more.extend(named(order, &[LineOf::new(line::Note)], form));
    if newest && more.is_empty() {
        return String::new();
    }
    let lines = [
        LineOf::new(line::Number),
        LineOf::new(line::Date),
        LineOf::new(line::Quantity),
        LineOf::new(line::Due),
    ];
    let mut said = named(order, &lines, form);
    said.append(&mut more);
    said.join("; ")
}

/// A call-off in a line.
fn of_call_off(slip: View<'_, kind::Release>, form: Form) -> String {
    let lines = [
        LineOf::new(line::Number),
        LineOf::new(line::Date),
        LineOf::new(line::Quantity),
        LineOf::new(line::Due),
        LineOf::new(line::Note),
    ];
    let said = named(slip, &lines, form).join("; ");
    if said.is_empty() {
        said
    } else {
        order_words::call_off(&said)
    }
}

fn named<K: TypedKind>(slip: View<'_, K>, lines: &[LineOf<K>], form: Form) -> Vec<String> {
    lines
        .iter()
        .map(|line| (line, day::typed(form, slip.one_of(line)).replace('\n', " ")))
        .filter(|(_, text)| !text.is_empty())
        .map(|(line, text)| order_words::line(line.line(), &text))
        .collect()
}
