//! Words of the receiving slip.

/// The receiving slip's name.
pub const TITLE: &str = "Receiving slip";
/// What the receiving slip is for.
pub const RECEIVED: &str = "Parts as they were received. Damage that is not named here was not seen \
     at receipt.";
/// What both sides sign.
pub const RECEIVED_BY_SHOP: &str = "Counted and looked over by the shop.";
/// What the customer signs.
pub const RECEIVED_BY_CUSTOMER: &str = "Seen by the customer; work may begin on parts in this \
     condition.";
/// Name of the section that is signed.
pub const SIGNED: &str = "Signed";
/// Caption of the parts that are here.
pub const SO_FAR: &str = "received so far";
/// Caption of the parts that are not.
pub const STILL_MISSING: &str = "still missing";
/// Caption of the spare parts.
pub const SPARES: &str = "spares sent";
/// Name of the section of one delivery.
pub const PARTS: &str = "Parts";
/// Nothing came in yet.
pub const NOTHING: &str = "No parts are on record as received.";
/// Caption of the parts of a delivery.
pub const COUNT: &str = "count";
/// Caption of the material's heat.
pub const HEAT: &str = "heat";
/// Caption of a coating.
pub const COATING: &str = "coating";
/// Caption of the pieces.
pub const PIECES: &str = "pieces, serial numbers";
/// Caption of damage.
pub const DAMAGE: &str = "existing damage";
/// Caption of what was attached.
pub const FILES: &str = "photos and files";
