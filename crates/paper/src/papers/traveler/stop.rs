//! What must be known before the first burn: why not to begin, what to ask, what to wait for.

use std::collections::BTreeSet;

use quillbore_calc::RowId;
use quillbore_calc::finding::Level;
use quillbore_job::concern::{Concern, Customer};
use quillbore_job::order::Topic;
use quillbore_job::slip::{View, kind, line};
use quillbore_job::{Field, Form};

use crate::matter::Matter;
use crate::matter::Remark;
use crate::matter::answered;
use crate::matter::day;
use crate::matter::differs;
use crate::matter::nonconformance;
use crate::page::Face;
use crate::page::{Ink, Stroke, Style, mm};
use crate::typeset::flow::Flow;
use crate::typeset::form;
use crate::typeset::look::{WARN, WARN_STRONG};
use crate::typeset::side;
use crate::typeset::wrap::Span;
use crate::words::traveler::stop as words;

/// Remarks of rows that are told one by one.
const MOST_SAID: usize = 8;
/// Nothing on the page is stronger, in gray too.
const BAR: Stroke = Stroke::new(2.6, Ink::Text);

pub(super) fn set(matter: &Matter<'_>, flow: &mut Flow) {
    let style = Style::new(Face::CondensedBold, 21.0);
    side::styled(flow, words::STOP, style, BAR, |flow| {
        if let Some(why) = matter.preview {
            lead(flow, words::NOT_VALID, why);
        }
        let (of_rows, others): (Vec<&Remark>, Vec<&Remark>) =
            of_level(matter, Level::Stop).partition(|remark| remark.row.is_some());
        for remark in others {
            lead(flow, &words::stop_of(None), &remark.text);
        }
        each_or_together(matter, flow, &of_rows, |mark| words::stop_of(Some(mark)));
        let answered = matter.answered();
        let open = |remark: &&Remark| unanswered(&answered, remark);
        let open: Vec<&Remark> = matter.remarks.iter().filter(open).collect();
        each_or_together(matter, flow, &open, words::unanswered);
        // What was agreed or accepted of holes and order, so that nobody takes it for a mistake.
        for (hole, said) in answered::for_the_floor(matter) {
            lead(flow, &hole, &said);
        }
        let differs = |topic| matches!(topic, Topic::Revision(_) | Topic::Quantity | Topic::Due);
        for differs in differs::of(matter, differs) {
            let said = format!("{} {}", differs.said.join(" "), differs.settled);
            lead(flow, words::OF_ORDER, &said);
        }
        if let Some(differs) = matter.worked_out_for_another_quantity() {
            lead(flow, words::CHECK, &differs);
        }
        for remark in of_level(matter, Level::Check).filter(|remark| remark.row.is_none()) {
            lead(flow, words::CHECK, &remark.text);
        }
        flow.text(WARN_STRONG, &worth(matter));
        troubles(matter, flow);
        let asks = || lines(matter, Field::AskBefore);
        let points = || lines(matter, Field::HoldPoints);
        let holds = matter.job.slips_of::<kind::Hold>().next().is_some();
        if asks().next().is_none() && points().next().is_none() && !holds {
            flow.text(WARN, words::STOP_PLAIN);
        }
        for line in asks() {
            lead(flow, words::ASK_BEFORE, line);
        }
        for line in points() {
            form::sign_off(flow, &format!("{}{line}", words::HOLD));
        }
        for hold in matter.job.slips_of::<kind::Hold>() {
            // Only what is still waited for is signed here.
            if hold.text(line::Freed).is_empty() {
                form::sign_off(
                    flow,
                    &format!("{}{}", words::HOLD, hold_said(hold, matter.form())),
                );
            } else {
                lead(flow, words::HOLD_PAST, &hold_said(hold, matter.form()));
            }
        }
        flow.take(mm(0.8));
    });
    let (left, right) = (flow.body().left, flow.body().right);
    let y = flow.y();
    flow.page().rule(left, right, y, BAR);
    flow.take(mm(1.0));
    flow.mark_rule();
}

