//! Words of the order confirmation.

use quillbore_job::Form;

use super::phrases::count;

/// The order confirmation's name.
pub const TITLE: &str = "Order confirmation";
/// What the confirmation asks for.
pub const PLEASE_CHECK: &str = "Please check quantity, revision, price and dates, and tell us within \
     two working days where they are not as you ordered them.";
/// What starts the clock.
pub const STARTS: &str = "Work starts when the parts are here, counted and as described, with the \
     drawing in the revision named above.";
/// What still holds from the quotation.
pub const STILL_HOLDS: &str = "Assumptions, exclusions and terms of our quotation hold unless named \
     otherwise here.";
/// Name of the section of what was ordered.
pub const ORDERED: &str = "Ordered";
/// There is no order.
pub const NO_ORDER: &str = "No order is on record yet.";
/// Head of the order's number.
pub const ORDER: &str = "Order";
/// Head of the order's day.
pub const OF: &str = "of";
/// Head of the part with its revision.
pub const PART: &str = "Part and revision";
/// Name of the section of dates.
pub const DATES: &str = "Dates";
/// Caption of the day of delivery.
pub const DELIVERY: &str = "delivery";
/// Head of the call-off's number.
pub const CALL_OFF: &str = "Call-off";
/// Head of the day that a call-off is due.
pub const DUE: &str = "Due";
/// Name beside what differs from the quotation.
pub const DIFFERS: &str = "Differs";
/// Name beside the order's own terms.
pub const ORDERS_TERMS: &str = "Terms of the order";
/// Name beside what the customer has to send.
pub const PLEASE_SEND: &str = "Please send";

/// What the customer has to send, by the parts that are not here yet.
pub fn to_send(form: Form, missing: Option<u32>) -> String {
    match missing {
        Some(0) => "Nothing: all parts are here.".to_owned(),
        Some(missing) => {
            let parts = count(form, missing, "part", "parts");
            format!("{parts}, with drawing and heat or serial numbers.")
        }
        None => "The parts, with drawing and heat or serial numbers.".to_owned(),
    }
}
