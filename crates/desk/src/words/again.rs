//! What is said of a job that is done again, and of the jobs most like one.

use quillbore_job::life::HoursEach;
use quillbore_office::digest::Hours;

/// That nothing can be shown of the job before.
pub const NO_SUCH_JOB: &str = "The shelf has no job of that number that can be read.";

/// What stands for the text of a non-conformance that has none.
pub const NOT_WRITTEN_DOWN: &str = "nobody wrote down what it is";

/// Before a non-conformance of the job before that is still open.
pub const OPEN_NONCONFORMANCE: &str = "open non-conformance";

/// Before the number of the job in which it is to be closed.
pub const CLOSE_IT_IN: &str = "close it in";

/// Before what is to be done otherwise.
pub const DO_OTHERWISE: &str = "do differently";

/// Before settings that worked.
pub const SETTINGS_THAT_WORKED: &str = "settings that worked";

/// Before what was trouble.
pub const TROUBLE: &str = "trouble";

/// Before scrap, and before a non-conformance that was closed.
pub const WENT_WRONG: &str = "went wrong";

/// Parts that were scrap at a mark.
#[must_use]
pub fn scrap(mark: &str, parts: u32) -> String {
    let parts = match parts {
        1 => "1 part was scrap".to_owned(),
        parts => format!("{parts} parts were scrap"),
    };
    match mark {
        "" => parts,
        mark => format!("{mark}: {parts}"),
    }
}

/// That nothing was learned.
pub const NO_LESSONS: &str = "No lessons were written down.";

/// That there is no price of last time.
pub const NO_PRICE_LAST_TIME: &str = "no price is known of last time";

/// Before what differs between order and sheet.
pub const DIFFERS: &str = "differs";

/// Takes the last price.
pub const KEEP_LAST_PRICE: &str = "keep the last price";

/// Takes the computed price instead of the last one.
pub const TAKE_TODAYS_PRICE: &str = "take today's price";

/// Issues the order confirmation.
pub const CONFIRM_ORDER: &str = "confirm the order";

/// Pins a call to the sheet.
pub const CALL_ABOUT_IT: &str = "call about it";

/// That sheet and rates are those of last time.
pub const NOTHING_CHANGED: &str = "Nothing on the sheet changed since, and the rates are the same.";

/// Before what changed since last time.
pub const CHANGED: &str = "changed";

/// The heads of the jobs most like one; the second column, of who and what, has none.
pub const ALIKE_HEADS: [&str; 7] = [
    "done this before?",
    "",
    "material",
    "size x depth",
    "quantity",
    "price each",
    "min each",
];

/// The head of the block, with the number of the job before.
#[must_use]
pub fn head(number: &str) -> String {
    format!("Reorder of {number}")
}

/// Where the last price was issued.
#[must_use]
pub fn last_at(origin: &str) -> String {
    format!("last ({origin})")
}

/// The line of prices.
pub const PRICE_EACH: &str = "price each";

/// The line of quantities.
pub const QUANTITY: &str = "quantity";

/// The line of minutes.
pub const MINUTES_OF_A_PART: &str = "min per part";

/// The column of the order.
pub const THE_ORDER: &str = "the order";

/// Minutes of a part by the run records, and what they are.
#[must_use]
pub fn took(minutes: &str, recorded: HoursEach) -> String {
    let what = if recorded.by_clock {
        "by the clock"
    } else {
        "sparking"
    };
    format!("{minutes} {what}")
}

/// Before the price that stands today.
#[must_use]
pub const fn today(kept: bool) -> &'static str {
    if kept { "kept" } else { "today" }
}

/// A rate that is another today.
#[must_use]
pub fn rate(name: &str, was: &str, is: &str) -> String {
    format!("{name}: {was} \u{2192} {is}")
}

/// Size and depth, where there is a depth.
#[must_use]
pub fn size_and_depth(size: &str, depth: &str) -> String {
    match depth {
        "" => size.to_owned(),
        depth => format!("{size} x {depth}"),
    }
}

/// A price with the quantity it is for.
#[must_use]
pub fn each_at(each: &str, quantity: &str) -> String {
    format!("{each} at {quantity}")
}

/// Minutes of one part by the run records, and what they are.
#[must_use]
pub fn minutes_each(minutes: &str, hours: Hours) -> String {
    let what = if hours.by_clock {
        "by the clock"
    } else {
        "sparking"
    };
    let scaled = if hours.scaled {
        ", some rows reckoned by the others"
    } else {
        ""
    };
    format!("{minutes} {what}{scaled}")
}

/// What a part of the job on the desk is to take, to be held against those above.
#[must_use]
pub fn this_one(sparking: &str, by_clock: &str) -> String {
    format!("this job, planned for each part: {sparking} sparking, {by_clock} by the clock")
}
