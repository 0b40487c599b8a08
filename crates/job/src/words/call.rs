//! What is asked and said while a caller with a broken tool waits.

use quillbore_calc::price::money;
use quillbore_calc::tables::Rates;

use super::misread::quoted;
use super::quick;
use super::speaker::capital;
use crate::typed::call::CallField;
use crate::typed::form::Form;

/// One part, as it stands on the sheet.
pub(crate) const ONE: &str = "1";

/// What a question is called.
#[must_use]
pub const fn field(field: CallField) -> &'static str {
    match field {
        CallField::Tool => "size, what broke, made of",
        CallField::Material => "part material",
        CallField::SizeX => "x",
        CallField::SizeY => "y",
        CallField::SizeZ => "z",
        CallField::Mass => "mass",
        CallField::End => "through or blind",
        CallField::Below => "below the face",
        CallField::Left => "length left",
        CallField::Tried => "tried so far",
        CallField::Value => "worth of the part",
        CallField::Due => "needed by",
        CallField::ComesIn => "comes in",
        CallField::Customer => "customer",
        CallField::Contact => "name and number",
    }
}

/// Questions without whose answers nothing can be said.
pub(crate) fn missing(fields: &[CallField]) -> String {
    let names: Vec<&str> = fields.iter().map(|missing| field(*missing)).collect();
    format!("Type {} for a price.", names.join(", and the "))
}

/// An answer that can't be read.
pub(crate) fn unread(unread: CallField, text: &str, why: &str) -> String {
    let name = capital(field(unread));
    format!("{name} \u{201c}{}\u{201d}: {why}", quoted(text))
}

/// What goes with every price for a broken tool.
#[must_use]
pub fn terms(rates: &Rates, form: Form) -> String {
    format!(
        " Neither thread nor hole is guaranteed; if it can't be got out, {} {} for the try.",
        try_charge(rates, form),
        rates.currency
    )
}

/// What is asked where a tool can't be got out.
pub(crate) fn try_charge(rates: &Rates, form: Form) -> String {
    let charge = rates.try_charge.unwrap_or(rates.minimum_charge);
    let charge = money(charge, rates.minor_digits).unwrap_or_default();
    quick::amounts([charge, charge], rates.minor_digits, form)
}
