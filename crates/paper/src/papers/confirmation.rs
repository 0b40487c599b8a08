//! The order confirmation: what was ordered, at what price, when, and what differs from the
//! quotation.

use quillbore_job::answer::How;
use quillbore_job::slip::{View, kind, line};
use quillbore_job::{Field, Paper, life, order};
use rust_decimal::Decimal;

use crate::letterhead::frame::Frame;
use crate::letterhead::opening;
use crate::matter::Matter;
use crate::matter::day;
use crate::matter::differs;
use crate::page::{Document, mm};
use crate::papers::settled::{ends_assumed, settled};
use crate::papers::{agreed, charged_once, differences, scope};
use crate::typeset::flow::Flow;
use crate::typeset::form::{self, Captioned};
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::side::side;
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::words::{confirmation as words, heads, phrases, quotation};

/// Sets the confirmation of a job's orders.
pub fn confirmation(matter: &Matter<'_>) -> Document {
    let mut flow = Flow::new(matter.sheet);
    opening::title(matter, &mut flow, words::TITLE);
    opening::about(matter, &mut flow, Paper::Confirmation);
    ordered(matter, &mut flow);
    scope::set(matter, &mut flow);
    dates(matter, &mut flow);
    conditions(matter, &mut flow);
    let frame = Frame::of(matter, Paper::Confirmation, words::TITLE, quotation::NET);
    flow.finish(|page, number, of| frame.write(page, matter.sheet, number, of))
}

fn ordered(matter: &Matter<'_>, flow: &mut Flow) {
    let currency = &matter.tables.rates.currency;
    let mut table = Table::new([
        Column::text(words::ORDER, Width::Share(1.2)).style(STRONG),
        Column::text(words::OF, Width::Fit(60.0)),
        Column::text(words::PART, Width::Share(1.6)),
        Column::figures(heads::QUANTITY, heads::IN_PARTS, Width::Fixed(mm(18.0))),
        Column::figures(heads::PRICE_EACH, currency, Width::Fixed(mm(26.0))).style(STRONG),
        Column::figures(heads::PRICE_OF_LOT, currency, Width::Fixed(mm(28.0))),
    ]);
    for order in matter.job.slips_of::<kind::Order>() {
        let quantity = quantity(matter, order);
        // The price is the order's own: nothing is filled in that nobody typed.
        let each = order.get(line::Each);
        let lot = each.and_then(|each| each.checked_mul(Decimal::from(quantity?)));
        let digits = matter.tables.rates.minor_digits;
        let other = order::pays_in(matter.job, order).filter(|pays| pays != currency);
        let money = |amount: Option<Decimal>| {
            amount.map_or_else(String::new, |mut amount| {
                // An order may name tenths of a cent: digits are added, never taken.
                amount.rescale(amount.scale().max(digits));
                let amount = matter.form().amount(amount);
                other.map_or_else(|| amount.clone(), |pays| format!("{amount}\u{a0}{pays}"))
            })
        };
        let part = match order.get(line::Revision) {
            "" => matter.part(),
            revision => matter.part_in(revision),
        };
        table.row(
            TableRow::new([
                Cell::new(order.get(line::Number)),
                Cell::new(day::day(matter.form(), order, line::Date)),
                Cell::new(part),
                Cell::new(
                    quantity
                        .map_or_else(String::new, |count| matter.form().count(f64::from(count))),
                ),
                Cell::new(money(each)),
                Cell::new(money(lot)),
            ])
            .at_least(mm(6.0)),
        );
    }
    flow.section(words::ORDERED, "", mm(24.0));
    table.set_or_say(flow, words::NO_ORDER);
    if let Some(price) = &matter.figures.price {
        charged_once::set(matter, price, flow);
    }
}

fn quantity(matter: &Matter<'_>, order: View<'_, kind::Order>) -> Option<u32> {
    order
        .get(line::Quantity)
        .or_else(|| matter.count_of(Field::Quantity))
}

