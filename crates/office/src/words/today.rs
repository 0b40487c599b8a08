//! What the day's list says.

use chrono::NaiveDate;
use quillbore_job::Form;
use quillbore_job::words::life::difference;
use quillbore_job::words::slips;
use quillbore_job::words::speaker::capital;

use super::days::{counted, days};
use crate::digest::OpenMatter;
use crate::today::{Floor, Foot, Group, Out, Short};

/// Most characters of what differs in an order.
const LONGEST: usize = 400;

/// A group's name at its head. The week is the one that the list goes by.
#[must_use]
pub fn group(group: Group, foot: &Foot, form: Form) -> String {
    let name = match group {
        Group::Late => "late",
        Group::CallToday => "call today",
        Group::OrderDiffers => "order differs from quotation",
        Group::ToRelease => "parts here, not released",
        Group::WaitingForParts => "waiting for parts",
        Group::NoAnswer => "no answer",
        Group::DueThisWeek if foot.week_comes => {
            return format!("due in the week of {}", form.day(foot.week.monday));
        }
        Group::DueThisWeek => "due this week",
        Group::Nonconformance => "non-conformance open",
        Group::Short => "short in the drawer",
        Group::CantRead => "can't be read",
    };
    name.to_owned()
}

/// What else waits in a job: `and 2 more: waiting for parts; non-conformance open`; empty where
/// nothing does.
#[must_use]
pub fn others(others: &[Group], foot: &Foot, form: Form) -> String {
    if others.is_empty() {
        return String::new();
    }
    let named: Vec<String> = others
        .iter()
        .map(|other| group(*other, foot, form))
        .collect();
    format!("and {} more: {}", others.len(), named.join("; "))
}

/// One sentence: what waits in a job of that name that stands there.
pub(crate) fn says(
    open: &OpenMatter,
    (job, state): (&str, &str),
    today: NaiveDate,
    form: Form,
) -> String {
    match open {
        OpenMatter::Quotation {
            number,
            date,
            follow_up,
        } => quotation(in_job(number, job), [*date, today], *follow_up, form),
        OpenMatter::OrderDiffers { what, more, .. } => {
            let what: String = difference(what, form).chars().take(LONGEST).collect();
            match more {
                0 => what,
                1 => format!("{what} There is 1 more difference."),
                more => format!("{what} There are {more} more differences."),
            }
        }
        OpenMatter::Unread {
            kind, line, typed, ..
        } => format!(
            "{}: {} \u{201c}{typed}\u{201d} can't be read.",
            capital(slips::kind(*kind)),
            slips::line_in(*kind, *line)
        ),
        OpenMatter::DueUnread { typed } => {
            format!("Due date \u{201c}{typed}\u{201d} on the sheet can't be read.")
        }
        OpenMatter::Parts {
            here: 0,
            ordered: 0,
            ..
        } => "Waiting for the parts.".to_owned(),
        OpenMatter::Parts {
            here: 0, ordered, ..
        } => format!("Waiting for {}.", parts(*ordered, form)),
        OpenMatter::Parts { here, ordered, .. } => {
            format!(
                "{} of {} {} here.",
                form.count(f64::from(*here)),
                parts(*ordered, form),
                are(*here)
            )
        }
        OpenMatter::ToRelease { parts: 1, .. } => {
            "1 part is here; its traveler is not released.".to_owned()
        }
        OpenMatter::ToRelease { parts: here, .. } => {
            format!(
                "{} are here; their traveler is not released.",
                parts(*here, form)
            )
        }
        OpenMatter::Due { day, left, .. } => due([*day, today], *left, state, form),
        OpenMatter::Nonconformance { what, .. } if what.is_empty() => {
            "A non-conformance is open.".to_owned()
        }
        OpenMatter::Nonconformance { what, .. } => in_one_line(what),
        OpenMatter::SheetChanged { traveler } => format!(
            "Traveler {traveler} was released before the sheet changed: release it again, or undo the \
             changes."
        ),
        OpenMatter::EntryChanged { number } => {
            format!("The entry of {number} doesn't match its seal.")
        }
        OpenMatter::Call { who, .. } if who.is_empty() => "Call again.".to_owned(),
        OpenMatter::Call { who, .. } => format!("Call {} again.", in_one_line(who)),
    }
}

fn quotation(
    number: &str,
    [date, today]: [NaiveDate; 2],
    follow_up: Option<NaiveDate>,
    form: Form,
) -> String {
    let out = days_between(date, today);
    match follow_up {
        Some(asked) if asked <= today => match out {
            0 => format!("Ask what became of {number}, which went out today."),
            out => format!("Ask what became of {number}, out for {}.", days(out, form)),
        },
        asked => {
            let asked =
                asked.map_or_else(String::new, |asked| format!("; ask on {}", form.day(asked)));
            match out {
                0 => format!("{number} went out today{asked}."),
                out => format!("No answer to {number} for {}{asked}.", days(out, form)),
            }
        }
    }
}

