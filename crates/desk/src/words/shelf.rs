//! What is written at the shelf.

use chrono::NaiveDate;
use quillbore_job::Form;
use quillbore_job::shop::minor_digits;
use quillbore_office::digest::{Price, ShelfLine, SortBy};
use quillbore_office::words::office::NO_SERVER;

/// Before the line that finds a job.
pub const FIND: &str = "find";

/// The name of the line that finds a job.
pub const FIND_ON_SHELF: &str = "find on the shelf";

/// That the folder is being looked through.
pub const LOOKING: &str = "looking through the shelf";

/// That a shelf can be reached that could not.
pub const ANSWERS_AGAIN: &str = "The shelf answers again.";

/// Whether a notice says no more than that the shelf can't be reached.
#[must_use]
pub fn is_of_silence(notice: &str) -> bool {
    notice.starts_with(NO_SERVER) || notice.starts_with(super::desk::NO_RECORDS)
}

/// That no job is what is asked for.
#[must_use]
pub fn none_found(understood: &str) -> String {
    match understood {
        "" => "no job has these letters".to_owned(),
        understood => format!("no job: {understood}"),
    }
}

/// How many jobs are open.
#[must_use]
pub fn open_jobs(count: usize) -> String {
    match count {
        1 => "1 job open".to_owned(),
        count => format!("{count} jobs open"),
    }
}

/// The first line of a job.
#[must_use]
pub fn number_and_state(number: &str, state: &str) -> String {
    format!("{number}  {state}")
}

/// That a file is no job.
pub const NO_JOB: &str = "no job";

/// That a job can't be read.
pub const UNREADABLE: &str = "can't be read";

/// The name of a job opened last.
#[must_use]
pub fn recent(number: &str) -> String {
    format!("recent {number}")
}

/// The name of a job of the shelf.
#[must_use]
pub fn job(name: &str) -> String {
    format!("job {name}")
}

/// Where a job has neither customer nor part.
pub const NO_CUSTOMER: &str = "no customer yet";

/// A word that sorts the shelf, with the way where it is sorted so.
#[must_use]
pub fn sort(by: SortBy, falling: Option<bool>) -> String {
    let word = sort_word(by);
    match falling {
        None => word.to_owned(),
        Some(true) => format!("{word} \u{2193}"),
        Some(false) => format!("{word} \u{2191}"),
    }
}

const fn sort_word(by: SortBy) -> &'static str {
    match by {
        SortBy::Number => "number",
        SortBy::Due => "due",
        SortBy::Price => "price",
        SortBy::Age => "age",
        SortBy::Hours => "hours",
        SortBy::Customer => "customer",
    }
}

/// The same, for whoever can't see where it stands.
#[must_use]
pub fn sorted_by(by: SortBy) -> String {
    format!("sort by {}", sort_word(by))
}

/// What stands beside a job's number: what the list is sorted by; by number, when it is due.
#[must_use]
pub fn beside(line: &ShelfLine, by: SortBy, today: NaiveDate, goes_by: GoesBy<'_>) -> String {
    let (_, digits, form) = goes_by;
    let Ok(digest) = &line.says else {
        return String::new();
    };
    let due = || {
        line.due()
            .map(|day| format!("due {}", form.day_of_year(day)))
    };
    let said = match by {
        SortBy::Number | SortBy::Due | SortBy::Customer => due(),
        SortBy::Price => line.worth().map(|worth| {
            let price = digest.summary.price.as_ref();
            match price.and_then(|price| other_currency(price, goes_by)) {
                Some(currency) if price.is_none_or(|price| price.rate.is_none()) => {
                    format!(
                        "{} {currency}",
                        form.money_exact(worth, minor_digits(currency))
                    )
                }
                _ => form.money_exact(worth, digits),
            }
        }),
        SortBy::Age => digest
            .summary
            .opened
            .map(|day| format!("{} d", (today - day).num_days().max(0))),
        SortBy::Hours => line
            .lot_hours()
            .map(|hours| format!("{} h", form.hours(hours))),
    };
    said.unwrap_or_default()
}

/// What lists of many jobs go by: the shop's own currency, how many digits it has after the point, and how
/// numbers are written.
pub type GoesBy<'a> = (&'a str, u32, Form);

/// A price as it was quoted: with the currency, where that is not the shop's own.
#[must_use]
pub fn amount(price: &Price, goes_by: GoesBy<'_>) -> String {
    let (_, digits, form) = goes_by;
    match other_currency(price, goes_by) {
        None => form.money_exact(price.each, digits),
        Some(currency) => {
            let each = form.money_exact(price.each, minor_digits(currency));
            format!("{each} {currency}")
        }
    }
}

/// The currency of a price, where it is not the shop's own.
fn other_currency<'a>(price: &'a Price, (own, ..): GoesBy<'_>) -> Option<&'a str> {
    let currency = price.currency.as_str();
    (!currency.is_empty() && currency != own).then_some(currency)
}