/// Remarks of rows, each with its mark; of very many the marks, since the hole table has each of them.
fn each_or_together(
    matter: &Matter<'_>,
    flow: &mut Flow,
    remarks: &[&Remark],
    led: fn(&str) -> String,
) {
    if remarks.len() > MOST_SAID {
        let rows: BTreeSet<RowId> = remarks.iter().filter_map(|remark| remark.row).collect();
        let marks = matter.few_marks(rows, MOST_SAID);
        lead(flow, &led(&marks), words::IN_HOLE_TABLE);
        return;
    }
    for remark in remarks {
        let mark = remark.row.map_or_else(String::new, |row| matter.mark(row));
        lead(flow, &led(&mark), &remark.text);
    }
}

fn lead(flow: &mut Flow, lead: &str, text: &str) {
    flow.paragraph(&[Span::new(WARN_STRONG, lead), Span::new(WARN, text)], 0.0);
}

fn lines<'a>(matter: &Matter<'a>, field: Field) -> impl Iterator<Item = &'a str> {
    let lines = matter.text(field).lines().map(str::trim);
    lines.filter(|line| !line.is_empty())
}

/// Remarks of a level that concern the floor.
fn of_level<'a>(matter: &Matter<'a>, level: Level) -> impl Iterator<Item = &'a Remark> {
    let remarks = matter.remarks.iter();
    remarks.filter(move |remark| remark.floor && remark.level == level)
}

/// Whether a check that concerns the customer has no answer yet.
fn unanswered(answered: &BTreeSet<(RowId, Concern)>, remark: &Remark) -> bool {
    let Customer::Asked(concern) = remark.customer else {
        return false;
    };
    let has = |row| answered.contains(&(row, concern));
    remark.level == Level::Check && !remark.row.is_some_and(has)
}

/// Non-conformances that nobody closed, and why work goes on all the same.
fn troubles(matter: &Matter<'_>, flow: &mut Flow) {
    for order in matter.job.slips_of::<kind::Order>() {
        let why = order.get(line::GoOn);
        if !why.is_empty() {
            lead(flow, words::GO_ON, why);
        }
    }
    let open = nonconformance::all(matter).into_iter();
    for trouble in open.filter(nonconformance::Nonconformance::is_open) {
        lead(flow, words::NONCONFORMANCE, &trouble.for_the_floor());
    }
}

/// A hold point in a line: what is waited for, the notice it wants, and the yes where it came.
fn hold_said(hold: View<'_, kind::Hold>, form: Form) -> String {
    let mut said = hold.text(line::Point).to_owned();
    let notice = hold.text(line::NoticeDays);
    if !notice.is_empty() {
        said += &words::notice(notice);
    }
    if !hold.text(line::Notified).is_empty() {
        said += &words::notified(&day::day(form, hold, line::Notified));
    }
    if !hold.get(line::Note).is_empty() {
        said += &format!(": {}", hold.get(line::Note).replace('\n', " "));
    }
    let (freed, by) = (day::day(form, hold, line::Freed), hold.get(line::By));
    match (freed.as_str(), by) {
        ("", "") => {}
        ("", by) => said += &format!("; {by}"),
        (freed, by) => said += &words::released(freed, by),
    }
    said.trim_end().to_owned()
}

/// Value, cap and spares in one line.
fn worth(matter: &Matter<'_>) -> String {
    let currency = &matter.tables.rates.currency;
    let mut said = Vec::new();
    match matter.amount_of(Field::PartValue) {
        None => said.push(words::VALUE_UNKNOWN.to_owned()),
        Some(value) => said.push(words::value(&format!("{value}\u{a0}{currency}"))),
    }
    if let Some(cap) = matter.amount_of(Field::LiabilityCap) {
        said.push(words::cap(&format!("{cap}\u{a0}{currency}")));
    }
    said.push(match matter.count_of(Field::Spares) {
        None if matter.has(Field::Spares) => words::spares_typed(matter.text(Field::Spares)),
        None => words::SPARES_UNKNOWN.to_owned(),
        Some(0) => words::NO_SPARES.to_owned(),
        Some(spares) => words::spares(matter.form(), spares),
    });
    quillbore_job::words::speaker::capital(&said.join("; ")) + "."
}
