//! The receipt for a broken tool: what came in, what is agreed, and what the floor needs, on one page that
//! goes with the part.

use quillbore_calc::plunge::Way;
use quillbore_job::quick::{QuickRange, for_the_try};
use quillbore_job::slip::kind;
use quillbore_job::slip::line;
use quillbore_job::{Field, Paper, Unit};
use rust_decimal::Decimal;

use super::traveler::cautions;
use crate::letterhead::frame::Frame;
use crate::letterhead::opening;
use crate::matter::{Hole, Matter, day};
use crate::page::{Document, mm};
use crate::shown;
use crate::typeset::flow::Flow;
use crate::typeset::form::{self, Captioned};
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::side::side;

/// Sets the receipt for the broken tools of a job.
pub fn tool_receipt(matter: &Matter<'_>) -> Document {
    let words = &matter.words().tool_receipt;
    let mut flow = Flow::in_language(matter.sheet, matter.language);
    opening::title(matter, &mut flow, words.title);
    opening::about(matter, &mut flow, Paper::ToolReceipt);
    part(matter, &mut flow);
    for hole in matter.holes().filter(Hole::is_broken_tool) {
        tool(matter, &hole, &mut flow);
    }
    agreed(matter, &mut flow);
    flow.together(|flow| {
        flow.section(words.floor, "", mm(16.0));
        for hole in matter.holes().filter(Hole::is_broken_tool) {
            on_floor(matter, &hole, flow);
        }
        flow.text(BODY, words.before);
        form::fields(
            flow,
            &words.record.map(|caption| Captioned::blank(caption, 1.0)),
        );
    });
    cautions::small(matter, &mut flow);
    let frame = Frame::of(matter, Paper::ToolReceipt, words.title, words.foot);
    flow.finish(|page, number, of| frame.write(page, matter.sheet, number, of))
}

/// Who brings it, and the part as it came in.
fn part(matter: &Matter<'_>, flow: &mut Flow) {
    let words = &matter.words().tool_receipt;
    form::fields(
        flow,
        &[
            Captioned::of(words.contact, matter.text(Field::Contact), 3.0),
            Captioned::of(words.due, &due(matter), 2.0).style(STRONG),
            Captioned::of(words.comes_in, matter.text(Field::ComesIn), 3.0),
        ],
    );
    let size = [Field::SizeX, Field::SizeY, Field::SizeZ].map(|field| matter.typed_length(field));
    let size = size.iter().filter(|length| !length.is_empty()).cloned();
    let value = matter.amount_of(Field::PartValue);
    let value = value.map(|value| format!("{value}\u{a0}{}", matter.tables.rates.currency));
    form::fields(
        flow,
        &[
            Captioned::of(words.material, &matter.material_named(), 3.0).style(STRONG),
            Captioned::of(words.size, &size.collect::<Vec<_>>().join(" x "), 3.0),
            Captioned::of(words.mass, &matter.mass_of_one(), 1.2),
            Captioned::of(words.value, &value.unwrap_or_default(), 1.6),
        ],
    );
    let slip = matter.job.slips_of::<kind::Received>().next_back();
    let condition = slip.map_or("", |slip| slip.get(line::Condition));
    let received = slip.map_or_else(String::new, |slip| {
        let by = slip.get(line::By);
        let day = day::day(matter.form(), slip, line::Date);
        [day.as_str(), by].join(" ").trim().to_owned()
    });
    form::fields(
        flow,
        &[
            Captioned::of(words.condition, condition, 3.0),
            Captioned::of(words.received, &received, 1.8),
        ],
    );
}

fn due(matter: &Matter<'_>) -> String {
    let day = matter.date_of(Field::Due);
    day.map_or_else(
        || matter.text(Field::Due).to_owned(),
        |day| matter.form().day(day),
    )
}

/// What broke, and how it sits.
fn tool(matter: &Matter<'_>, hole: &Hole<'_>, flow: &mut Flow) {
    let words = &matter.words().tool_receipt;
    let unit = matter.job.unit;
    let row = hole.row;
    let plan = hole
        .figures
        .and_then(|figures| figures.burnt.as_deref()?.tool);
    let typed = row.depth.text().trim();
    let left = match plan {
        Some(plan) if plan.left_assumed => {
            format!("{} {}", length(matter, plan.left_mm), words.assumed)
        }
        _ => with_unit(typed, unit),
    };
    let stuff = row.broken.value().map(|tool| (words.stuff)(tool.stuff));
    side(flow, words.broken, |flow| {
        form::fields(
            flow,
            &[
                Captioned::of(words.mark, &hole.mark(), 0.8),
                Captioned::of(words.tool, row.broken.text().trim(), 2.6).style(STRONG),
                Captioned::of(words.made_of, stuff.unwrap_or_default(), 1.8),
                Captioned::of(words.below, &with_unit(row.below.text().trim(), unit), 1.2),
                Captioned::of(words.left, &left, 1.6),
                Captioned::of(words.end, &hole.end_text(), 1.0),
            ],
        );
        let note = row.note.text().trim();
        let tried = [row.tried.text().trim(), note];
        let tried = tried.iter().filter(|text| !text.is_empty());
        let tried = tried.copied().collect::<Vec<_>>().join("; ");
        form::fields(flow, &[Captioned::of(words.tried, &tried, 1.0)]);
    });
}

