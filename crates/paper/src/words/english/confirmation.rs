//! Words of the order confirmation.

use quillbore_job::Form;

use crate::words::counted::count;
use crate::words::customer::Confirmation;

/// What it says in English.
pub(super) const WORDS: Confirmation = Confirmation {
    title: "Order confirmation",
    please_check: "Please check quantity, revision, price and dates, and tell us within \
     two working days where they are not as you ordered them.",
    starts: "Work starts when the parts are here, counted and as described, with the \
     drawing in the revision named above.",
    still_holds: "Assumptions, exclusions and terms of our quotation hold unless named \
     otherwise here.",
    ordered: "Ordered",
    no_order: "No order is on record yet.",
    order: "Order",
    of: "of",
    part: "Part and revision",
    dates: "Dates",
    delivery: "delivery",
    call_off: "Call-off",
    due: "Due",
    differs: "Differs",
    orders_terms: "Terms of the order",
    please_send: "Please send",
    to_send,
};

/// What the customer has to send, by the parts that are not here yet.
fn to_send(form: Form, missing: Option<u32>) -> String {
    match missing {
        Some(0) => "Nothing: all parts are here.".to_owned(),
        Some(missing) => {
            let parts = count(form, missing, "part", "parts");
            format!("{parts}, with drawing and heat or serial numbers.")
        }
        None => "The parts, with drawing and heat or serial numbers.".to_owned(),
    }
}
