//! Words of the quotation.

use quillbore_job::Form;
use quillbore_job::concern::Told;

use super::kinds::Kinds;
use super::phrases::count;

/// The paper's name.
pub const TITLE: &str = "Quotation";
/// What it is until it is issued.
pub const DRAFT: &str = "draft";
/// The rates are not the shop's own yet.
pub const SAMPLE_RATES: &str =
    "Sample rates: these prices rest on example rates, not on the shop's own.";
/// The minimum charge decided a price.
pub const MINIMUM: &str = "minimum charge";
/// Caption of the customer.
pub const FOR: &str = "for";
/// Caption of whom it goes to.
pub const CONTACT: &str = "contact";
/// Caption of the customer's number of the inquiry.
pub const CUSTOMERS_REFERENCE: &str = "customer's reference";
/// Caption of the drawing.
pub const DRAWING: &str = "drawing and rev";
/// Caption of the material.
pub const MATERIAL: &str = "material and condition";
/// Caption of the part's size.
pub const SIZE: &str = "size and mass";
/// Name of the section of what is offered.
pub const SCOPE: &str = "Scope";
/// Head of the size.
pub const SIZE_DRAWN: &str = "Size as on the drawing";
/// There are no rows.
pub const NO_HOLES: &str = "No holes are named yet.";
/// Lead of what the customer asks of the inspection.
pub const INSPECTION: &str = "Inspection: ";
/// A hole that is drilled from both its ends.
pub const BOTH_ENDS: &str = "Drilled half from each end.";
/// A hole whose exit is backed.
pub const BACKED: &str = "Backed behind the exit while it is drilled.";
/// Lead of points at which the work waits for the customer.
pub const HOLD_POINTS: &str = "Hold points: ";
/// Lead of work that is done elsewhere.
pub const OUTSIDE: &str = "Outside work: ";
/// Lead of the recast limit.
pub const RECAST: &str = "Recast limit: ";
/// Lead of the thickness of the wall.
pub const WALL: &str = "Wall thickness: ";
/// Lead of the drawing's general tolerance.
pub const TOLERANCE: &str = "Title-block tolerance: ";
/// Name of the section of prices, and head of a price.
pub const PRICE: &str = "Price";
/// What the prices are for.
pub const PRICE_REMARK: &str = "per part and for the lot; each quantity is one delivery";
/// There is no price yet.
pub const NOT_PRICED: &str =
    "Not priced yet: something that the price rests on is not known, or can't be read.";
/// Holes that are offered as through ones because nobody gave their end, by their marks.
pub fn ends_assumed(marks: &[String]) -> String {
    const SHOWN: usize = 12;
    let shown = marks.iter().take(SHOWN).map(String::as_str);
    let shown = shown.collect::<Vec<_>>().join(", ");
    let (holes, go) = if marks.len() == 1 {
        ("Hole", "goes")
    } else {
        ("Holes", "go")
    };
    match marks.len().saturating_sub(SHOWN) {
        0 => format!("{holes} {shown} {go} through: no other end was named."),
        more => format!("{holes} {shown} and {more} more {go} through: no other end was named."),
    }
}
/// Head of what is charged once.
pub const CHARGED_ONCE: &str = "Charged once";
/// Name of the section of conditions.
pub const CONDITIONS: &str = "Conditions";
/// Name beside the lead time.
pub const LEAD_TIME: &str = "Lead time";
/// Name beside how long the quotation stands.
pub const VALID: &str = "Valid";
/// Name beside what the customer is asked.
pub const PLEASE_CONFIRM: &str = "Please confirm";
/// Name beside what the customer agreed to.
pub const AGREED: &str = "Agreed";
/// Name beside what the price rests on.
pub const ASSUMED: &str = "Assumptions";
/// Name beside what the price leaves out.
pub const NOT_INCLUDED: &str = "Not included";
/// Name beside the terms.
pub const TERMS: &str = "Terms";
/// Name of the section that the customer signs.
pub const ACCEPTANCE: &str = "Acceptance";
/// What the customer does with it.
pub const ACCEPTANCE_REMARK: &str = "sign and return, or send your order with this number";
/// What the customer signs.
pub const WE_ORDER: &str = "We order the quantity below at the price and on the terms above, and accept the risk to our parts as stated.";
/// What the customer does with the points that are to be confirmed.
pub const TICK: &str =
    "Tick what is right, or write beside it what is; it is part of what you sign.";
