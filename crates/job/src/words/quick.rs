//! What a price by telephone says.

use rust_decimal::Decimal;

use super::misread::quoted;
use super::speaker::capital;
use crate::edits::apply::refused::EditRefused;
use crate::typed::form::Form;
use crate::typed::quick::QuickField;

/// What the step is called that makes it a job.
pub const MADE: &str = "make the quick price a job";

/// Before the first assumption.
pub(crate) const ASSUMED: &str = " Assumed: ";
/// Between two of them.
pub(crate) const AND: &str = ", ";
/// Behind the last one.
pub(crate) const END: &str = ".";

/// Nobody said how many holes.
pub(crate) const ONE_HOLE: &str = "1 hole";
/// Nobody said how many parts.
pub(crate) const ONE_PART: &str = "1 part";
/// From both ends.
pub(crate) const BOTH_ENDS: &str = "drilled from both ends";
/// Through.
pub(crate) const THROUGH: &str = "through";
/// No wall.
pub(crate) const NOTHING_BEHIND: &str = "no wall behind";
/// One direction.
pub(crate) const ONE_SETUP: &str = "one setup";
/// Entry.
pub(crate) const SQUARE: &str = "square to a flat face";
/// Size and mass.
pub(crate) const FITS: &str = "the part fits the machine";
/// Condition.
pub(crate) const CONDITION: &str = "condition not known";
/// Value.
pub(crate) const WITHOUT_PART_VALUE: &str = "the risk to the part is not in the price";
/// Rates.
pub(crate) const SAMPLE_RATES: &str = "sample rates";

/// Something else on the sheet is in the way.
pub(crate) const SHEET_UNREAD: &str =
    "No price: something else on the sheet can't be read, and the side notes say what.";

/// What a field is called.
#[must_use]
pub const fn field(field: QuickField) -> &'static str {
    match field {
        QuickField::Material => "material",
        QuickField::Size => "size",
        QuickField::Depth => "depth",
        QuickField::Holes => "holes in one part",
        QuickField::Parts => "parts",
    }
}

/// Fields without which nothing can be said.
pub(crate) fn missing(fields: &[QuickField]) -> String {
    let names: Vec<&str> = fields.iter().map(|missing| field(*missing)).collect();
    format!("Type the {} for a price.", names.join(" and the "))
}

/// A field that can't be read.
pub(crate) fn unread(unread: QuickField, text: &str, why: &str) -> String {
    let name = capital(field(unread));
    format!("{name} \u{201c}{}\u{201d}: {why}", quoted(text))
}

/// A text that may mean too many materials.
pub(crate) fn many_materials(text: &str, number: usize) -> String {
    format!(
        "\u{201c}{}\u{201d} may be any of {number} of the shop's materials: type more of the name.",
        quoted(text)
    )
}

/// A text that the sheet doesn't take.
pub(crate) fn refused(refused: &EditRefused) -> String {
    format!("{refused}.")
}

/// Why it can't be quoted as it stands.
pub(crate) fn stopped(why: Option<&str>) -> String {
    let why = why.unwrap_or("no price can be worked out.");
    format!("Can't be quoted: {}", small(why))
}

/// A price of one part, from and to.
pub(crate) fn each(amounts: &str, currency: &str) -> String {
    format!("About {amounts} {currency} each")
}

/// The lot's price behind that of one part.
pub(crate) fn lot(amounts: &str, parts: &str) -> String {
    format!(", {amounts} for {parts}")
}

/// A range that begins with the minimum charge.
pub(crate) fn from_minimum(charge: &str, most: &str, currency: &str, parts: &str) -> String {
    format!("From the minimum of {charge} {currency} up to about {most} for {parts}")
}

/// A lot that comes to no more than the minimum charge.
pub(crate) fn minimum(charge: &str, currency: &str, parts: &str) -> String {
    format!("Minimum {charge} {currency} for {parts}")
}

/// Machine hours of the lot, behind its price.
pub(crate) fn hours([from, to]: [f64; 2], form: Form) -> String {
    let [from, to] = [from, to].map(|hours| form.hours(hours));
    format!(". {} machine hours.", between(&from, &to))
}

/// Two amounts with the same digits, or one where they are the same; without digits behind the point
/// where neither has any.
pub(crate) fn amounts([from, to]: [Decimal; 2], minor_digits: u32, form: Form) -> String {
    let whole = from.is_integer() && to.is_integer();
    let digits = if whole { 0 } else { minor_digits };
    let [from, to] = [from, to].map(|amount| form.money_exact(amount, digits));
    between(&from, &to)
}

/// A depth that nobody said.
pub(crate) fn deep(depth: &str, diameters: &str) -> String {
    format!("{depth} deep ({diameters} diameters)")
}

/// Any of several materials.
pub(crate) fn any_material(number: usize) -> String {
    format!("any of {number} such materials")
}

/// The shop's usual tolerance.
pub(crate) fn tolerance(plus_minus: &str) -> String {
    format!("\u{b1}{plus_minus}")
}

/// The lower limit where a maximum alone was given.
pub(crate) fn lower_limit(lower: &str) -> String {
    format!("no smaller than {lower}")
}

/// The machine.
pub(crate) fn on_machine(name: &str) -> String {
    format!("on {name}")
}

fn between(from: &str, to: &str) -> String {
    if from == to {
        from.to_owned()
    } else {
        format!("{from} to {to}")
    }
}

/// A sentence's first letter as a small one.
fn small(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_lowercase().chain(letters).collect()
    })
}
