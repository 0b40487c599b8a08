//! What the floor must know before anything else: which job, what not to do, what came in.

use quillbore_job::{Field, Line, Slip, SlipKind, life};

use crate::flow::Flow;
use crate::form::{self, Field as Blank};
use crate::look::{BODY, LARGE, STRONG, TITLE};
use crate::matter::Matter;
use crate::opening;
use crate::page::{Ink, Stroke, mm};
use crate::shown;
use crate::side::{self, side};
use crate::words::cautions;
use crate::words::traveler as words;
use crate::wrap::Span;

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    title(matter, flow);
    stop(matter, flow);
    drawing(matter, flow);
    material(matter, flow);
    received(matter, flow);
}

fn title(matter: &Matter<'_>, flow: &mut Flow) {
    let number = matter.number.unwrap_or(&matter.job.number);
    opening::bar(flow, words::TITLE, TITLE, number);
    flow.take(mm(1.6));
    // Once there is an order only its own dates count; before, what the customer wished for.
    let ordered = [SlipKind::Release, SlipKind::Order]
        .into_iter()
        .flat_map(|kind| matter.job.slips(kind))
        .filter_map(|slip| slip.day(Line::Due))
        .min();
    let wished = matter
        .date_of(Field::Due)
        .filter(|_| matter.job.slips(SlipKind::Order).next().is_none());
    let due = ordered.or(wished).map(shown::date).unwrap_or_default();
    form::fields(
        flow,
        &[
            Blank::of("job", &matter.job.number, 1.9).style(LARGE),
            Blank::of("lot", lot(matter), 1.2).style(LARGE),
            Blank::of("part", matter.text(Field::Part), 3.2).style(LARGE),
            Blank::of("revision", matter.text(Field::Revision), 1.1).style(LARGE),
            Blank::of("quantity", matter.text(Field::Quantity), 1.2).style(LARGE),
            Blank::of("due", &due, 2.4).style(LARGE),
        ],
    );
    form::fields(
        flow,
        &[
            Blank::of("customer", matter.text(Field::Customer), 3.0),
            Blank::of("part name", matter.text(Field::PartName), 3.0),
            Blank::of(
                "their reference",
                matter.text(Field::CustomerReference),
                2.0,
            ),
        ],
    );
}

/// A hold point in a line: what is waited for, the notice it wants, and the yes where it came.
fn hold_said(hold: &Slip) -> String {
    let mut said = hold.text(Line::Point).to_owned();
    if !hold.text(Line::NoticeDays).is_empty() {
        said += &format!(", {} days of notice", hold.text(Line::NoticeDays));
    }
    if !hold.text(Line::Note).is_empty() {
        said += &format!(": {}", hold.text(Line::Note).replace('\n', " "));
    }
    if !hold.text(Line::Freed).is_empty() {
        said += &format!(
            "; yes of {} {}",
            opening::day(hold, Line::Freed),
            hold.text(Line::By)
        );
    }
    said.trim_end().to_owned()
}

fn stop(matter: &Matter<'_>, flow: &mut Flow) {
    let style = crate::page::Style::new(crate::font::Face::CondensedBold, 15.0).ink(Ink::Accent);
    side::styled(
        flow,
        words::STOP,
        style,
        Stroke::new(1.4, Ink::Accent),
        |flow| {
            flow.text(STRONG, &worth(matter));
            let holds = matter.job.slips(SlipKind::Hold).next().is_some();
            if !matter.has(Field::AskBefore) && !matter.has(Field::HoldPoints) && !holds {
                flow.text(BODY, words::STOP_PLAIN);
            }
            for line in matter
                .text(Field::AskBefore)
                .lines()
                .filter(|line| !line.trim().is_empty())
            {
                flow.paragraph(
                    &[
                        Span::new(STRONG, words::ASK_BEFORE),
                        Span::new(BODY, line.trim()),
                    ],
                    0.0,
                );
            }
            for remark in matter.remarks.iter().filter(|remark| {
                remark.row.is_none() && remark.level == quillbore_calc::finding::Level::Stop
            }) {
                flow.paragraph(
                    &[Span::new(STRONG, "Stop: "), Span::new(BODY, &remark.text)],
                    0.0,
                );
            }
            for line in matter
                .text(Field::HoldPoints)
                .lines()
                .filter(|line| !line.trim().is_empty())
            {
                form::sign_off(flow, &format!("{}{}", words::HOLD, line.trim()));
            }
            for hold in matter.job.slips(SlipKind::Hold) {
                form::sign_off(flow, &format!("{}{}", words::HOLD, hold_said(hold)));
            }
            flow.take(mm(0.8));
        },
    );
    let (left, right) = (flow.body().left, flow.body().right);
    let y = flow.y();
    flow.page()
        .rule(left, right, y, Stroke::new(1.4, Ink::Accent));
    flow.take(mm(1.0));
    flow.mark_rule();
}

