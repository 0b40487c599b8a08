//! Captions of fields that several papers have.

use crate::words::customer::Captions;

/// What customers read of them in English.
pub(super) const WORDS: Captions = Captions {
    number: NUMBER,
    date: DATE,
    part: PART,
    revision: REVISION,
    customer: CUSTOMER,
    customers_order: CUSTOMERS_ORDER,
    part_name: PART_NAME,
    drawing: DRAWING,
    condition: CONDITION,
    hardness: HARDNESS,
    name: NAME,
    signature: SIGNATURE,
    quantity: QUANTITY,
    parts_ordered: PARTS_ORDERED,
    mass: MASS,
    received_by: RECEIVED_BY,
};

/// The paper's number.
pub const NUMBER: &str = "number";
/// The day.
pub const DATE: &str = "date";
/// The part.
pub const PART: &str = "part";
/// Its revision.
pub const REVISION: &str = "rev";
/// Who ordered.
pub const CUSTOMER: &str = "customer";
/// The customer's number of the order.
pub const CUSTOMERS_ORDER: &str = "customer's PO";
/// The part's name.
pub const PART_NAME: &str = "part name";
/// The drawing.
pub const DRAWING: &str = "drawing";
/// The work material.
pub const MATERIAL: &str = "material";
/// What state the material is in.
pub const CONDITION: &str = "condition";
/// Its hardness.
pub const HARDNESS: &str = "hardness";
/// Who signs.
pub const NAME: &str = "name";
/// The signature.
pub const SIGNATURE: &str = "signature";
/// How many parts.
pub const QUANTITY: &str = "quantity";
/// How many parts were ordered.
pub const PARTS_ORDERED: &str = "parts ordered";
/// The mass.
pub const MASS: &str = "mass";
/// Who took it in.
pub const RECEIVED_BY: &str = "received by";
