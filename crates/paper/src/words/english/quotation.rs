//! Words of the quotation.

use quillbore_job::Form;
use quillbore_job::concern::Told;
use quillbore_job::words::english;

use crate::words::counted::count;
use crate::words::customer::Quotation;
use crate::words::kinds::Kinds;

/// What it says in English.
pub(super) const WORDS: Quotation = Quotation {
    title: "Quotation",
    draft: "draft",
    sample_rates: "Sample rates: these prices rest on example rates, not on the shop's own.",
    minimum: "minimum charge",
    per_hole: |price| format!("{price} for each start hole"),
    for_whom: "for",
    contact: "contact",
    customers_reference: "customer's reference",
    drawing_and_revision: "drawing and rev",
    material: "material and condition",
    size: "size and mass",
    scope: "Scope",
    size_drawn: "Size as on the drawing",
    no_holes: "No holes are named yet.",
    inspection: "Inspection: ",
    both_ends: "Drilled half from each end.",
    backed: "Backed behind the exit while it is drilled.",
    hold_points: "Hold points: ",
    outside: "Outside work: ",
    recast: "Recast limit: ",
    wall: "Wall thickness: ",
    tolerance: "Title-block tolerance: ",
    price: "Price",
    price_remark: "per part and for the lot; each quantity is one delivery",
    not_priced: "Not priced yet: something that the price rests on is not known, or can't be read.",
    charged_once: "Charged once",
    conditions: "Conditions",
    lead_time: "Lead time",
    valid_name: "Valid",
    please_confirm: "Please confirm",
    agreed: "Agreed",
    assumed: "Assumptions",
    not_included: "Not included",
    terms: "Terms",
    acceptance: "Acceptance",
    acceptance_remark: "sign and return, or send your order with this number",
    we_order: "We order the quantity below at the price and on the terms above, and accept the risk to our parts as stated.",
    tick: "Tick what is right, or write beside it what is; it is part of what you sign.",
    thread: "Where a broken tool is burnt out of a thread, the thread is not guaranteed.",
    assumptions: [
        "Sparking leaves a thin recast layer in the hole. Its removal is a work step of its own and \
     is included only where named above.",
        "The hole comes out larger than the electrode by the spark gap, and slightly narrower toward \
     the exit. Sizes are promised within the limits named above, not closer, and not where we ask \
     you above to confirm something else.",
        "Parts stay the customer's and are worked at the customer's risk, unless an amount is agreed \
     in writing before the first burn. We ask for a spare or a test piece of the same material.",
        "Parts come clean, demagnetized and with a bare spot for the ground; material and condition \
     are as named above.",
    ],
    to_be_agreed: "to be agreed",
    net: "Prices are net, without freight and taxes.",
    charge: english::one_off,
    lower_assumed,
    ends_assumed,
    for_the_customer,
    replaces,
    lead,
    valid,
    minimum_note,
    liability,
    until,
    drawing,
    offered,
    offered_tools: "Burning out the broken tools below, as far as they can be got out; nothing of them is \
                    measured, the thread is gauged where it can be.",
    tools_range: |from, to| {
        format!(
            "What breaks out is seen only then: the lot may come to {from} up to about {to}. We ask before it \
             comes to more than that."
        )
    },
};

/// Holes that are offered as through ones because nobody gave their end, by their marks.
fn ends_assumed(marks: &[String]) -> String {
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

/// What a customer is told of a finding, where the shop's own sentence would say too much.
const fn for_the_customer(told: Told) -> Option<&'static str> {
    Some(match told {
        Told::LimitsTight => {
            "the limits are as close as this process holds; the first piece is measured and agreed \
             before the lot goes on."
        }
        Told::DepthBySteps => {
            "the depth varies with electrode wear; it is measured on the first hole and set by it. \
             Please tell us its tolerance where the drawing gives none."
        }
        Told::DepthByStepsInLimits => {
            "the depth varies with electrode wear; it is measured on the first hole and set by it."
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
        Told::NotGuaranteed => {
            "neither the tool's coming out whole nor the thread or hole that it sits in is guaranteed."
        }
        Told::ExitMayBeTight => {
            "the smallest exit may be less than the wire needs; please tell us if a larger hole will do."
        }
        Told::ProfileInReach => {
            "the hole may drift as far as the finished profile; please tell us if it can be moved into \
             the scrap, or made smaller."
        }
        Told::LowerAssumed => return None,
    })
}

/// Which quotations it takes the place of.
fn replaces(numbers: &str) -> String {
    format!("Replaces {numbers}: no longer valid.")
}

/// What is offered, by the kinds of holes that there are.
fn offered(kinds: Kinds) -> &'static str {
    if !kinds.all_by_pin {
        return "EDM drilling of the holes below, every hole checked as stated with it, parts washed \
                and packed as received.";
    }
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
fn lead(form: Form, days: u32) -> String {
    format!(
        "{} after order, parts and drawing are in",
        count(form, days, "working day", "working days")
    )
}

/// How long the quotation stands.
fn valid(form: Form, days: u32, until: &str) -> String {
    format!("{}, until {until}", count(form, days, "day", "days"))
}

/// The minimum charge, where it decided.
fn minimum_note(amount: &str) -> String {
    format!("Our minimum charge for one lot is {amount}; it applies where noted in the table.")
}

/// The most that the shop is liable for.
fn liability(amount: &str) -> String {
    format!("For a spoiled part our liability is limited to {amount} per part.")
}

/// The last day that the quotation stands.
fn until(day: &str) -> String {
    format!("until {day}")
}

/// The drawing in its revision.
fn drawing(drawing: &str, revision: &str) -> String {
    format!("{drawing}, rev {revision}")
}

/// That a lower limit was assumed to an upper one.
fn lower_assumed(lower: &str, upper: &str) -> String {
    format!("Only a maximum of {upper} is given: a lower limit of {lower} was assumed.")
}
