//! What is written on the page of the day's list.

use quillbore_job::Form;

/// The name of the page.
pub const PAGE: &str = "Today";

/// Closes the page.
pub const CLOSE: &str = "close";

/// The key that closes it.
pub const ESC: &str = "Esc";

/// While the shelf is looked at.
pub const LOOKING: &str = "Looking at the shelf \u{2026}";

/// Opens the job of a line where it is seen to.
pub const OPEN: &str = "open";

/// Says that a line is done.
pub const DONE: &str = "done";

/// Asks until when a line is set aside.
pub const SET_ASIDE: &str = "set aside until \u{2026}";

/// Puts a line that was set aside back.
pub const BRING_BACK: &str = "bring back";

/// The head of what is set aside, each line with its day.
pub const ASIDE: &str = "set aside until";

/// Shows what is set aside.
#[must_use]
pub fn show_aside(count: usize) -> String {
    format!("{count} set aside")
}

/// The keys that go through the list.
pub const KEYS: &str = "arrows go from line to line, 1 to 9 to a group";

/// Before the day until which a line is set aside.
pub const UNTIL: &str = "set aside until (a date, or days such as 3)";

/// Sets a line aside.
pub const SET_ASIDE_IT: &str = "set aside";

/// Leaves it.
pub const NOT_NOW: &str = "not now";

/// That a line is done where it stands.
pub const DONE_IN_ITS_PLACE: &str = "That is done in its place: Enter opens the job there.";

/// That a line is back.
#[must_use]
pub fn back(number: &str) -> String {
    format!("{number} is in the list again.")
}

/// That a job is open and not saved here, so nothing was written into it.
pub const OPEN_HERE: &str = "The job is open here: note the call there.";

/// The heads of the columns.
#[must_use]
pub fn heads(currency: &str) -> [String; 8] {
    [
        "when".to_owned(),
        "number".to_owned(),
        "customer".to_owned(),
        "part, rev".to_owned(),
        "what waits".to_owned(),
        format!("{currency} each"),
        "hours".to_owned(),
        "days".to_owned(),
    ]
}

/// The head of a group, with how many lines it has.
#[must_use]
pub fn group(name: &str, count: usize) -> String {
    format!("{name}  {count}")
}

/// A line, for whoever can't see its columns.
#[must_use]
pub fn line(number: &str, says: &str) -> String {
    match number {
        "" => says.to_owned(),
        number => format!("{number}: {says}"),
    }
}

/// What waits, and what else waits in the same job.
#[must_use]
pub fn says(says: &str, others: &str) -> String {
    match others {
        "" => says.to_owned(),
        others => format!("{says} ({others})"),
    }
}

/// A part and its revision.
#[must_use]
pub fn part(part: &str, revision: &str) -> String {
    match revision {
        "" => part.to_owned(),
        revision => format!("{part} rev {revision}"),
    }
}

/// For how many days something waits; none before its day.
#[must_use]
pub fn age(days: i64) -> String {
    if days < 0 {
        return String::new();
    }
    days.to_string()
}

/// That a line is set aside.
#[must_use]
pub fn set_aside(number: &str, until: &str) -> String {
    format!("{number} is set aside until {until}, on this computer.")
}

/// The day after this one, as it is typed.
pub const TOMORROW: &str = "tomorrow";

/// That a text is no day to set something aside until.
#[must_use]
pub fn no_day(typed: &str) -> String {
    format!(
        "\u{201c}{}\u{201d} is not a date to come: type 2027-01-12, tomorrow, or a number of days such as 3",
        typed.trim()
    )
}

/// That a call is noted.
#[must_use]
pub fn noted(number: &str) -> String {
    format!("{number}: the call is noted with today's date.")
}

/// The day, as the head says it.
#[must_use]
pub fn of_day(day: chrono::NaiveDate, form: Form) -> String {
    format!("{}, {}", day.format("%A"), form.day(day))
}
