//! What is asked and said while a caller with a broken tool waits.

use super::misread::quoted;
use super::speaker::capital;
use crate::typed::call::CallField;

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

/// What goes with every price for a broken tool, with what is asked for the try.
pub(crate) fn terms(charge: &str, currency: &str) -> String {
    format!(
        " Neither thread nor hole is guaranteed; if it can't be got out, {charge} {currency} for the try."
    )
}
