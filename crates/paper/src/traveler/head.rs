//! What the floor must know before anything else: which job, what not to do, what came in.

use quillbore_calc::finding::Level;
use quillbore_job::answer::Answer;
use quillbore_job::concern::Customer;
use quillbore_job::order::{Topic, call_off};
use quillbore_job::{Field, Line, Slip, SlipKind, life};

use crate::answered;
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
    let follows = matter.follows();
    let due = follows.due.map(shown::date).unwrap_or_default();
    let quantity = match (follows.quantity, follows.of) {
        (None, _) => matter.text(Field::Quantity).to_owned(),
        (Some(lot), None) => lot.to_string(),
        (Some(lot), Some(all)) => format!("{lot} of {all}"),
    };
    form::fields(
        flow,
        &[
            Blank::of("job", &matter.job.number, 1.9).style(LARGE),
            Blank::of("lot", lot(matter), 1.2).style(LARGE),
            Blank::of("part", matter.text(Field::Part), 3.2).style(LARGE),
            Blank::of("revision", follows.revision, 1.1).style(LARGE),
            Blank::of("quantity", &quantity, 1.2).style(LARGE),
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
            "; released on {} {}",
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
            for (lead, said) in stops(matter) {
                flow.paragraph(&[Span::new(STRONG, &lead), Span::new(BODY, &said)], 0.0);
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

/// What stops the job, and what nobody has answered yet, each thing with the hole it is about; then what
/// was agreed or accepted of holes and order, so that nobody on the floor takes it for a mistake.
fn stops(matter: &Matter<'_>) -> Vec<(String, String)> {
    let remarks = matter.remarks.iter();
    let stops = remarks.filter(|remark| remark.level == Level::Stop);
    let stops = stops.map(|remark| {
        let lead = match remark.row {
            Some(row) => format!("Stop, hole {}: ", matter.mark(row)),
            None => "Stop: ".to_owned(),
        };
        (lead, remark.text.clone())
    });
    let open = matter.remarks.iter().filter(|remark| {
        let Customer::Asked(concern) = remark.customer else {
            return false;
        };
        let about = |answer: &Answer| answer.concern == concern && Some(answer.row) == remark.row;
        remark.level == Level::Check && !matter.answers.iter().any(about)
    });
    let open = open.map(|remark| {
        let mark = remark.row.map_or_else(String::new, |row| matter.mark(row));
        (format!("No answer yet, hole {mark}: "), remark.text.clone())
    });
    let order = opening::differs(matter, |topic| {
        matches!(topic, Topic::Revision(_) | Topic::Quantity | Topic::Due)
    });
    let order = order.into_iter().map(|differs| {
        let said = format!("{} {}", differs.said.join(" "), differs.settled);
        ("Order: ".to_owned(), said)
    });
    stops
        .chain(open)
        .chain(answered::for_the_floor(matter))
        .chain(order)
        .collect()
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
                    matter.follows().drawing_revision,
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
                Blank::of("material", &matter.material_named(), 3.0).style(STRONG),
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

/// The customer's number of this lot's call-off, else of the newest order; the floor writes one where
/// there is none.
fn lot<'a>(matter: &Matter<'a>) -> &'a str {
    let order = matter.job.slips(SlipKind::Order).next_back();
    let numbered = [call_off(matter.job), order].into_iter().flatten();
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
        let expected = match (matter.follows().quantity, matter.count_of(Field::Spares)) {
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
