//! What the price rests on, what it leaves out, when and for how long.

use quillbore_job::Field;

use crate::flow::Flow;
use crate::look::{BODY, STRONG};
use crate::matter::Matter;
use crate::page::mm;
use crate::shown;
use crate::side::side;
use crate::words::quotation as words;

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    flow.section("Conditions", "", mm(30.0));
    side(flow, "Lead time", |flow| {
        let text = matter
            .count_of(Field::LeadDays)
            .map_or_else(|| words::TO_BE_AGREED.to_owned(), words::lead);
        flow.text(STRONG, &text);
    });
    side(flow, "Valid", |flow| flow.text(STRONG, &valid(matter)));
    let open = open_questions(matter);
    if !open.is_empty() {
        side(flow, "Please confirm", |flow| {
            flow.dashes(BODY, open.iter().map(String::as_str));
        });
    }
    side(flow, "Assumptions", |flow| {
        flow.dashes(BODY, words::ASSUMPTIONS.iter().copied());
        if let Some(cap) = matter.amount_of(Field::LiabilityCap) {
            let amount = format!("{cap}\u{a0}{}", matter.tables.rates.currency);
            flow.dashes(BODY, std::iter::once(words::liability(&amount).as_str()));
        }
    });
    side(flow, "Not included", |flow| {
        flow.dashes(BODY, matter.text(Field::Exclusions).lines());
        flow.dashes(BODY, matter.issuer.exclusions.iter().map(String::as_str));
    });
    side(flow, "Terms", |flow| {
        flow.dashes(BODY, std::iter::once(words::NET));
        flow.dashes(BODY, matter.issuer.terms.iter().map(String::as_str));
    });
}

fn valid(matter: &Matter<'_>) -> String {
    let until = matter.count_of(Field::ValidDays).and_then(|days| {
        let end = matter
            .date
            .checked_add_days(chrono::Days::new(days.into()))?;
        Some(words::valid(days, &shown::date(end)))
    });
    until.unwrap_or_else(|| words::TO_BE_AGREED.to_owned())
}

/// Findings that the customer has to know of before ordering.
fn open_questions(matter: &Matter<'_>) -> Vec<String> {
    matter
        .remarks
        .iter()
        .filter(|remark| words::FOR_THE_CUSTOMER.contains(&remark.code))
        .map(|remark| match remark.row {
            Some(row) => format!("Hole {}: {}", matter.mark(row), remark.text),
            None => remark.text.clone(),
        })
        .collect()
}