/// A paper's number beside its job's: that of the job is not said again.
fn in_job<'a>(number: &'a str, job: &str) -> &'a str {
    let rest = number.strip_prefix(job);
    rest.and_then(|rest| rest.strip_prefix('-'))
        .unwrap_or(number)
}

fn due([due, today]: [NaiveDate; 2], left: Option<u32>, state: &str, form: Form) -> String {
    let (who, are) = match left {
        Some(left) => (parts(left, form), are(left)),
        None => ("The parts".to_owned(), "are"),
    };
    let when = if due < today {
        format!("{} late", days(days_between(due, today), form))
    } else {
        match days_between(today, due) {
            0 => "due today".to_owned(),
            to_come => format!("due in {}", days(to_come, form)),
        }
    };
    format!("{who} {are} {when} ({state}).")
}

/// One sentence: what is short in the drawer.
pub(crate) fn short(short: &Short) -> String {
    let Short {
        name, here, wanted, ..
    } = short;
    match here {
        0 => format!("{name}: none in the drawer, {wanted} wanted."),
        here => format!("{name}: {here} in the drawer, {wanted} wanted."),
    }
}

/// What is said below the list.
pub(crate) fn foot(foot: &Foot, form: Form) -> String {
    let mut said = if foot.waits {
        vec![calls(foot, form), hours(foot, form)]
    } else {
        let nothing = if foot.no_answer {
            "Nothing waits but answers."
        } else {
            "Nothing waits."
        };
        vec![nothing.to_owned(), out(foot.out, form)]
    };
    if foot.set_aside > 0 {
        said.push(format!("{} set aside.", foot.set_aside));
    }
    if foot.unreadable > 0 {
        let jobs = counted(foot.unreadable as u64, "job", "jobs", form);
        said.push(format!("{jobs} can't be read."));
    }
    said.retain(|said| !said.is_empty());
    said.join(" ")
}

fn calls(foot: &Foot, form: Form) -> String {
    let late = (foot.late > 0).then(|| format!("{} late", foot.late));
    let calls = (foot.calls > 0).then(|| counted(foot.calls as u64, "call", "calls", form));
    let said: Vec<String> = late.into_iter().chain(calls).collect();
    if said.is_empty() {
        return "Nothing late, no calls.".to_owned();
    }
    format!("{}.", said.join(", "))
}

fn hours(foot: &Foot, form: Form) -> String {
    let Floor {
        hours,
        machines,
        without_hours,
    } = &foot.floor;
    let there = form.hours(foot.week_hours);
    let week = if foot.week_comes {
        format!("in the week of {}", form.day(foot.week.monday))
    } else {
        "this week".to_owned()
    };
    let mut floor = if *hours > 0.0 || *without_hours == 0 {
        vec![hours_named(*hours, form)]
    } else {
        Vec::new()
    };
    if *without_hours > 0 {
        let jobs = counted(*without_hours as u64, "job", "jobs", form);
        floor.push(format!("{jobs} without hours"));
    }
    let floor = floor.join(" and ");
    match machines.as_slice() {
        [] if *without_hours == 0 => {
            let there = hours_named(foot.week_hours, form);
            format!("Nothing on the floor, {there} to have {week}.")
        }
        [(fullest, most), _, ..] if !fullest.is_empty() => {
            let most = form.hours(*most);
            format!(
                "{floor} on the floor, {most} of them on {fullest}; {there} to have on each machine {week}."
            )
        }
        _ => format!("{floor} on the floor, {there} to have {week}."),
    }
}

fn out(out: Out, form: Form) -> String {
    let oldest = match out.oldest_days {
        0 => "since today".to_owned(),
        count => days(count.unsigned_abs(), form),
    };
    match out.count {
        0 => String::new(),
        1 => format!("1 quotation is out, {oldest}."),
        count => format!("{count} quotations are out, the oldest {oldest}."),
    }
}

fn hours_named(hours: f64, form: Form) -> String {
    format!("{} hours", form.hours(hours))
}

fn parts(count: u32, form: Form) -> String {
    counted(u64::from(count), "part", "parts", form)
}

const fn are(count: u32) -> &'static str {
    if count == 1 { "is" } else { "are" }
}

fn days_between(from: NaiveDate, to: NaiveDate) -> u64 {
    (to - from).num_days().max(0).unsigned_abs()
}

fn in_one_line(text: &str) -> String {
    let lines = text.split(char::is_control).map(str::trim);
    let lines: Vec<&str> = lines.filter(|line| !line.is_empty()).collect();
    lines.join(" / ")
}
