//! What may be promised, in words.

use chrono::NaiveDate;
use quillbore_calc::promise::WorkingDays;

use crate::typed::form::Form;

/// Working days of a lot: the median and the P90.
#[must_use]
pub fn working_days(days: WorkingDays, form: Form) -> String {
    format!("{} {}", from_to(days, form), working_days_of(days.p90))
}

/// What so many days are.
pub(crate) const fn working_days_of(days: u32) -> &'static str {
    if days == 1 {
        "working day"
    } else {
        "working days"
    }
}

/// A number of working days.
pub(super) fn days(count: u32, form: Form) -> String {
    let shown = form.count(f64::from(count));
    format!("{shown} {}", working_days_of(count))
}

fn from_to(days: WorkingDays, form: Form) -> String {
    let [likely, late] = [days.p50, days.p90].map(|days| form.count(f64::from(days)));
    if likely == late {
        return likely;
    }
    format!("{likely} to {late}")
}

/// What may be promised, in one line: working days, and, once they begin, the likely and the late day.
#[must_use]
pub(crate) fn promise(
    days: WorkingDays,
    begins: Option<NaiveDate>,
    [likely, late]: [Option<NaiveDate>; 2],
    form: Form,
) -> String {
    let days = working_days(days, form);
    let (Some(begins), Some(likely)) = (begins, likely) else {
        return format!("{days} after order, parts and drawing");
    };
    let late = late.map_or_else(String::new, |day| {
        format!(", nine times in ten by {}", form.day(day))
    });
    let (begins, likely) = (form.day(begins), form.day(likely));
    format!("{days} from {begins}: likely {likely}{late}")
}

/// That other jobs come first on the machine; empty where none does.
#[must_use]
pub fn comes_first(hours: f64, jobs: usize, without_hours: usize, form: Form) -> String {
    let others = |count: usize| match count {
        1 => "1 other job".to_owned(),
        _ => format!("{count} other jobs"),
    };
    let known = (jobs > 0).then(|| {
        let hours = form.hours_with_unit(hours);
        format!("{hours} of {} first on this machine", others(jobs))
    });
    let unknown = (without_hours > 0).then(|| {
        let others = others(without_hours);
        format!("{others} without hours not counted")
    });
    let said: Vec<String> = known.into_iter().chain(unknown).collect();
    said.join("; ")
}

/// That a lead time is shorter than the lot takes more often than not; `hours` are those of machine
/// and labor.
#[must_use]
pub(crate) fn lead_time_short(
    lead_days: u32,
    [machine, labor]: [f64; 2],
    takes: WorkingDays,
    outside_days: u32,
    form: Form,
) -> String {
    let hours = |value, of| hours(value, of, form);
    let labor = (labor > machine).then(|| hours(labor, "labor"));
    let outside = (outside_days > 0).then(|| format!("{} outside", days(outside_days, form)));
    let machine = Some(hours(machine, "machine"));
    let beside: Vec<String> = [machine, labor, outside].into_iter().flatten().collect();
    let beside = match beside.as_slice() {
        [first, second, third] => format!("{first}, {second} and {third}"),
        few => few.join(" and "),
    };
    format!(
        "A lead time of {} is short for {beside}: at this shop's hours the lot takes {}.",
        days(lead_days, form),
        working_days(takes, form)
    )
}

fn hours(value: f64, of: &str, form: Form) -> String {
    let shown = form.hours(value);
    let noun = if shown == "1" { "hour" } else { "hours" };
    format!("{shown} {of} {noun}")
}

/// That no lead time at all is promised.
#[must_use]
pub(crate) const fn no_lead_time() -> &'static str {
    "A lead time of 0 days promises the parts on the day of the order: see that it is meant, or leave it empty."
}

/// That a lead time is hardly meant.
#[must_use]
pub(crate) fn lead_time_odd(lead_days: u32, form: Form) -> String {
    format!(
        "A lead time of {} is about {} years: see that it is meant.",
        days(lead_days, form),
        // Five days a week, less holidays.
        form.count(f64::from(lead_days) / 250.0)
    )
}

/// That a validity is hardly meant.
#[must_use]
pub(crate) fn validity_odd(valid_days: u32, form: Form) -> String {
    format!(
        "A quotation valid for {} days binds the shop to its prices for about {} years: see that it is meant.",
        form.count(f64::from(valid_days)),
        form.count(f64::from(valid_days) / 365.0)
    )
}

/// That something that nobody ordered yet is due on a day that has passed.
#[must_use]
pub(crate) fn due_has_passed(due: NaiveDate, today: NaiveDate, form: Form) -> String {
    let ago = match today.signed_duration_since(due).num_days() {
        1 => "yesterday".to_owned(),
        days => format!("{} days ago", form.count(days as f64)),
    };
    format!(
        "The parts were due on {}, {ago}: see whether the date is right, or ask the customer for another.",
        form.day(due)
    )
}

/// That something is due on a day on which the shop doesn't work, and the last working day before it.
#[must_use]
pub(crate) fn due_on_day_off(day: NaiveDate, before: Option<NaiveDate>, form: Form) -> String {
    let off = format!(
        "{} {} is a day off by the shop's calendar",
        day.format("%A"),
        form.day(day)
    );
    match before {
        Some(before) => format!(
            "{off}; the last working day before it is {} {}.",
            before.format("%A"),
            form.day(before)
        ),
        None => format!("{off}."),
    }
}
/// That something happened on a day that has not come.
#[must_use]
pub(crate) fn not_come(day: NaiveDate, today: NaiveDate, form: Form) -> String {
    let [day, today] = [day, today].map(|day| form.day(day));
    format!("It is dated {day}, and today is {today}: check the day.")
}
