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

/// Sets the confirmation of a job's orders.
pub fn confirmation(matter: &Matter<'_>) -> Document {
    let all = matter.words();
    let words = &all.confirmation;
    let mut flow = Flow::in_language(matter.sheet, matter.language);
    opening::title(matter, &mut flow, words.title);
    opening::about(matter, &mut flow, Paper::Confirmation);
    ordered(matter, &mut flow);
    scope::set(matter, &mut flow);
    dates(matter, &mut flow);
    conditions(matter, &mut flow);
    let frame = Frame::of(matter, Paper::Confirmation, words.title, all.quotation.net);
    flow.finish(|page, number, of| frame.write(page, matter.sheet, number, of))
}

fn ordered(matter: &Matter<'_>, flow: &mut Flow) {
    let all = matter.words();
    let words = &all.confirmation;
    let currency = &matter.tables.rates.currency;
    let mut table = Table::new([
        Column::text(words.order, Width::Share(1.2)).style(STRONG),
        Column::text(words.of, Width::Fit(60.0)),
        Column::text(words.part, Width::Share(1.6)),
        Column::figures(
            all.heads.quantity,
            all.heads.in_parts,
            Width::Fixed(mm(18.0)),
        ),
        Column::figures(all.heads.price_each, currency, Width::Fixed(mm(26.0))).style(STRONG),
        Column::figures(all.heads.price_of_lot, currency, Width::Fixed(mm(28.0))),
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
    flow.section(words.ordered, "", mm(24.0));
    table.set_or_say(flow, words.no_order);
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
    let all = matter.words();
    let words = &all.confirmation;
    flow.section(words.dates, "", mm(18.0));
    let call_offs: Vec<View<'_, kind::Release>> = matter.job.slips_of::<kind::Release>().collect();
    if call_offs.is_empty() {
        let due = opening::order(matter)
            .map_or_else(String::new, |o| day::day(matter.form(), o, line::Due));
        // What the customer wished for in the inquiry is no promise.
        let due = match due.as_str() {
            "" => matter.count_of(Field::LeadDays).map_or_else(
                || all.quotation.to_be_agreed.to_owned(),
                |days| (all.quotation.lead)(matter.form(), days),
            ),
            due => due.to_owned(),
        };
        form::fields(
            flow,
            &[Captioned::filled(words.delivery, &due, 1.0).style(STRONG)],
        );
    } else {
        let mut table = Table::new([
            Column::text(words.call_off, Width::Share(1.0)).style(STRONG),
            Column::figures(
                all.heads.quantity,
                all.heads.in_parts,
                Width::Fixed(mm(24.0)),
            ),
            Column::text(words.due, Width::Share(1.0)),
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
    flow.text(BODY, words.starts);
}

fn conditions(matter: &Matter<'_>, flow: &mut Flow) {
    let all = matter.words();
    let words = &all.confirmation;
    flow.section(all.quotation.conditions, "", mm(36.0));
    if let Some(answered) = matter.quotation {
        side(flow, all.quotation.title, |flow| {
            let said = (all.phrases.of_day)(&answered.number, &matter.form().day(answered.date));
            flow.text(STRONG, &said);
            flow.text(BODY, words.still_holds);
        });
    }
    let differs = differs::of(matter, |_| true);
    if !differs.is_empty() {
        side(flow, words.differs, |flow| {
            differences::list(flow, &differs);
        });
    }
    let terms = opening::order(matter).map_or("", |order| order.get(line::Terms));
    if !terms.is_empty() {
        side(flow, words.orders_terms, |flow| flow.text(BODY, terms));
    }
    let agreed = settled(std::slice::from_ref(matter), How::Agreed);
    if !agreed.is_empty() {
        side(flow, all.quotation.agreed, |flow| {
            flow.dashes(BODY, agreed.iter().map(String::as_str));
        });
    }
    side(flow, all.quotation.assumed, |flow| {
        let accepted = settled(std::slice::from_ref(matter), How::Accepted);
        flow.dashes(BODY, accepted.iter().map(String::as_str));
        flow.dashes(BODY, all.quotation.assumptions.iter().copied());
        if matter.has_thread() {
            flow.dashes(BODY, std::iter::once(all.quotation.thread));
        }
        flow.dashes(BODY, ends_assumed(matter).iter().map(String::as_str));
        if let Some(cap) = matter.amount_of(Field::LiabilityCap) {
            let amount = format!("{cap}\u{a0}{}", matter.tables.rates.currency);
            flow.dashes(
                BODY,
                std::iter::once((all.quotation.liability)(&amount).as_str()),
            );
        }
    });
    side(flow, all.quotation.not_included, |flow| {
        flow.dashes(BODY, matter.text(Field::Exclusions).lines());
        flow.dashes(BODY, matter.issuer.exclusions.iter().map(String::as_str));
    });
    side(flow, words.please_send, |flow| {
        let here = life::sum::<kind::Received, _>(matter.job, line::Count);
        let missing = life::ordered(matter.job).map(|ordered| ordered.saturating_sub(here));
        flow.text(BODY, &(words.to_send)(matter.form(), missing));
    });
    agreed::set(std::slice::from_ref(matter), flow);
    // What the customer is asked never stands alone on a page.
    flow.together(|flow| {
        side(flow, all.quotation.terms, |flow| {
            flow.dashes(BODY, std::iter::once(all.quotation.net));
            flow.dashes(BODY, matter.issuer.terms.iter().map(String::as_str));
        });
        flow.take(mm(2.0));
        flow.text(STRONG, words.please_check);
    });
}
