//! The currency that an amount on the sheet is meant in.

use crate::job::Job;
use crate::shop::rows::Shop;
use crate::typed::field::{Field, FieldKind, Value};

/// The currency of an amount typed in a field of a job, by the shop as the job goes by it; `None` for a field
/// that holds no amount.
///
/// What something costs the shop, and hours agreed for its rate card, are in its own currency when they
/// were typed; what is the customer's (the worth of a part, the cap for a spoiled one) is in that of the
/// quotation.
#[must_use]
pub fn currency_of<'a>(field: Field, job: &'a Job, shop: &'a Shop) -> Option<&'a str> {
    if field.kind() != FieldKind::Money {
        return None;
    }
    let text = |field: Field| job.field(field).value().and_then(Value::text);
    // Also while its rate is missing.
    let quoted_in = text(Field::Currency).filter(|_| !is_the_shops(field));
    let typed_in = text(Field::AmountsIn).filter(|_| !job.field(field).is_empty());
    // What is the customer's stays in what it was typed in, until somebody says that it is not.
    let values_in =
        text(Field::ValuesIn).filter(|_| !is_the_shops(field) && !job.field(field).is_empty());
    let said = values_in.or(quoted_in).or(typed_in);
    Some(said.unwrap_or(&shop.own().tables.rates.currency))
}

/// Whether an amount is the shop's own, and changed into the currency of the quotation before it counts.
pub(crate) const fn is_the_shops(field: Field) -> bool {
    matches!(
        field,
        Field::FixtureCost
            | Field::TestPieceCost
            | Field::OutsideCost
            | Field::OutsidePerPart
            | Field::AgreedMachineHour
            | Field::AgreedLaborHour
    )
}