fn dates(matter: &Matter<'_>, flow: &mut Flow) {
    flow.section(words::DATES, "", mm(18.0));
    let call_offs: Vec<View<'_, kind::Release>> = matter.job.slips_of::<kind::Release>().collect();
    if call_offs.is_empty() {
        let due = opening::order(matter)
            .map_or_else(String::new, |o| day::day(matter.form(), o, line::Due));
        // What the customer wished for in the inquiry is no promise.
        let due = match due.as_str() {
            "" => matter.count_of(Field::LeadDays).map_or_else(
                || quotation::TO_BE_AGREED.to_owned(),
                |days| quotation::lead(matter.form(), days),
            ),
            due => due.to_owned(),
        };
        form::fields(
            flow,
            &[Captioned::filled(words::DELIVERY, &due, 1.0).style(STRONG)],
        );
    } else {
        let mut table = Table::new([
            Column::text(words::CALL_OFF, Width::Share(1.0)).style(STRONG),
            Column::figures(heads::QUANTITY, heads::IN_PARTS, Width::Fixed(mm(24.0))),
            Column::text(words::DUE, Width::Share(1.0)),
            Column::text("", Width::Share(2.0)),
        ]);
        for called in call_offs {
            table.row(TableRow::new([
                Cell::new(called.get(line::Number)),
                Cell::new(called.text(line::Quantity)),
                Cell::new(day::day(matter.form(), called, line::Due)),
                Cell::new(called.get(line::Note)),
            ]));
        }
        table.set(flow);
    }
    flow.text(BODY, words::STARTS);
}

fn conditions(matter: &Matter<'_>, flow: &mut Flow) {
    flow.section(quotation::CONDITIONS, "", mm(36.0));
    if let Some(answered) = matter.quotation {
        side(flow, quotation::TITLE, |flow| {
            let said = phrases::of_day(&answered.number, &matter.form().day(answered.date));
            flow.text(STRONG, &said);
            flow.text(BODY, words::STILL_HOLDS);
        });
    }
    let differs = differs::of(matter, |_| true);
    if !differs.is_empty() {
        side(flow, words::DIFFERS, |flow| {
            differences::list(flow, &differs);
        });
    }
    let terms = opening::order(matter).map_or("", |order| order.get(line::Terms));
    if !terms.is_empty() {
        side(flow, words::ORDERS_TERMS, |flow| flow.text(BODY, terms));
    }
    let agreed = settled(std::slice::from_ref(matter), How::Agreed);
    if !agreed.is_empty() {
        side(flow, quotation::AGREED, |flow| {
            flow.dashes(BODY, agreed.iter().map(String::as_str));
        });
    }
    side(flow, quotation::ASSUMED, |flow| {
        let accepted = settled(std::slice::from_ref(matter), How::Accepted);
        flow.dashes(BODY, accepted.iter().map(String::as_str));
        flow.dashes(BODY, quotation::ASSUMPTIONS.iter().copied());
        if matter.has_thread() {
            flow.dashes(BODY, std::iter::once(quotation::THREAD));
        }
        flow.dashes(BODY, ends_assumed(matter).iter().map(String::as_str));
        if let Some(cap) = matter.amount_of(Field::LiabilityCap) {
            let amount = format!("{cap}\u{a0}{}", matter.tables.rates.currency);
            flow.dashes(
                BODY,
                std::iter::once(quotation::liability(&amount).as_str()),
            );
        }
    });
    side(flow, quotation::NOT_INCLUDED, |flow| {
        flow.dashes(BODY, matter.text(Field::Exclusions).lines());
        flow.dashes(BODY, matter.issuer.exclusions.iter().map(String::as_str));
    });
    side(flow, words::PLEASE_SEND, |flow| {
        let here = life::sum::<kind::Received, _>(matter.job, line::Count);
        let missing = life::ordered(matter.job).map(|ordered| ordered.saturating_sub(here));
        flow.text(BODY, &words::to_send(matter.form(), missing));
    });
    agreed::set(std::slice::from_ref(matter), flow);
    // What the customer is asked never stands alone on a page.
    flow.together(|flow| {
        side(flow, quotation::TERMS, |flow| {
            flow.dashes(BODY, std::iter::once(quotation::NET));
            flow.dashes(BODY, matter.issuer.terms.iter().map(String::as_str));
        });
        flow.take(mm(2.0));
        flow.text(STRONG, words::PLEASE_CHECK);
    });
}