/// A length as it was typed, with the job's unit where it names none.
fn with_unit(text: &str, unit: Unit) -> String {
    match text {
        "" => String::new(),
        text if text.chars().any(char::is_alphabetic) || text.contains('"') => text.to_owned(),
        text => format!("{}\u{a0}{}", shown::plus_minus(text), unit.symbol()),
    }
}

fn length(matter: &Matter<'_>, mm: f64) -> String {
    let unit = matter.job.unit;
    shown::with_unit(matter.form(), mm, unit, shown::middling(unit))
}

/// The range that the price of the lot may come to.
pub(super) fn range(matter: &Matter<'_>) -> Option<[Decimal; 2]> {
    let range = QuickRange::of(std::slice::from_ref(matter.figures), matter.tables);
    range.map(|range| range.lot)
}

/// An amount with the currency that is quoted in.
pub(super) fn amount_of(matter: &Matter<'_>, amount: Decimal) -> String {
    let rates = &matter.tables.rates;
    let shown = matter.form().money_exact(amount, rates.minor_digits);
    format!("{shown}\u{a0}{}", rates.currency)
}

/// What is asked where a tool can't be got out, as a sentence.
pub(super) fn try_charge(matter: &Matter<'_>) -> Option<String> {
    let charge = amount_of(matter, for_the_try(&matter.tables.rates)?);
    Some((matter.words().tool_receipt.for_the_try)(&charge))
}

/// Price, try charge, what isn't guaranteed; both sign.
fn agreed(matter: &Matter<'_>, flow: &mut Flow) {
    let words = &matter.words().tool_receipt;
    let rates = &matter.tables.rates;
    let amount = |amount| amount_of(matter, amount);
    let price = match range(matter) {
        Some([from, to]) if from < to => (words.from_to)(&amount(from), &amount(to)),
        Some([from, _]) => (words.price)(&amount(from)),
        None => words.no_price.to_owned(),
    };
    let cap = matter.amount_of(Field::LiabilityCap);
    let cap = cap.map(|cap| format!("{cap}\u{a0}{}", rates.currency));
    side(flow, words.agreed, |flow| {
        let charge = try_charge(matter).unwrap_or_default();
        flow.text(STRONG, format!("{price} {charge}").trim());
        let risk = (words.risk)(cap.as_deref());
        flow.text(BODY, &format!("{} {risk}", words.no_guarantee));
        let signed = [words.by_customer, words.by_shop];
        form::fields(flow, &signed.map(|caption| Captioned::blank(caption, 1.0)));
    });
}

/// Electrode, plunges and settings.
fn on_floor(matter: &Matter<'_>, hole: &Hole<'_>, flow: &mut Flow) {
    let Some(figures) = hole.figures else {
        return;
    };
    let words = &matter.words().tool_receipt;
    let of = |mm: Option<f64>| mm.map_or_else(shown::missing, |mm| length(matter, mm));
    let tube = figures.tube.and_then(|tube| matter.tube(tube));
    let burnt = figures.burnt.as_deref();
    let tool = burnt.and_then(|burnt| burnt.tool);
    let plunges = match burnt.and_then(|burnt| burnt.opening) {
        Some(opening) if opening.way == Way::OnCircle => {
            (words.on_circle)(&matter.form().count(f64::from(opening.plunges)))
        }
        Some(_) => words.layered.to_owned(),
        None => "1".to_owned(),
    };
    let minutes = figures.minutes.map_or_else(shown::missing, |minutes| {
        matter.form().fixed(minutes.p50, 0)
    });
    let (setting, never) = match figures.depth_plan {
        Some(plan) => (Some(plan.first_try_mm), Some(plan.never_beyond_mm)),
        None => (figures.machine_depth_mm, None),
    };
    let mut row = vec![
        Captioned::filled(words.machine, matter.text(Field::Machine), 1.2),
        Captioned::filled(
            words.electrode,
            tube.map_or("", |tube| tube.name.as_str()),
            2.2,
        )
        .style(STRONG),
        Captioned::filled(words.plunges, &plunges, 1.8),
        Captioned::filled(words.burnt, &of(tool.and_then(|tool| tool.hole_mm)), 1.0),
        Captioned::filled(words.setting, &of(setting), 1.8).style(STRONG),
    ];
    if never.is_some() {
        row.push(Captioned::filled(words.never, &of(never), 1.6).style(STRONG));
    }
    row.push(Captioned::filled(words.minutes, &minutes, 0.9));
    form::fields(flow, &row);
}
