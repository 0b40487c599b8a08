//! The currency that an amount on the sheet is meant in.

use crate::shop::rows::Shop;
use crate::typed::field::{Field, FieldKind};

/// The currency of an amount typed in a field, by the shop as the job goes by it; `None` for a field that
/// holds no amount.
///
/// What something costs the shop, and hours agreed for its rate card, are in its own currency; what is the
/// customer's (the worth of a part, the cap for a spoiled one) is in that of the quotation.
#[must_use]
pub fn currency_of(field: Field, shop: &Shop) -> Option<&str> {
    let of = if is_the_shops(field) {
        shop.own()
    } else {
        shop
    };
    (field.kind() == FieldKind::Money).then_some(of.tables.rates.currency.as_str())
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