/// Value, cap and spares in one line.
fn worth(matter: &Matter<'_>) -> String {
    let currency = &matter.tables.rates.currency;
    let mut said = Vec::new();
    match matter.amount_of(Field::PartValue) {
        None => said.push(words::VALUE_UNKNOWN.to_owned()),
        Some(value) => said.push(format!("one part is worth {value}\u{a0}{currency}")),
    }
    if let Some(cap) = matter.amount_of(Field::LiabilityCap) {
        said.push(format!(
            "the shop answers for up to {cap}\u{a0}{currency} of it"
        ));
    }
    said.push(match matter.count_of(Field::Spares) {
        None | Some(0) => "no spare part was sent".to_owned(),
        Some(spares) => format!(
            "{} sent for trials",
            words::count(spares, "spare part", "spare parts")
        ),
    });
    let mut text = said.join("; ");
    if let Some(first) = text.get(..1) {
        text = format!("{}{}", first.to_uppercase(), &text[1..]);
    }
    text + "."
}

fn drawing(matter: &Matter<'_>, flow: &mut Flow) {
    side(flow, "Drawing", |flow| {
        form::fields(
            flow,
            &[
                Blank::of("drawing", matter.text(Field::Drawing), 3.0).style(STRONG),
                Blank::of(
                    "revision of the drawing",
                    matter.text(Field::DrawingRevision),
                    2.0,
                )
                .style(STRONG),
                Blank::of("datums and pick-up", matter.text(Field::Datums), 4.0),
            ],
        );
        form::sign_off(flow, words::DRAWING_CHECK);
    });
}

fn material(matter: &Matter<'_>, flow: &mut Flow) {
    side(flow, "Material", |flow| {
        form::fields(
            flow,
            &[
                Blank::of("material", matter.text(Field::Material), 3.0).style(STRONG),
                Blank::of("condition", matter.text(Field::Condition), 3.0),
                Blank::of("hardness", matter.text(Field::Hardness), 1.6),
                Blank::of(
                    "coating, scale, bare spot",
                    matter.text(Field::Coating),
                    2.4,
                ),
            ],
        );
        let hazards = matter
            .material()
            .map(|material| material.hazards.as_slice());
        let named: Vec<&str> = hazards
            .unwrap_or_default()
            .iter()
            .map(|hazard| cautions::short(*hazard))
            .collect();
        let text = match (hazards, named.is_empty()) {
            (None, _) => {
                "not known, the material is not among the shop's; ask before the first burn"
                    .to_owned()
            }
            (Some(_), true) => "none of its own; the general cautions at the end hold".to_owned(),
            (Some(_), false) => format!("{}; read the cautions at the end", named.join("; ")),
        };
        flow.paragraph(
            &[Span::new(STRONG, "Hazard: "), Span::new(BODY, &text)],
            0.0,
        );
    });
}

/// The customer's number of the newest release or order; the floor writes one where there is none.
fn lot<'a>(matter: &Matter<'a>) -> &'a str {
    let of = |kind| matter.job.slips(kind).next_back();
    let numbered = [of(SlipKind::Release), of(SlipKind::Order)]
        .into_iter()
        .flatten();
    numbered
        .map(|slip| slip.text(Line::Number))
        .find(|number| !number.is_empty())
        .unwrap_or_default()
}

/// What all deliveries of parts say in a line, one after the other.
fn all_received(matter: &Matter<'_>, line: Line) -> String {
    let slips = matter.job.slips(SlipKind::Received);
    let said: Vec<&str> = slips
        .map(|slip| slip.text(line))
        .filter(|text| !text.is_empty())
        .collect();
    said.join("; ")
}

fn received(matter: &Matter<'_>, flow: &mut Flow) {
    side(flow, "Received", |flow| {
        let expected = match (
            matter.count_of(Field::Quantity),
            matter.count_of(Field::Spares),
        ) {
            (Some(parts), Some(spares)) if spares > 0 => {
                format!("count, of {parts} and {spares} spare")
            }
            (Some(parts), _) => format!("count, of {parts}"),
            (None, _) => "count".to_owned(),
        };
        let count = match life::sum(matter.job, SlipKind::Received, Line::Count) {
            0 => String::new(),
            count => count.to_string(),
        };
        let both = |a, b| {
            let said = [all_received(matter, a), all_received(matter, b)];
            let said: Vec<&str> = said.iter().map(String::as_str).collect();
            let said: Vec<&str> = said.into_iter().filter(|text| !text.is_empty()).collect();
            said.join("; ")
        };
        let serials = both(Line::Heat, Line::Serials);
        let condition = both(Line::Condition, Line::Damage);
        form::fields(
            flow,
            &[
                Blank::of(&expected, &count, 2.0).style(STRONG),
                Blank::of("heat and serial numbers", &serials, 3.0),
                Blank::of("condition, existing damage", &condition, 5.0),
            ],
        );
        form::sign_off(flow, words::RECEIVED_CHECK);
    });
}
