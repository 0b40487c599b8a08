//! The words that a job is ordered again with.

use chrono::NaiveDate;

use crate::edits::edit::Edit;
use crate::pinned::slip::lists::{Line, SlipKind};
use crate::typed::entry::Unit;
use crate::typed::field::Field;

/// What an order typed as "number; quantity; price each; revision" comes to: its slip, with whatever is
/// typed behind these as its note, and the quantity and the customer's reference of the sheet. None
/// where nothing was typed: somebody only asks again, and there is no order yet.
#[must_use]
pub fn order_edits(order: &str, unit: Unit, day: NaiveDate) -> Vec<Edit> {
    if order.trim().is_empty() {
        return Vec::new();
    }
    let mut parts = order.split(';').map(|part| part.trim().to_owned());
    let mut next = || parts.next().unwrap_or_default();
    let (number, quantity, each, revision) = (next(), next(), next(), next());
    let rest: Vec<String> = parts.filter(|part| !part.is_empty()).collect();
    let mut lines = vec![
        (Line::Date, day.to_string()),
        (Line::Number, number.clone()),
        (Line::Quantity, quantity.clone()),
        (Line::Each, each),
        (Line::Revision, revision),
        (Line::Note, rest.join("; ")),
    ];
    lines.retain(|(_, text)| !text.is_empty());
    let slip = Edit::AddSlip {
        kind: SlipKind::Order,
        lines,
        unit,
    };
    let on_sheet = [
        (Field::Quantity, quantity),
        (Field::CustomerReference, number),
    ];
    let fields = on_sheet.into_iter().filter(|(_, text)| !text.is_empty());
    let fields = fields.map(|(field, text)| Edit::SetField { field, text, unit });
    std::iter::once(slip).chain(fields).collect()
}
