//! Words of the papers that follow an order.

/// The order confirmation's name.
pub const CONFIRMATION: &str = "Order confirmation";
/// The receiving slip's name.
pub const RECEIVING: &str = "Receiving slip";
/// The inspection record's name.
pub const INSPECTION: &str = "Hole inspection record";
/// The certificate's name.
pub const CERTIFICATE: &str = "Certificate of conformance";
/// The packing list's name.
pub const PACKING: &str = "Packing list";
/// The label's name.
pub const LABEL: &str = "Box label";

/// What the confirmation asks for.
pub const PLEASE_CHECK: &str = "Please check quantity, revision, price and dates, and tell us within \
     two working days where they are not as you ordered them.";
/// What starts the clock.
pub const STARTS: &str = "Work starts when the parts are here, counted and as described, with the \
     drawing in the revision named above.";
/// What still holds from the quotation.
pub const STILL_HOLDS: &str = "Assumptions, exclusions and terms of our quotation hold unless named \
     otherwise here.";

/// What the receiving slip is for.
pub const RECEIVED: &str = "What came in, as it came in. Damage that is not named here was not seen \
     at receipt.";
/// What both sides sign.
pub const RECEIVED_BY_SHOP: &str = "Counted and looked over by the shop.";
/// What the customer signs.
pub const RECEIVED_BY_CUSTOMER: &str = "Seen by the customer; work may begin on parts in this \
     condition.";

/// How a hole is checked.
pub const HOW_CHECKED: &str = "A pin of the lower limit goes through its whole depth, a pin of the \
     upper limit does not go in. Measured sizes are written where they were measured.";
/// What the inspector signs.
pub const INSPECTED: &str = "Every hole named above was checked as noted.";

/// What was done, in words.
pub const PROCESS: &str = "The holes named on the drawing were drilled by electrical discharge \
     machining with a rotating tube electrode, flushed with dielectric. A thin recast layer and \
     below it a thin layer changed by heat remain in the holes unless their removal was ordered.";
/// What is stated.
pub const STATEMENT: &str = "We state that the holes of the parts listed above were made and \
     inspected to the drawing and revision named, as far as the order covers them, with no \
     deviation but those listed.";
/// What is not stated.
pub const NOT_STATED: &str = "Material, heat treatment and all features that we did not make are as \
     supplied by the customer and are not covered by this statement.";
/// No deviation is on record.
pub const NO_DEVIATIONS: &str = "No deviation is on record.";

/// Cautions for whoever unpacks.
pub const UNPACKING: [&str; 4] = [
    "Hole edges can be sharp, and thin cores can be left in blind holes: wear gloves and eye \
     protection, and follow the rules of your site.",
    "Parts may carry water or rust protection from the process: dry and protect them at once where \
     they can rust.",
    "Electrodes, fixtures and test pieces stay with the shop unless they are listed here.",
    "Count the parts against this list before they leave their packing, and tell us of what is \
     missing.",
];
