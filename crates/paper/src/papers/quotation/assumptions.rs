//! What the price rests on, what it leaves out, when and for how long.

use quillbore_calc::finding::Kind;
use quillbore_job::Field;
use quillbore_job::answer::How;
use quillbore_job::concern::{Customer, Told};

use crate::matter::Matter;
use crate::matter::Remark;
use crate::page::mm;
use crate::papers::agreed;
use crate::papers::settled::{ends_assumed, settled};
use crate::typeset::flow::Flow;
use crate::typeset::form;
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::side::side;
use crate::typeset::wrap::Span;

pub(super) fn set(matters: &[Matter<'_>], flow: &mut Flow) {
    let Some(first) = matters.first() else {
        return;
    };
    let words = &first.words().quotation;
    flow.section(words.conditions, "", mm(30.0));
    side(flow, words.lead_time, |flow| {
        let lead = |matter: &Matter<'_>| {
            let days = matter.count_of(Field::LeadDays);
            days.map_or_else(
                || words.to_be_agreed.to_owned(),
                |days| (words.lead)(matter.form(), days),
            )
        };
        of_each(matters, flow, lead);
    });
    side(flow, words.valid_name, |flow| {
        flow.text(STRONG, &valid(first));
    });
    let open: Vec<String> = matters.iter().flat_map(open_questions).collect();
    if !open.is_empty() {
        side(flow, words.please_confirm, |flow| {
            flow.text(STRONG, words.tick);
            flow.take(mm(1.0));
            for point in &open {
                form::check(flow, &[Span::new(BODY, point)]);
            }
        });
    }
    let agreed = settled(matters, How::Agreed);
    if !agreed.is_empty() {
        side(flow, words.agreed, |flow| {
            flow.dashes(BODY, agreed.iter().map(String::as_str));
        });
    }
    side(flow, words.assumed, |flow| {
        let accepted = settled(matters, How::Accepted);
        flow.dashes(BODY, accepted.iter().map(String::as_str));
        flow.dashes(BODY, words.assumptions.iter().copied());
        if matters.iter().any(Matter::has_thread) {
            flow.dashes(BODY, std::iter::once(words.thread));
        }
        for matter in matters {
            let said = ends_assumed(matter).map(|said| of_part(matter, matters.len(), said));
            flow.dashes(BODY, said.iter().map(String::as_str));
            if let Some(cap) = matter.amount_of(Field::LiabilityCap) {
                let amount = format!("{cap}\u{a0}{}", matter.tables.rates.currency);
                let said = of_part(matter, matters.len(), (words.liability)(&amount));
                flow.dashes(BODY, std::iter::once(said.as_str()));
            }
        }
    });
    side(flow, words.not_included, |flow| {
        for matter in matters {
            flow.dashes(BODY, matter.text(Field::Exclusions).lines());
        }
        flow.dashes(BODY, first.issuer.exclusions.iter().map(String::as_str));
    });
    agreed::set(matters, flow);
}

/// The shop's terms.
pub(super) fn terms(first: &Matter<'_>, flow: &mut Flow) {
    let words = &first.words().quotation;
    side(flow, words.terms, |flow| {
        flow.dashes(BODY, std::iter::once(words.net));
        flow.dashes(BODY, first.issuer.terms.iter().map(String::as_str));
    });
}

/// What is said of a job, with its part where there are several.
fn of_part(matter: &Matter<'_>, of: usize, said: String) -> String {
    if of > 1 {
        format!("{}: {said}", matter.part_offered())
    } else {
        said
    }
}

/// A sentence for all jobs, or one for each where they differ.
fn of_each(matters: &[Matter<'_>], flow: &mut Flow, say: impl Fn(&Matter<'_>) -> String) {
    let said: Vec<String> = matters.iter().map(&say).collect();
    if said.windows(2).all(|pair| pair[0] == pair[1]) {
        flow.text(STRONG, said.first().map_or("", String::as_str));
        return;
    }
    for (matter, said) in matters.iter().zip(said) {
        flow.text(STRONG, &format!("{}: {said}", matter.part_offered()));
    }
}

fn valid(matter: &Matter<'_>) -> String {
    let words = &matter.words().quotation;
    let days = matter.count_of(Field::ValidDays);
    let until = matter.valid_until.or_else(|| {
        let days = chrono::Days::new(days?.into());
        matter.date.checked_add_days(days)
    });
    match (days, until) {
        (Some(days), Some(until)) => (words.valid)(matter.form(), days, &matter.form().day(until)),
        (None, Some(until)) => (words.until)(&matter.form().day(until)),
        _ => words.to_be_agreed.to_owned(),
    }
}

/// Findings that the customer has to know of before ordering, and that nobody has answered yet.
fn open_questions(matter: &Matter<'_>) -> Vec<String> {
    let answered = matter.answered();
    let words = matter.words();
    let say = |remark: &Remark| {
        let said = match remark.customer {
            Customer::Shop => return None,
            Customer::Told(told) => {
                match (words.quotation.for_the_customer)(as_drawn(told, matter, remark)) {
                    Some(said) => said.to_owned(),
                    None => with_facts(matter, remark),
                }
            }
            Customer::Asked(concern) => {
                if remark
                    .row
                    .is_some_and(|row| answered.contains(&(row, concern)))
                {
                    return None;
                }
                (words.answers.please_confirm)(concern).to_owned()
            }
        };
        Some(match remark.row {
            Some(row) => format!("{}{said}", (words.phrases.hole)(&matter.mark(row))),
            None => said,
        })
    };
    matter.remarks.iter().filter_map(say).collect()
}

/// What is told of a depth that has limits doesn't ask for them.
fn as_drawn(told: Told, matter: &Matter<'_>, remark: &Remark) -> Told {
    let mut holes = matter.holes();
    let hole = remark
        .row
        .and_then(|row| holes.find(|hole| hole.row.id == row));
    match told {
        Told::DepthBySteps if hole.is_some_and(|hole| hole.has_depth_limits()) => {
            Told::DepthByStepsInLimits
        }
        told => told,
    }
}

/// A finding that is told with its facts, which the figures have; the shop's own sentence where they
/// don't.
fn with_facts(matter: &Matter<'_>, remark: &Remark) -> String {
    let mut holes = matter.figures.holes.iter();
    let hole = remark
        .row
        .and_then(|row| holes.find(|hole| hole.row == row));
    let mut found = hole.into_iter().flat_map(|hole| &hole.findings);
    let assumed = found.find_map(|finding| match finding.kind {
        Kind::LowerAssumed { lower_mm, upper_mm } => Some([lower_mm, upper_mm]),
        _ => None,
    });
    assumed.map_or_else(
        || remark.text.clone(),
        |limits| {
            let [lower, upper] =
                limits.map(|mm| matter.form().length_with_unit(mm, matter.job.unit));
            (matter.words().quotation.lower_assumed)(&lower, &upper)
        },
    )
}
