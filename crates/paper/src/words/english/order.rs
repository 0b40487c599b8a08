//! What papers say of an order that differs from what was offered or planned.

use quillbore_job::Form;
use quillbore_job::order::{Difference, Revised};
use quillbore_job::words::life::{field_change, hole_change};

use crate::words::counted::count;
use crate::words::customer::Order;

/// What customers read of them in English.
pub(super) const WORDS: Order = Order {
    not_accepted: NOT_ACCEPTED,
    accepted,
    difference,
};

/// A difference that is still open.
pub const NOT_ACCEPTED: &str = "Not accepted yet.";

/// Who accepted what differs, and why.
#[must_use]
pub fn accepted(by: &str) -> String {
    format!("Accepted: {}.", by.trim_end_matches('.'))
}

/// One sentence: what differs, in words for customer and floor alike; the sheet of the office is what
/// was planned.
#[must_use]
pub fn difference(form: Form, difference: &Difference) -> String {
    let count = |number, one, several| count(form, number, one, several);
    let number = |number: u32| form.count(f64::from(number));
    match difference {
        Difference::NoQuotation => "The order answers no valid quotation of ours.".to_owned(),
        Difference::OtherPaper { named } => format!(
            "The order names \u{201c}{named}\u{201d}, and there is no valid quotation of that number."
        ),
        Difference::Replaced { named, by } => {
            format!("The order names {named}, which was replaced by {by}.")
        }
        Difference::NotTrusted { named } => format!(
            "The order was not compared with quotation {named}: its entry doesn't match its seal."
        ),
        Difference::TooLate { until } => format!(
            "The quotation was valid until {}; the order came later.",
            form.day(*until)
        ),
        Difference::NotPriced { ordered, nearest } => format!(
            "The order is for {}, a quantity that was not quoted; the nearest is {}.",
            count(*ordered, "part", "parts"),
            number(*nearest)
        ),
        Difference::Quantity { ordered, on_sheet } => {
            let ordered = count(*ordered, "part", "parts");
            match on_sheet {
                Some(planned) => {
                    format!("The order is for {ordered}; planned: {}.", number(*planned))
                }
                None => format!("The order is for {ordered}; no quantity was planned."),
            }
        }
        Difference::Price { ordered, quoted } => format!(
            "The order pays {} each; {} was quoted.",
            form.amount(*ordered),
            form.amount(*quoted)
        ),
        Difference::Currency { ordered, quoted } => {
            format!("The order pays in {ordered}; {quoted} were quoted.")
        }
        Difference::Revision {
            of,
            ordered,
            quoted,
            on_sheet,
        } => revision(*of, ordered, quoted.as_deref(), on_sheet.as_deref()),
        Difference::RevisedSince {
            of,
            quoted,
            on_sheet,
        } => revised_since(*of, quoted, on_sheet),
        Difference::Due { ordered, on_sheet } => format!(
            "The order is due on {}; planned: {}.",
            form.day(*ordered),
            form.day(*on_sheet)
        ),
        Difference::DueEarly {
            ordered,
            lead_days,
            earliest,
        } => format!(
            "The order is due on {}; the quoted lead time of {} ends on {} at the earliest.",
            form.day(*ordered),
            count(*lead_days, "working day", "working days"),
            form.day(*earliest)
        ),
        Difference::Holes { changed } => {
            let changed: Vec<String> = changed.iter().map(hole_change).collect();
            format!(
                "The holes are others than were quoted: {}.",
                changed.join("; ")
            )
        }
        Difference::Scope { changed } => {
            let changed: Vec<String> = changed.iter().map(field_change).collect();
            format!("This is another than was quoted: {}.", changed.join("; "))
        }
        Difference::Terms { named } => {
            format!(
                "The order has terms of its own: {}.",
                named.trim_end_matches('.')
            )
        }
    }
}

/// The order is for another revision than was quoted or planned.
fn revision(of: Revised, ordered: &str, quoted: Option<&str>, on_sheet: Option<&str>) -> String {
    let there = [("quoted", quoted), ("planned", on_sheet)];
    let there = there
        .into_iter()
        .filter_map(|(how, there)| Some(format!("{how}: {}", or_none(there?))));
    let there: Vec<String> = there.collect();
    format!(
        "The order is for {} {ordered}; {}.",
        revised(of),
        there.join(", ")
    )
}

/// The sheet's revision is another one than was quoted, and the order names none.
fn revised_since(of: Revised, quoted: &str, on_sheet: &str) -> String {
    format!(
        "The order names no {}; quoted: {}, planned: {}.",
        revised(of),
        or_none(quoted),
        or_none(on_sheet)
    )
}

const fn or_none(revision: &str) -> &str {
    if revision.is_empty() {
        "none"
    } else {
        revision
    }
}

const fn revised(of: Revised) -> &'static str {
    match of {
        Revised::Part => "part revision",
        Revised::Drawing => "drawing revision",
    }
}

/// The lot is of another quantity than was worked out.
pub fn other_quantity(form: Form, lot: u32, planned: u32) -> String {
    let parts = |number| count(form, number, "part", "parts");
    format!(
        "This lot has {}; electrodes and times here are worked out for {}.",
        parts(lot),
        parts(planned)
    )
}
