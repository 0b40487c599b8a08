//! Text into the sheet's single lines, by what a line holds.

use crate::typed::entry::{Entry, Unit};
use crate::typed::field::{Field, FieldKind, Value};
use crate::typed::read_cell::entry;
use crate::typed::read_quantity as read;
use crate::typed::read_quantity::misread::Misread;

/// Longest single line, in characters.
const LONGEST_LINE: usize = 400;

/// Longest text of several lines, in characters.
const LONGEST_LINES: usize = 20_000;

/// Reads a text as a field's entry; white space alone is an empty one.
#[must_use]
pub fn read_field(field: Field, text: &str, unit: Unit) -> Entry<Value> {
    entry(text, unit, |text| value(field, text, unit))
}

fn value(field: Field, text: &str, unit: Unit) -> Result<Value, Misread> {
    Ok(match field {
        // Spares, lead time and days outside may be none; a quantity may not.
        Field::LeadDays | Field::OutsideDays => Value::Count(read::days(text, 0)?),
        Field::ValidDays => Value::Count(read::days(text, 1)?),
        Field::Spares => Value::Count(read::whole(text, 0)?),
        // Free text, but for a sampling plan that it may ask for.
        Field::Inspection => {
            read::sampling(text)?;
            value_of(field.kind(), text, unit)?
        }
        _ => value_of(field.kind(), text, unit)?,
    })
}

/// Reads a text as what a line of this kind holds; a count of things is at least one.
pub(crate) fn value_of(kind: FieldKind, text: &str, unit: Unit) -> Result<Value, Misread> {
    Ok(match kind {
        FieldKind::Line | FieldKind::Material | FieldKind::Machine => {
            Value::Text(read::line(text, LONGEST_LINE)?)
        }
        FieldKind::Lines => Value::Text(read::lines(text, LONGEST_LINES)?),
        FieldKind::Length => Value::Length(read::length(text, unit)?),
        FieldKind::LengthOrNone => Value::Length(read::length_or_zero(text, unit)?),
        FieldKind::Mass => Value::MassKg(read::mass_kg(text, unit)?),
        FieldKind::Pressure => Value::PressureBar(read::pressure_bar(text, unit)?),
        FieldKind::RestsOn => Value::RestsOn(read::rests_on(text, unit)?),
        FieldKind::Count => Value::Count(read::whole(text, 1)?),
        FieldKind::Counts => Value::Counts(read::quantities(text)?),
        FieldKind::Money => Value::Money(read::money(text)?),
        FieldKind::Percent => Value::Share(read::share(text)?),
        FieldKind::Date => Value::Date(read::date(text)?),
        FieldKind::Resistivity => Value::Resistivity(read::resistivity_ohm_cm(text)?),
        FieldKind::Tolerance => Value::Tolerance(read::tolerance(text, unit)?),
        FieldKind::AngleBasis => Value::AngleBasis(read::angle_basis(text)?),
        FieldKind::YesNo => Value::YesNo(read::yes_no(text)?),
        FieldKind::PartAxis => Value::PartAxis(read::part_axis(text)?),
        FieldKind::CountOrNone => Value::Count(read::whole(text, 0)?),
        FieldKind::Minutes => Value::Minutes(read::minutes(text)?),
        FieldKind::MinutesOrNone => Value::Minutes(read::minutes_or_none(text)?),
        FieldKind::Currency => Value::Text(read::currency(text)?),
        FieldKind::Number => Value::Number(read::plain_number(text)?),
        FieldKind::OneOf(words) => Value::Text(read::one_of(text, words)?.to_owned()),
    })
}