/// What is assumed where a broken tool sits in a thread.
pub const THREAD: &str =
    "Where a broken tool is burnt out of a thread, the thread is not guaranteed.";
/// Assumptions that every quotation of this process rests on, one paragraph each.
pub const ASSUMPTIONS: [&str; 4] = [
    "Sparking leaves a thin recast layer in the hole. Its removal is a work step of its own and \
     is included only where named above.",
    "The hole comes out larger than the electrode by the spark gap, and slightly narrower toward \
     the exit. Sizes are promised within the limits named above, not closer, and not where we ask \
     you above to confirm something else.",
    "Parts stay the customer's and are worked at the customer's risk, unless an amount is agreed \
     in writing before the first burn. We ask for a spare or a test piece of the same material.",
    "Parts come clean, demagnetized and with a bare spot for the ground; material and condition \
     are as named above.",
];
/// What a customer is told of a finding, where the shop's own sentence would say too much.
#[must_use]
pub const fn for_the_customer(told: Told) -> Option<&'static str> {
    Some(match told {
        Told::LimitsTight => {
            "the limits are as close as this process holds; the first piece is measured and agreed \
             before the lot goes on."
        }
        Told::DepthBySteps => {
            "the depth varies with electrode wear; it is measured on the first hole and set by it. \
             Please tell us its tolerance where the drawing gives none."
        }
        Told::ConductivityCheck => {
            "the material conducts poorly; please send the certificate of its grade."
        }
        Told::ConductivityTestPiece => {
            "the material may not conduct well enough; please send a test piece of the same grade."
        }
        Told::DoesNotConduct => {
            "as far as is known the material does not conduct well enough; please send a meter \
             reading or a certificate that says otherwise."
        }
        Told::DeepTestPiece => {
            "the hole is deeper for its diameter than we have drilled before; please send a test \
             piece of the same material."
        }
        Told::CoreTrapped => {
            "a loose core could be trapped in the part; please tell us how it can be taken out."
        }
        Told::LowerAssumed => return None,
    })
}

/// Neither lead time nor an end of validity was written down.
pub const TO_BE_AGREED: &str = "to be agreed";
/// Which quotations it takes the place of.
pub fn replaces(numbers: &str) -> String {
    format!("Replaces {numbers}: no longer valid.")
}

/// Taxes and freight.
pub const NET: &str = "Prices are net, without freight and taxes.";

/// What is offered, by the kinds of holes that there are.
pub fn scope(kinds: Kinds) -> &'static str {
    match (kinds.open, kinds.blind) {
        (false, true) => {
            "EDM drilling of the holes below, every hole checked by pin and for its depth, parts \
             washed and packed as received."
        }
        (_, false) => {
            "EDM drilling of the holes below, every hole checked open and by pin, parts washed and \
             packed as received."
        }
        (true, true) => {
            "EDM drilling of the holes below, every hole checked by pin, open holes that they are \
             open, blind holes for their depth, parts washed and packed as received."
        }
    }
}

/// Lead time in days.
pub fn lead(form: Form, days: u32) -> String {
    format!(
        "{} after order, parts and drawing are in",
        count(form, days, "working day", "working days")
    )
}

/// How long the quotation stands.
pub fn valid(form: Form, days: u32, until: &str) -> String {
    format!("{}, until {until}", count(form, days, "day", "days"))
}

/// The minimum charge, where it decided.
pub fn minimum_note(amount: &str) -> String {
    format!("Our minimum charge for one lot is {amount}; it applies where noted in the table.")
}

/// The most that the shop is liable for.
pub fn liability(amount: &str) -> String {
    format!("For a spoiled part our liability is limited to {amount} per part.")
}

/// The last day that the quotation stands.
pub fn until(day: &str) -> String {
    format!("until {day}")
}

/// The drawing in its revision.
pub fn drawing(drawing: &str, revision: &str) -> String {
    format!("{drawing}, rev {revision}")
}
