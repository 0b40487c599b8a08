//! Words of the papers that follow an order.

use quillbore_job::Line;

/// The order confirmation's name.
pub const CONFIRMATION: &str = "Order confirmation";
/// The receiving slip's name.
pub const RECEIVING: &str = "Receiving slip";
/// The inspection record's name.
pub const INSPECTION: &str = "Hole inspection record";
/// The certificate's name.
pub const CERTIFICATE: &str = "Certificate of conformance";
/// The packing list's name.
pub const PACKING: &str = "Packing list";
/// The label's name.
pub const LABEL: &str = "Box label";

/// What the confirmation asks for.
pub const PLEASE_CHECK: &str = "Please check quantity, revision, price and dates, and tell us within \
     two working days where they are not as you ordered them.";
/// What starts the clock.
pub const STARTS: &str = "Work starts when the parts are here, counted and as described, with the \
     drawing in the revision named above.";
/// What still holds from the quotation.
pub const STILL_HOLDS: &str = "Assumptions, exclusions and terms of our quotation hold unless named \
     otherwise here.";

/// What the receiving slip is for.
pub const RECEIVED: &str = "What came in, as it came in. Damage that is not named here was not seen \
     at receipt.";
/// What both sides sign.
pub const RECEIVED_BY_SHOP: &str = "Counted and looked over by the shop.";
/// What the customer signs.
pub const RECEIVED_BY_CUSTOMER: &str = "Seen by the customer; work may begin on parts in this \
     condition.";

/// The customer's number of the inquiry.
pub const REFERENCE: &str = "Customer's reference: ";
/// The lot is of another quantity than was worked out.
pub fn other_quantity(lot: u32, planned: u32) -> String {
    let parts = |count| super::traveler::count(count, "part", "parts");
    format!(
        "This lot is of {}; electrodes and times here are worked out for {}.",
        parts(lot),
        parts(planned)
    )
}

/// Nobody decided on a non-conformance.
pub const NO_DECISION: &str = "no decision yet";
/// Nobody closed a non-conformance.
pub const NOT_CLOSED: &str = "not closed";

/// A line of a non-conformance as papers tell it.
pub fn of_trouble(line: Line, text: &str) -> String {
    match line {
        Line::Serials => format!("pieces {text}"),
        Line::Count => match text.parse() {
            Ok(parts) => super::traveler::count(parts, "part", "parts"),
            Err(_) => format!("parts: {text}"),
        },
        Line::Decision => format!("decision: {text}"),
        Line::DecidedBy => format!("decided by {text}"),
        Line::Redo => format!("to be redone: {text}"),
        Line::SendBecause => format!("delivered open: {text}"),
        Line::GoOn => format!("work goes on because: {text}"),
        Line::Closed => format!("closed on {text}"),
        _ => text.to_owned(),
    }
}

/// A paper that this one replaces.
pub fn withdrawn(number: &str, day: &str, by: &str, why: &str) -> String {
    let mut said = format!("{number} no longer stands");
    if !day.is_empty() {
        said += &format!(", withdrawn on {day}");
    }
    if !by.is_empty() {
        said += &format!(" by {by}");
    }
    if !why.is_empty() {
        said += &format!(": {why}");
    }
    said + ". Use this paper only."
}

/// What was done, in words.
pub const PROCESS: &str = "The holes named on the drawing were drilled by electrical discharge \
     machining with a rotating tube electrode, flushed with dielectric. A thin recast layer and \
     below it a thin layer changed by heat remain in the holes unless their removal was ordered.";
/// What is not stated.
pub const NOT_STATED: &str = "Material, heat treatment and all features that we did not make are as \
     supplied by the customer and are not covered by this statement.";
/// No deviation is on record.
pub const NO_DEVIATIONS: &str = "No deviation is on record.";

/// Cautions for whoever unpacks.
pub const UNPACKING: [&str; 4] = [
    "Hole edges can be sharp, and thin cores can be left in blind holes: wear gloves and eye \
     protection, and follow the rules of your site.",
    "Parts may carry water or rust protection from the process: dry and protect them at once where \
     they can rust.",
    "Electrodes, fixtures and test pieces stay with the shop unless they are listed here.",
    "Count the parts against this list before they leave their packing, and tell us of what is \
     missing.",
];
